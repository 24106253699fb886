/** How a card looks wherever it is shown. Everything that carries meaning is told by words, weight and frames, so that black and white loses nothing. */
export const cardStyle = `
:root { --ink: #111; --paper: #fff; --quiet: #444; --rule: #999; --tint: #f1f1ee; --danger: #b3001b; --warning: #ff8a1f; --caution: #ffd21f; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 1em/1.4 system-ui, "Liberation Sans", Arial, sans-serif; overflow-wrap: anywhere; text-wrap: pretty; }
h1, h2, h3, h4, h5, h6 { line-height: 1.2; break-after: avoid; margin: 1.2em 0 0.5em; }
h1 { font-size: 1.7em; margin-top: 0.3em; }
h2 { font-size: 1.25em; border-bottom: 3px solid var(--ink); padding-bottom: 0.15em; }
h3 { font-size: 1.1em; }
h4, h5, h6 { font-size: 1em; }
p, ul, dl, figure { margin: 0.3em 0; }
ul { padding-inline-start: 1.2em; }
table { border-collapse: collapse; width: 100%; margin: 0.6em 0; }
th, td { border: 1px solid var(--rule); padding: 0.3em 0.5em; text-align: start; vertical-align: top; }
thead th { overflow-wrap: normal; background: var(--tint); border-bottom: 2px solid var(--ink); }
caption { text-align: start; font-weight: 700; padding: 0.2em 0; }
code { font-family: ui-monospace, "Liberation Mono", monospace; font-size: 0.9em; }
tbody th, tbody td { min-width: 6.5em; }
.fill { min-width: 7em; height: 2em; }
.standing-caution { border-inline-start: 5px solid var(--ink); padding-inline-start: 0.6em; }
.draft-mark { border: 3px solid var(--danger); padding: 0.4em 0.6em; }
.draft-mark strong { color: var(--danger); }
.open-warnings { border: 3px double var(--ink); padding: 0.2em 0.6em; margin: 0.6em 0; }
.facts { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); border-top: 1px solid var(--rule); }
.facts > div { display: grid; grid-template-columns: 7em minmax(0, 1fr); gap: 0.5em; padding: 0.25em 0; border-bottom: 1px solid var(--rule); }
.facts dt { color: var(--quiet); }
.facts dd { margin: 0; }
.facts ul { margin: 0; }
time { white-space: nowrap; }
.checklist, .asides, .limits { list-style: none; padding: 0; }
.checklist li { padding-inline-start: 1.8em; text-indent: -1.8em; margin: 0.3em 0; }
.checklist li > div { text-indent: 0; }
.unit, .step, .admonition, .record, .revisions, .standing, .keep-words, .record-fields > div, tr { break-inside: avoid; }
table:not(.rows) > tbody > tr:last-child { break-before: avoid; }
.admonition, .asked, .repeat-words, .together-words, .choose-words, .for-each-words, .keep-words, .lane-role { break-after: avoid; }
.whole-card .admonition { break-after: auto; }
.step, .standing { display: grid; grid-template-columns: 6.5em 2.2em auto minmax(0, 1fr); column-gap: 0.5em; padding: 0.45em 0; border-bottom: 1px solid var(--rule); }
.step.is-changed, .admonition.is-changed { border-inline-start: 0.35em solid #1a1a1a; padding-inline-start: 0.4em; }
.standing .tick { grid-column: 3; }
.who { margin: 0; color: var(--quiet); font-size: 0.9em; line-height: 1.55; }
.number { margin: 0; font-weight: 700; text-align: end; font-variant-numeric: tabular-nums; }
.lines > .line + .line { margin-top: 0.4em; }
.sentence { margin: 0; font-size: 1.05em; }
.limit, .limits { font-weight: 700; }
.letter { white-space: nowrap; font-weight: 700; }
.meanwhile, .do, .way-body { border-inline-start: 5px solid var(--tint); padding-inline-start: 0.6em; }
.meanwhile { margin: 0.3em 0; }
.asides, .reason { color: var(--quiet); }
.stage > .only, .lines > .only { break-after: avoid; }
.lines > .only { margin: 0; font-weight: 600; }
.failure, .flow, .skip { border-inline-start: 3px solid var(--rule); padding-inline-start: 0.5em; }
.flow { font-weight: 700; margin: 0.6em 0; }
.box { display: inline-block; width: 1.05em; height: 1.05em; border: 2px solid var(--ink); vertical-align: -0.15em; }
.numbered-box { white-space: nowrap; margin-inline-end: 0.9em; }
.tick { min-width: 1.1em; padding-top: 0.1em; }
.blanks { display: flex; flex-wrap: wrap; gap: 0.5em 1.2em; padding-top: 0.4em; }
.blank { white-space: nowrap; }
.line-short, .line-value, .line-wide { display: inline-block; border-bottom: 1px solid var(--ink); height: 1.2em; vertical-align: -0.2em; }
.line-short { width: 2.5em; } .line-value { width: 5em; } .line-wide { width: 8em; }
.answers { white-space: nowrap; margin-inline-start: 0.6em; }
.answer { margin-inline-end: 1em; }
.admonition { display: flex; border: 2px solid var(--ink); margin: 0.6em 0; }
.signal { display: flex; flex: none; align-items: center; gap: 0.35em; margin: 0; padding: 0.4em 0.6em; font-weight: 800; letter-spacing: 0.04em; min-width: 8.2em; border-inline-end: 2px solid var(--ink); -webkit-print-color-adjust: exact; print-color-adjust: exact; }
.admonition-text { padding: 0.3em 0.7em; font-weight: 600; }
.is-danger { border-width: 5px; } .is-danger > .signal { background: var(--danger); color: #fff; }
.is-warning > .signal { background: var(--warning); color: #000; } .is-warning { border-width: 4px; }
.is-caution > .signal { background: var(--caution); color: #000; }
.is-note { border-width: 1px; } .is-note > .signal { border-inline-end-width: 1px; } .is-note > .admonition-text { font-weight: 400; }
.is-notice > .signal { background: #0b4f9e; color: #fff; font-style: italic; }
.alert { width: 1.3em; height: 1.2em; flex: none; }
.is-danger .alert-mark { fill: var(--danger); } .is-warning .alert-mark { fill: var(--warning); } .is-caution .alert-mark { fill: var(--caution); }
.branch, .repeat, .together, .choose, .for-each, .do { margin: 0.6em 0; }
.way-body { margin-inline-start: 0.5em; }
.asked, .repeat-words, .together-words, .choose-words, .for-each-words { font-weight: 700; margin: 0.4em 0; }
.repeat { border-inline-start: 5px double var(--ink); padding-inline-start: 0.6em; }
.lanes { border: 1px solid var(--ink); }
.lane-heads { display: none; }
.lane-row { display: grid; grid-template-columns: repeat(auto-fit, minmax(14em, 1fr)); gap: 0; }
.lane { padding: 0 0.6em 0.4em; border-inline-start: 1px solid var(--ink); margin-inline-start: -1px; }
.lane-role { font-weight: 700; border-bottom: 2px solid var(--ink); margin: 0.3em 0; }
.lane .step, .rows .step { grid-template-columns: 1.8em auto minmax(0, 1fr); }
.lane .who, .of-one-role .who, .one-role .who { display: none; }
.rows .who { grid-column: 1 / -1; } .for-each > .who { break-after: avoid; }
.one-role .step, .one-role .standing { grid-template-columns: 2.2em auto minmax(0, 1fr); }
.one-role .standing .tick { grid-column: 2; }
.rows > tbody > tr > th { width: 28%; }
.rows > tbody > tr { break-inside: auto; }
.place { display: block; font-weight: 400; color: var(--quiet); }
.keep { border: 3px solid var(--ink); padding: 0.3em 0.6em; margin: 0.6em 0; }
.keep-words { border-bottom: 1px dashed var(--ink); font-weight: 600; }
.figure img { display: block; max-width: 100%; height: auto; max-height: 18em; }
figcaption { color: var(--quiet); break-before: avoid; }
.figure, .left > p { break-inside: avoid; }
.left > p { break-after: avoid; }
.standing { break-before: avoid; }
.gauged { display: flex; flex-wrap: wrap; align-items: center; gap: 0 1.5em; }
.failures table { text-wrap: wrap; }
.failures tr > * { min-width: 0; }
.failures tr > :first-child { width: 1%; white-space: nowrap; } .failures tr > :last-child { width: 42%; }
.drawn { break-inside: avoid; margin: 0.8em 0; }
.picture { display: block; max-width: 100%; max-height: 23cm; height: auto; font: 10px system-ui, "Liberation Sans", Arial, sans-serif; fill: var(--ink); }
.picture .frame { fill: #fff; stroke: var(--ink); stroke-linejoin: round; } .picture .source { fill: var(--tint); stroke-width: 2.5; } .picture .end { stroke-width: 2.5; }
.picture .arrow { fill: none; stroke: var(--ink); } .picture .is-dashed { stroke-dasharray: 4 3; } .picture .ground { fill: #fff; }
.picture .scale-line, .picture .mark { stroke: var(--ink); fill: none; } .picture .band { fill: #9cc79f; stroke: var(--ink); stroke-width: 1.5; }
.picture .run { fill: #d4d4d4; stroke: var(--ink); stroke-width: 1.5; } .picture .rest { fill: #fff; stroke: var(--ink); stroke-dasharray: 3 3; }
.picture .run, .picture .band, .picture .source { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
.record-fields > div { display: grid; grid-template-columns: 20em minmax(0, 1fr); border-bottom: 1px solid var(--rule); min-height: 2.4em; align-items: end; padding: 0.2em 0; }
.record-fields dd { margin: 0; } .record-fields .line-wide { width: 100%; border: 0; }
.finding { border: 2px solid var(--danger); padding: 0.2em 0.5em; margin: 0.3em 0; }
.finding.is-warning { border: 2px dashed var(--ink); }
.to-fill td { height: 2em; }
`;
