/** The card on a screen: read at arm's length, and no wider than a line can be followed. */
export const screenStyle = `
@media screen {
  body { font-size: 1.15rem; padding: 1rem max(1rem, calc(50vw - 29rem)) 4rem; }
  .if-you-stop { border: 6px solid var(--ink); padding: 0 1rem 1rem; margin-top: 2rem; }
  .step:target { background: var(--tint); }
}
@media screen and (max-width: 40rem) {
  body { padding-inline: 0.6rem; }
  .facts > div, .record-fields > div { grid-template-columns: minmax(0, 1fr); gap: 0; }
  table { table-layout: fixed; }
  thead th { font-size: 0.75em; overflow-wrap: anywhere; hyphens: auto; }
  tbody th, tbody td, .fill { min-width: 0; padding: 0.25em; }
  .facts, .lane-row { grid-template-columns: minmax(0, 1fr); }
  .rows thead { display: none; }
  .rows, .rows > tbody, .rows > tbody > tr, .rows > tbody > tr > :is(th, td) { display: block; width: auto; }
  .blank, .answers { white-space: normal; }
  .step, .standing { grid-template-columns: 2.2em auto minmax(0, 1fr); }
  .who { grid-column: 1 / -1; }
  .standing .tick { grid-column: 2; }
  .admonition { flex-direction: column; }
  .signal { border-inline-end: 0; border-bottom: 2px solid var(--ink); }
}
`;
