/** The card on paper: what stands in the margins of each sheet, and where sheets may end. */
import { shortDigest } from '../../../shared/page-text.ts';
import { type Context, openWarnings } from '../context.ts';
import { cssString } from '../encoding.ts';
import { typesetText } from '../language/typeset.ts';
import { jobHead } from '../record-form.ts';

/** A longer title is cut in the margin; it stands in full at the head of the card. */
const longestRunningTitle = 70;

export function pageStyle(context: Context): string {
  const { input, words, isDraft } = context;
  const { card, settings } = input;
  const size = settings.paper === 'printer' ? '' : `size: ${settings.paper};`;
  const blanks = jobHead(context).map((text) => typesetText(`${text}: ______________`, words));
  const head = `${runningTitle(context)}\n${blanks.join('  ')}`;
  const revision = card.revision
    ? [words.front.revision, card.revision.text, card.revision.date].filter(Boolean).join(' ')
    : '';
  return `
@page {
  ${size} margin: ${settings.print === 'compact' ? '14mm 8mm 10mm' : '17mm 12mm 10mm'};
  @top-left { content: ${cssString(head)}; white-space: pre; font: 600 9.5pt sans-serif; width: 72%; text-align: start; vertical-align: bottom; padding-bottom: 3mm; }
  @top-right { content: ${cssString(`${revision}\n `)}; white-space: pre; font: 9.5pt sans-serif; text-align: end; vertical-align: bottom; padding-bottom: 3mm; }
  @bottom-right { content: ${pageCounter(words.front.page)}; font: 9.5pt sans-serif; }
  ${standing(context)}
}
@page stop {
  @right-middle { content: ${cssString(words.heading.ifYouStop)}; font: 800 15pt sans-serif; writing-mode: vertical-rl; writing-mode: sideways-rl; text-orientation: sideways; text-align: center; vertical-align: middle; width: 6mm; height: 100%; margin-left: 3mm; border-right: 5mm solid #000; }
}
${isDraft ? watermark(words.front.draft) : ''}
`;
}

/** What whoever holds only one sheet must know of the whole card. */
function standing(context: Context): string {
  const { words, isDraft } = context;
  const box = (text: string, style: string) => `@bottom-center { content: ${cssString(text)}; ${style} }`;
  if (isDraft) return box(words.front.draft, 'font: 800 15pt sans-serif; color: #b3001b;');
  const { length } = openWarnings(context);
  return length === 0
    ? ''
    : box(
        words.front.openWarnings(length),
        'font: 700 10pt sans-serif; border: 3pt double #111; height: 6mm; margin-top: 1mm;',
      );
}

/** Sheets are read at arm's length too, but each costs a turn of the page. */
export const printStyle = `
@media print {
  body, .picture { font-family: Arial, "Liberation Sans", Helvetica, system-ui, sans-serif; }
  body { font-size: 10pt; line-height: 1.15; }
  h1, h2, h3, h4, h5, h6 { margin: 0.5em 0 0.15em; }
  .step, .standing { padding: 0.18em 0; grid-template-columns: 8.4em 2.2em auto minmax(0, 1fr); }
  .lines > .line + .line { margin-top: 0.2em; }
  p, ul, dl, figure { margin: 0.15em 0; }
  .blanks { padding-top: 0.25em; }
  .checklist li { margin: 0.15em 0; }
  .admonition, .branch, .repeat, .together, .choose, .for-each, .do, .drawn, .keep { margin: 0.4em 0; }
  table { margin: 0.4em 0; }
  th, td { padding: 0.12em 0.4em; }
  .remark { display: inline; margin-inline-end: 0.6em; }
  .figure img { max-height: 12em; }
  .revisions .to-fill:last-child { display: none; }
  .record-fields > div { min-height: 1.65em; }
  .fill { height: 1.7em; }
  caption, thead { break-after: avoid; }
  .failures table, .accepted table { font-size: 8.5pt; }
  .failures tr > * { padding-block: 0.05em; }
  .left .checklist { columns: 2; }
  .left .checklist li { break-inside: avoid; margin: 0.1em 0; }
  .if-you-stop { page: stop; break-before: page; }
  thead, .lane-heads { display: table-header-group; }
  .lanes { display: table; width: 100%; table-layout: fixed; border-collapse: collapse; }
  .lane-heads { break-inside: avoid; break-after: avoid; }
  .lane-heads > div, .lane-row { display: table-row; }
  .lane-heads .lane-role, .lane { display: table-cell; padding-inline: 0.6em; border-inline-start: 1px solid var(--ink); }
  .lane > .lane-role { display: none; }
  p, li { orphans: 3; widows: 3; }
}
`;

