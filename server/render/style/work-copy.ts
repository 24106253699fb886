/** The card while it is worked with on a screen: big targets for gloves, one step that stands out, a bar that is always there. */
export const workCopyStyle = `
[hidden] { display: none !important; }
.tick-button, .work-bar, .work-record, .work-head, .work-hand-over, .work-conflicts { display: none; }
.work-tools { display: flex; flex-wrap: wrap; gap: 0.6rem; align-items: center; margin: 0 0 1rem; }
button, input, select, textarea { font: inherit; color: inherit; min-height: 3rem; border-radius: 0.4rem; border: 2px solid var(--ink); background: var(--paper); padding: 0.3rem 0.9rem; }
button { cursor: pointer; }
button.main { background: #00468c; border-color: #00468c; color: #fff; font-weight: 700; }
button.stop { border-color: var(--danger); color: var(--danger); font-weight: 700; }
button[aria-pressed="true"] { outline: 4px solid var(--ink); outline-offset: 2px; }
button:focus-visible, :is(input, textarea):focus-visible, select:focus-visible, a:focus-visible { outline: 4px solid #e07000; outline-offset: 2px; }
.buttons, .entry-form { display: flex; flex-wrap: wrap; gap: 0.6rem; align-items: end; margin: 0.4rem 0; }
.field { min-width: 0; display: flex; flex-direction: column; gap: 0.15rem; flex: 1 1 9rem; }
.field span { color: var(--quiet); font-size: 0.85em; }
input, select, textarea { min-width: 0; max-width: 100%; box-sizing: border-box; }
input[type=date] { min-width: min(11em, 100%); }
.field:has(textarea) { flex-basis: 100%; }
.unit { align-self: center; }
.entry-form > :is(p, h3, ul), .buttons > .entry-form { flex-basis: 100%; }
.buttons > * { min-width: 0; }
.question, .exit p, .fault, .alarm { flex-basis: 100%; font-weight: 700; }
.fault, .alarm, .verdict.is-outside, .clock.is-over, .watch-time.is-over { color: var(--danger); font-weight: 700; }
.fault:empty, .alarm:empty, .live:empty { display: none; }
.exit { border: 4px solid var(--danger); padding: 0.3rem 0.7rem; margin: 0.4rem 0; }
.clock { font-size: 1.6em; font-weight: 700; font-variant-numeric: tabular-nums; margin: 0.3rem 0; }
.shut { font-weight: 700; border: 3px solid var(--ink); padding: 0.5rem 0.9rem; margin: 0; }
.watch, .keep-note { border-inline-start: 4px solid var(--ink); padding-inline-start: 0.7rem; margin: 0.5rem 0; }
.glued { white-space: nowrap; }
.entry { color: #005a2b; font-weight: 700; }
.is-ticked { background: linear-gradient(45deg, transparent 44%, var(--ink) 44% 56%, transparent 56%), linear-gradient(-45deg, transparent 44%, var(--ink) 44% 56%, transparent 56%); -webkit-print-color-adjust: exact; print-color-adjust: exact; }
.file { position: relative; display: inline-flex; flex-wrap: wrap; max-width: 100%; align-items: center; gap: 0.5rem; }
.start-again { display: inline-flex; flex-wrap: wrap; gap: 0.6rem; align-items: center; }

.altered { border: 4px solid; padding: 0.5rem 0.8rem; font-weight: 800; }
.load-question { flex-basis: 100%; border: 3px solid; border-radius: 0.4rem; padding: 0.5rem 0.8rem; }
.conflict { display: flex; flex-wrap: wrap; gap: 0.6rem 1.5rem; border: 3px solid; border-radius: 0.4rem; padding: 0 0.8rem 0.6rem; margin: 0.6rem 0; }
.conflict > div { flex: 1 1 16rem; }
@media screen {
  .is-working { padding-bottom: 14rem; }
  .is-working .work-bar { display: block; position: fixed; left: 0; right: 0; bottom: 0; background: var(--paper); border-top: 4px solid var(--ink); padding: 0.3rem max(1rem, calc(50vw - 29rem)); z-index: 2; }
  .is-working .bar-content > .buttons { flex-wrap: nowrap; align-items: stretch; margin: 0; }
  .is-working .bar-content > .buttons button { max-height: 3.2rem; overflow: hidden; font-size: 0.9rem; line-height: 1.1; padding-block: 0; }
  .is-working .rests { display: flex; gap: 0.6rem; overflow: auto; }
  .is-working .rests .clock { flex: 1 0 15rem; max-height: 2.2em; overflow: hidden; font-size: 0.9rem; line-height: 1.1; margin: 0; }
  .is-working .work-record, .is-working .work-head, .is-working .work-hand-over, .is-working .work-conflicts { display: block; }
  .is-working .work-bar[hidden] { display: none; }
  .is-working .bar-content > .buttons .now { display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 3; flex: 1 1 14rem; text-align: start; font-weight: 700; }
  .is-working .tick > .box, .is-working .letter > .box, .is-working .blanks, .is-working .answers, .is-working .asked > .box { display: none; }
  .is-working .tick-button { display: block; width: 3rem; height: 3rem; padding: 0; font-weight: 800; font-size: 1.4em; line-height: 1; }
  .is-working .is-done > .tick > .tick-button::after { content: "✓"; }
  .is-working .is-done { color: var(--quiet); }
  .is-working .is-now { outline: 5px solid #00468c; outline-offset: 4px; background: #eef4fb; color: var(--ink); }
  .is-working .facts > .is-now { grid-column: 1 / -1; }
  .is-working .step, .is-working .standing { padding: 0.8rem 0.3rem; font-size: 1.1em; }
  body:not(.is-working) .controls, body:not(.is-working) .entry { display: none; }
  .live { font-weight: 700; position: absolute; bottom: 100%; left: 0; right: 0; margin: 0; padding: 0.2rem 0.4rem; background: var(--paper); border-top: 4px solid var(--ink); }
  .signals { background: var(--caution); color: #000; border: 4px solid #000; padding: 0.6rem; font-size: 1.4em; animation: call 0.5s steps(2) 6; }
}
@media screen and (max-width: 40rem) {
  .is-working .work-bar { padding: 0.1rem 0.4rem; border-top-width: 2px; }
  .is-working .bar-content > .buttons { gap: 0.3rem; }
  .is-working .bar-content > .buttons button { flex: 1 1 0; padding: 0 0.3rem; font-size: 0.75rem; border-width: 1px; max-height: 3rem; }
  .is-working .bar-content > .buttons .undo { max-width: 33%; }
  .is-working .bar-content > .buttons .now { flex: 2 1 0; }
  .is-working .rests .clock { flex-basis: 42%; font-size: 0.7rem; }
  .work-record th:last-child { width: 55%; }
}
@keyframes call { 50% { outline: 12px solid #000; } }
@media (prefers-reduced-motion: reduce) { .signals { animation: none; } }
@media print {
  .work-tools, .controls, .tick-button, .work-bar { display: none; }
  .has-record .work-record, .has-record .work-head, .has-record .work-conflicts { display: block; }
  .not-compared { display: none; }
  .has-record .record { display: none; }
  .work-hand-over:not(:empty) { display: block; }
  .hand-over { break-before: page; }
  .prints-page > :not(main, .altered), .prints-page main > :not(.work-hand-over), .prints-page .hand-over:not(.is-printed) { display: none; }
  .hand-over.is-printed { break-before: auto; }
}
`;
