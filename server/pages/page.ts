/** A page for whoever reviews, beside the cards: one file, which asks nothing of the network and runs at most the script given. */
import type { ElementContent } from 'hast';
import { toHtml } from 'hast-util-to-html';
import { h } from 'hastscript';
import { withoutHidden } from '../../shared/hidden.ts';
import { generatorOf } from '../../shared/made-by.ts';
import { policyHash, scriptText } from '../render/encoding.ts';

export function page(title: string, content: readonly ElementContent[], script?: string): string {
  const code = script === undefined ? undefined : scriptText(script);
  const scripts = code === undefined ? "'none'" : policyHash(code);
  const policy = `default-src 'none'; style-src ${policyHash(style)}; script-src ${scripts}; base-uri 'none'; form-action 'none'`;
  const tree = [
    { type: 'doctype' as const },
    h('html', { lang: 'en' }, [
      h('head', [
        h('meta', { charSet: 'utf-8' }),
        h('meta', { httpEquiv: 'Content-Security-Policy', content: policy }),
        h('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
        h('meta', { name: 'generator', content: generatorOf('review') }),
        h('title', title),
        h('style', style),
      ]),
      h('body', [
        h('main', { className: code === undefined ? [] : ['tables'] }, [h('h1', title), ...content]),
        ...(code === undefined ? [] : [h('script', code)]),
      ]),
    ]),
  ];
  return `${withoutHidden(toHtml({ type: 'root', children: tree }))}\n`;
}

const style = `
body { font: 16px/1.4 system-ui, "Liberation Sans", Arial, sans-serif; color: #1a1a1a; background: #fff; margin: 0; }
main { max-width: 75rem; margin: 0 auto; padding: 1rem 1.5rem 3rem; }
h1 { font-size: 1.6rem; margin: 0.5rem 0; }
h2 { font-size: 1.25rem; margin: 2rem 0 0.5rem; border-bottom: 2px solid #1a1a1a; }
h3 { font-size: 1.05rem; margin: 1.2rem 0 0.3rem; }
p, ul, ol { margin: 0.3rem 0; }
table { border-collapse: collapse; width: 100%; margin: 0.5rem 0 1rem; }
caption { text-align: start; font-weight: 600; padding: 0.3rem 0; }
th, td { text-align: start; vertical-align: top; padding: 0.35rem 0.6rem; border: 1px solid #8a8a8a; overflow-wrap: anywhere; }
thead th { background: #ececec; overflow-wrap: normal; }
th button { font: inherit; font-weight: inherit; background: none; border: 0; padding: 0; cursor: pointer; text-align: start; }
th button::after { content: "\\a0↕"; color: #555; }
[aria-sort="ascending"] button::after { content: "\\a0↑"; }
[aria-sort="descending"] button::after { content: "\\a0↓"; }
.controls { position: sticky; top: 0; background: #fff; padding: 0.5rem 0; border-bottom: 1px solid #8a8a8a; }
.controls input { font: inherit; width: 22rem; max-width: 100%; padding: 0.25rem 0.4rem; }
code { white-space: nowrap; color: inherit; background: none; padding: 0; }
.wide { overflow-x: auto; }
[hidden] { display: none; }
.narrow { white-space: nowrap; width: 1%; }
.place { color: #444; font-family: ui-monospace, "Liberation Mono", monospace; font-size: 0.85rem; }
.mark { display: inline-block; white-space: nowrap; min-width: 4.6em; text-align: center; font-weight: 700; border-radius: 0.2em; padding: 0 0.4em; border: 1px solid; }
.bad { color: #8f0018; background: #fff0f1; }
.care { color: #6b4400; background: #fff6e0; }
.good { color: #0b5a26; background: #eefaf0; }
.plain { color: #333; background: #f4f4f4; }
@media print {
  body { font-size: 10pt; }
  main { max-width: none; padding: 0; }
  thead { display: table-header-group; }
  tr { break-inside: avoid; }
  tbody tr:first-child { break-before: avoid; }
  h2, h3, caption { break-after: avoid; }
  .controls { display: none; }
  .tables { page: tables; font-size: 8.5pt; }
  .tables th, .tables td { padding: 0.2rem 0.35rem; }
  th button { display: contents; }
  th button::after { content: none; }
  .wide { overflow: visible; }
  .place { font-size: 0.8em; white-space: normal; width: auto; }
  .mark { min-width: 0; }
  .tables .upright tr > :not(:first-child) { writing-mode: vertical-rl; width: 1%; white-space: nowrap; padding-inline: 0.3rem; padding-block: 0.1rem; }
  .upright .mark { padding: 0.3em 0; }
  .upright tr > :first-child { min-width: 16em; }
}
@page tables { size: landscape; }
@page { margin: 15mm 12mm; @bottom-right { content: counter(page) " / " counter(pages); font: 9pt sans-serif; } }
`;
