/** The document round a card: language, content security policy and style. */
import type { ElementContent } from 'hast';
import { toHtml } from 'hast-util-to-html';
import { h } from 'hastscript';
import type { Card } from '../../shared/card.ts';
import { withoutHidden } from '../../shared/hidden.ts';
import { generatorOf } from '../../shared/made-by.ts';
import { digestName } from '../../shared/page-text.ts';
import { finish, type InParts } from '../../shared/parts.ts';
import type { Context } from './context.ts';
import { pageDigest } from './digest.ts';
import { policyHash } from './encoding.ts';
import { fixedWords } from './language/fixed-words.ts';
import { cardStyle } from './style/card.ts';
import { compactPrintStyle, pageStyle, printStyle, sealStyle } from './style/page.ts';
import { screenStyle } from './style/screen.ts';
import { workCopyStyle } from './style/work-copy.ts';

/** `scripts` is the policy's source for scripts: none, or the hash of the one that is put in. */
export function renderDocument(content: readonly ElementContent[], context: Context, scripts = "'none'"): string {
  const { card } = context.input;
  const withWorkCopy = context.workCopy === undefined ? '' : workCopyStyle;
  const compact = context.input.settings.print === 'compact' ? compactPrintStyle : '';
  const style = tight(cardStyle + screenStyle + withWorkCopy + printStyle + compact) + pageStyle(context);
  const body = finish(bodyMarkup(content));
  const digest = pageDigest(style, body);
  const seal = sealStyle(digest, context);
  const title = [card.number?.text, card.title].filter(Boolean).join(' · ');
  const tree = [
    { type: 'doctype' as const },
    h('html', { lang: languageOf(context.input.card) }, [
      h('head', [
        h('meta', { charSet: 'utf-8' }),
        h('meta', { httpEquiv: 'Content-Security-Policy', content: policy([style, seal], scripts) }),
        h('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
        h('meta', { name: 'generator', content: generatorOf('card') }),
        h('meta', { name: digestName, content: digest }),
        h('title', title || '–'),
        h('style', style),
        h('style', seal),
      ]),
      h('body', context.isDraft ? { className: ['is-draft'] } : {}, [raw(body)]),
    ]),
  ];
  return withoutHidden(toHtml({ type: 'root', children: tree }, { allowDangerousHtml: true }));
}

/** As short as it may be written: each exported card carries it. */
export function* bodyMarkup(content: readonly ElementContent[]): InParts<string> {
  return withoutHidden(yield* written(content.some(isRightToLeft) ? content : content.map(leftToRight)));
}

/** So many parts of a card are written in one go, each in far less time than anybody notices. */
const stretch = 25;
/** What holds parts of a card. All of them are blocks, so that the same tags may be left out wherever a stretch ends. */
const holders: ReadonlySet<string> = new Set(['main', 'section', 'div']);

function* written(nodes: readonly ElementContent[]): InParts<string> {
  const options = { omitOptionalTags: true, preferUnquoted: true, closeEmptyElements: true, allowDangerousHtml: true };
  let markup = '';
  for (let from = 0; from < nodes.length; from += stretch) {
    const children: ElementContent[] = [];
    for (const node of nodes.slice(from, from + stretch)) {
      const isLong = node.type === 'element' && holders.has(node.tagName) && node.children.length > stretch;
      children.push(isLong ? { ...node, children: [raw(yield* written(node.children))] } : node);
    }
    markup += toHtml({ type: 'root', children }, options);
    yield;
  }
  return markup;
}

/** The blocks that Unicode keeps for scripts written so, and its marks. */
const rightToLeft = /[\u0590-\u08ff\u200f\ufb1d-\ufdff\ufe70-\ufeff\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;

function isRightToLeft(node: ElementContent): boolean {
  if (node.type === 'text') return rightToLeft.test(node.value);
  if (node.type !== 'element') return false;
  return Object.values(node.properties).some(isWrittenSo) || node.children.some(isRightToLeft);
}

const isWrittenSo = (value: unknown) => typeof value === 'string' && rightToLeft.test(value);

/** Where nothing is written from right to left, no part needs to be told that it may be. */
function leftToRight(node: ElementContent): ElementContent {
  if (node.type !== 'element') return node;
  const { dir, ...properties } = node.properties;
  return { ...node, properties, children: node.children.map(leftToRight) };
}

/** Markup that is made already, for `toHtml` to put in as it is. */
const raw = (value: string) => ({ type: 'raw', value }) as unknown as ElementContent;

/** Without the blanks that only we read: each exported card carries it. */
function tight(style: string): string {
  return style
    .replaceAll(/\s*([{};,])\s*/g, '$1')
    .replaceAll(': ', ':')
    .replaceAll(' > ', '>')
    .replaceAll(/([ :(,])0\./g, '$1.')
    .replaceAll(';}', '}');
}

/** Nothing is asked of the network, and only the script and the styles that were put in here run. */
function policy(styles: readonly string[], scripts: string): string {
  return `default-src 'none'; style-src ${styles.map(policyHash).join(' ')}; script-src ${scripts}; img-src data:; base-uri 'none'; form-action 'none'`;
}

/** The card's own language tag, where it is one. */
export function languageOf({ language }: Card): string {
  const { tag } = fixedWords(language?.text);
  try {
    return Intl.getCanonicalLocales(language?.text)[0] ?? tag;
  } catch {
    return tag;
  }
}