/** For whoever wants one sheet: all steps, limits and admonitions; what only shows them once more is left out. */
export const compactPrintStyle = `
@media print {
  body { font-size: 7.5pt; line-height: 1.12; }
  h1, h2, h3, h4, h5, h6 { margin: 0.3em 0 0.1em; }
  .lanes, .lane-row, .lane, .lane > .lane-role { display: block; }
  .lane-heads { display: none; }
  main { columns: 2; column-gap: 5mm; column-rule: 1px solid #999; }
  .overview, .way-through, .failures, .revisions, .of-scale { display: none; }
  .if-you-stop { page: auto; break-before: auto; break-inside: avoid; border: 3px solid #000; padding: 0 0.5em; margin-top: 0.6em; }
  .step, .standing { grid-template-columns: 5.6em 1.6em auto minmax(0, 1fr); column-gap: 0.4em; padding: 0.08em 0; }
  .line > p, .line > .blanks, .line > .gauged, .gauged > .blanks, .blanks > .blank { display: inline; margin-inline-end: 0.5em; padding-block: 0; }
  .lines > .line + .line { margin-top: 0; }
  .failure { font-style: italic; border: 0; padding: 0; }
  .signal { min-width: 0; padding: 0.2em 0.4em; }
  .admonition-text { padding-block: 0.1em; }
  .admonition, .branch, .repeat, .together, .choose, .for-each, .do, .keep { margin: 0.2em 0; }
  .who { font-size: 0.85em; line-height: 1.1; }
  .asides, .asides li { display: inline; margin-inline-end: 0.5em; }
  .figure img { max-height: 7em; }
  .record-fields > div { grid-template-columns: repeat(2, minmax(0, 1fr)); min-height: 1.6em; padding: 0; }
  .checklist li, .left .checklist li { margin: 0; }
  .accepted table { font-size: 7.5pt; }
}
`;

/** The digest of the page, on each sheet. */
export function sealStyle(digest: string, { words }: Context): string {
  const text = cssString(words.front.digest(shortDigest(digest)));
  return `@page { @bottom-left { content: ${text}; font: 9.5pt sans-serif; white-space: nowrap; } }`;
}

export function runningTitle({ input: { card } }: Context): string {
  return [card.number?.text, shortened(card.title)].filter(Boolean).join('  ');
}

/** Fixed things are printed on every sheet, also where a browser knows no margin boxes. */
function watermark(word: string): string {
  return `@media print { body.is-draft::before { content: ${cssString(word)}; position: fixed; inset: 0; display: flex; align-items: center; justify-content: center; font: 800 90pt sans-serif; color: #0000001c; transform: rotate(-35deg); z-index: 1; -webkit-print-color-adjust: exact; print-color-adjust: exact; } }`;
}

function pageCounter(page: Context['words']['front']['page']): string {
  const counters: Readonly<Record<string, string>> = { page: 'counter(page)', pages: 'counter(pages)' };
  return page('page', 'pages')
    .map((part) => counters[part] ?? cssString(part))
    .join(' ');
}

function shortened(title: string): string {
  const characters = [...title];
  return characters.length > longestRunningTitle ? `${characters.slice(0, longestRunningTitle - 1).join('')}…` : title;
}
