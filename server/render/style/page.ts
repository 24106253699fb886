/** The card on paper: what stands in the margins of each sheet, and where sheets may end. */
import type { Context } from '../context.ts';
import { cssString } from '../encoding.ts';
import { jobHead } from '../record-form.ts';

/** A longer title is cut in the margin; it stands in full at the head of the card. */
const longestRunningTitle = 70;

export function pageStyle(context: Context): string {
  const { input, words, isDraft } = context;
  const { card, settings } = input;
  const size = settings.paper === 'printer' ? '' : `size: ${settings.paper};`;
  const blanks = jobHead(context).map((text) => `${text}: ______________`);
  const head = `${runningTitle(context)}\n${blanks.join('  ')}`;
  const revision = card.revision
    ? [words.front.revision, card.revision.text, card.revision.date].filter(Boolean).join(' ')
    : '';
  const draft = isDraft
    ? `@bottom-center { content: ${cssString(words.front.draft)}; font: 800 15pt sans-serif; color: #b3001b; }`
    : '';
  return `
@page {
  ${size} margin: 20mm 14mm 17mm;
  @top-left { content: ${cssString(head)}; white-space: pre; font: 600 9.5pt sans-serif; width: 72%; text-align: start; vertical-align: bottom; padding-bottom: 3mm; }
  @top-right { content: ${cssString(`${revision}\n `)}; white-space: pre; font: 9.5pt sans-serif; text-align: end; vertical-align: bottom; padding-bottom: 3mm; }
  @bottom-right { content: ${pageCounter(words.front.page)}; font: 9.5pt sans-serif; }
  ${draft}
}
@page stop {
  @right-middle { content: ${cssString(words.heading.ifYouStop)}; font: 800 15pt sans-serif; writing-mode: vertical-rl; text-align: center; vertical-align: middle; width: 6mm; height: 100%; margin-left: 3mm; border-right: 5mm solid #000; }
}
@media print {
  body { font-size: 10pt; line-height: 1.3; }
  h1, h2, h3, h4, h5, h6 { margin: 0.8em 0 0.3em; }
  .step, .standing { padding: 0.3em 0; }
  .admonition, .branch, .repeat, .together, .choose, .for-each, .do, .drawn, .keep { margin: 0.4em 0; }
  table { margin: 0.4em 0; }
  th, td { padding: 0.2em 0.4em; }
  .failures table, .accepted table, .left table { font-size: 9pt; }
  .if-you-stop { page: stop; break-before: page; }
  thead { display: table-header-group; }
  p, li { orphans: 3; widows: 3; }
  ${isDraft ? watermark(words.front.draft) : ''}
}
`;
}

export function runningTitle({ input: { card } }: Context): string {
  return [card.number?.text, shortened(card.title)].filter(Boolean).join('  ');
}

/** Fixed things are printed on every sheet, also where a browser knows no margin boxes. */
function watermark(word: string): string {
  return `body.is-draft::before { content: ${cssString(word)}; position: fixed; inset: 0; display: flex; align-items: center; justify-content: center; font: 800 90pt sans-serif; color: #0000001c; transform: rotate(-35deg); z-index: 1; -webkit-print-color-adjust: exact; print-color-adjust: exact; }`;
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
