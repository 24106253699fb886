/** Finds in a sentence what a stretch of words calls: one thing, several, or one of several. */
import { findUnit } from '../../shared/units.ts';
import { isNoun, singular } from './english.ts';
import { isArticle, type Token } from './tokens.ts';
import type { Gauge, Item, Thing, Things } from './vocabulary.ts';

/** A sentence that is read, and how much of its language is known. */
export interface Sentence {
  readonly text: string;
  readonly tokens: readonly Token[];
  readonly english: boolean;
  /** The word that follows what is called here, where that is known. */
  readonly ends?: string | undefined;
}

export interface Called<Of extends Item | Gauge> {
  /** All of them are meant. */
  readonly things: readonly Of[];
  /** Where the words fit several and one is meant. */
  readonly either: readonly Of[];
  /** The token after the words. */
  readonly next: number;
}

const functionWords = new Set(
  `to for until till in at on with from by within before after while when if and or then so but as of is are was be must shall
should has have had run running reaches reads shows again off out up down back away apart until unless because that which who where it
auf zu an aus ein ab und oder dann bis für mit von bei im am vor nach während wenn ist sind muss müssen soll wieder`.split(
    /\s+/u,
  ),
);

const mostMeant = 4;

export function calledAt<Of extends Item | Gauge>(
  at: number,
  things: Things<Of>,
  sentence: Sentence,
  last: Of | undefined,
): Called<Of> | undefined {
  const { tokens } = sentence;
  let first = at;
  while (isArticle(tokens[first]?.text ?? '')) first++;
  const token = tokens[first];
  if (!token) return undefined;
  if (token.type === 'slot') {
    const found = things.all.find(({ of }) => of.name === token.name);
    return found && more({ things: [found.of], either: [], next: first + 1 }, things, sentence);
  }
  if (token.text === 'it' || token.text === 'them' || (at === first - 1 && tokens[at]?.text === 'this')) {
    return last && things.has(last) ? { things: [last], either: [], next: first + 1 } : undefined;
  }
  const whole = byLabel(first, things, sentence);
  if (whole) return more(whole, things, sentence);
  return sentence.english
    ? (bySharedWords(first, things, sentence) ?? byShortForm(first, things, sentence))
    : undefined;
}

function byLabel<Of extends Item | Gauge>(
  first: number,
  things: Things<Of>,
  sentence: Sentence,
): Called<Of> | undefined {
  let best: { readonly of: Of; readonly next: number } | undefined;
  let from = first;
  while (sentence.tokens[from]?.text === '-') from++;
  for (const { of, label } of things.beginningWith(singular(sentence.tokens[from]?.text ?? ''))) {
    const next = afterLabel(first, label, sentence);
    if (next !== undefined && next > (best?.next ?? first) && endsAt(next, sentence)) best = { of, next };
  }
  return best && { things: [best.of], either: [], next: best.next };
}

function afterLabel(first: number, label: readonly string[], { tokens }: Sentence): number | undefined {
  let at = first;
  for (const word of label) {
    while (tokens[at]?.text === '-' || (at > first && isArticle(tokens[at]?.text ?? ''))) at++;
    const token = tokens[at];
    if (token?.type !== 'word' || singular(token.text) !== word) return undefined;
    at++;
  }
  return at;
}

/** Whether what something is called ends before a token: `the filter` does not in “the filter cover”. */
function endsAt(at: number, sentence: Sentence): boolean {
  const token = sentence.tokens[at];
  if (token === undefined || token.type === 'aside' || token.type === 'slot') return true;
  if (token.type === 'sign') return token.text !== '-';
  if (/^\d/u.test(token.text) || functionWords.has(token.text)) return true;
  if (token.text === sentence.ends) return true;
  return sentence.english && !isNoun(token, sentence.text);
}

/** What follows after a comma or “and”: `the left drain, the cap and the pump`. */
function more<Of extends Item | Gauge>(called: Called<Of>, things: Things<Of>, sentence: Sentence): Called<Of> {
  const { tokens } = sentence;
  let at = called.next;
  while (tokens[at]?.type === 'aside') at++;
  if (!joinsLists.has(tokens[at]?.text ?? '')) return called;
  while (joinsLists.has(tokens[at]?.text ?? '')) at++;
  const next = calledAt(at, things, { ...sentence, english: false }, undefined);
  return next ? { things: [...called.things, ...next.things], either: [], next: next.next } : called;
}

const joinsLists = new Set([',', 'and', 'und']);

/** `the left, right and centre wash valves`: labels that share their first and last words. */
function bySharedWords<Of extends Item | Gauge>(
  first: number,
  things: Things<Of>,
  { tokens }: Sentence,
): Called<Of> | undefined {
  let next = first;
  while (tokens[next]?.type === 'word' || joinsLists.has(tokens[next]?.text ?? '')) next++;
  if (!tokens.slice(first, next).some(({ text }) => joinsLists.has(text))) return undefined;
  const run = tokens.slice(first, next).map(({ text }) => singular(text));
  const said = new Set(run);
  const isSaid = ({ label }: Thing<Of>) => label.every((word) => said.has(word));
  const possible = [...said].flatMap((word) => things.beginningWith(word).filter(isSaid)).sort(things.inOrder);
  if (possible.length < 2) return undefined;
  let best: { readonly things: readonly Of[]; readonly next: number } | undefined;
  for (let end = run.length; end > 2 && !best; end--) {
    const parts = run
      .slice(0, end)
      .join(' ')
      .split(/ ?, ?| and | und /u);
    const found = possible.filter(({ label }) => parts.length > 1 && isOneOf(parts, label.join(' ')));
    if (found.length === parts.length) best = { things: found.map(({ of }) => of), next: first + end };
  }
  return best && { ...best, either: [] };
}

function isOneOf(parts: readonly string[], label: string): boolean {
  const words = (parts.at(-1) as string).split(' ');
  return parts.some((part) =>
    words.some((_, from) => {
      const [start = ''] = parts;
      const tail = words.slice(from).join(' ');
      if (part === parts.at(-1)) return label === part || label === `${start.split(' ')[0]} ${part}`;
      return label === `${part} ${tail}` || label === `${start.split(' ')[0]} ${part} ${tail}`;
    }),
  );
}

/** Some words of a label, of a kind, of a name or of a place, the last of them one that can stand alone. */
function byShortForm<Of extends Item | Gauge>(
  first: number,
  things: Things<Of>,
  sentence: Sentence,
): Called<Of> | undefined {
  const { tokens } = sentence;
  const possible = things.having(singular(tokens[first]?.text ?? ''));
  if (possible.length === 0) return undefined;
  const isHead = (text: string) => possible.some(({ heads }) => heads.has(text));
  // To know where a noun ends costs a library.
  if (!tokens.slice(first).some(({ text }) => isHead(singular(text)))) return undefined;
  let next = first;
  const mayGoOn = (at: number): boolean => {
    const token = tokens[at];
    if (token?.type !== 'word') return token?.text === '-' && at > first;
    return at === first || !endsAt(at, sentence) || isNumberOf(things, token, sentence);
  };
  while (mayGoOn(next)) next++;
  const said = tokens.slice(first, next).filter(({ type }) => type === 'word');
  const words = said.map(({ text }) => singular(text));
  const head = words.findLast((word) => !/^\d+$/u.test(word));
  if (head === undefined) return undefined;
  const fitting = possible.filter((thing) => thing.heads.has(head) && words.every((word) => thing.words.has(word)));
  const { meant, next: end } = byPlace(fitting, next, sentence);
  if (meant.length === 0 || meant.length > mostMeant) return undefined;
  const all = meant.map(({ of }) => of);
  return { things: all.slice(0, 1), either: all.slice(1), next: end };
}

/** `1` in “pump 1”, not in “1 turn”. */
function isNumberOf(things: Pick<Things, 'having'>, { text, end }: Token, sentence: Sentence): boolean {
  const unit = /^\s*([%°\p{L}]+)/u.exec(sentence.text.slice(end))?.[1];
  return /^\d+$/u.test(text) && things.having(text).length > 0 && !(unit && findUnit(unit));
}

/** Those of several that a place after them names: `the drain at the left tank`. */
function byPlace<Of extends Item | Gauge>(
  fitting: readonly Thing<Of>[],
  next: number,
  { tokens }: Sentence,
): { readonly meant: readonly Thing<Of>[]; readonly next: number } {
  const aside = tokens[next]?.type === 'aside' ? tokens[next] : undefined;
  const leads = /^(?:at|in|on|of|under|behind|beside|near)$/u.test(tokens[next]?.text ?? '');
  if (!aside && !leads) return { meant: fitting, next };
  let end = next + 1;
  if (!aside)
    while (tokens[end]?.type === 'word' && !/^(?:for|until|and|to|then|by|with)$/u.test(tokens[end]?.text ?? '')) end++;
  const place = aside
    ? (aside.text.match(/[\p{L}\p{N}]+/gu) ?? [])
    : tokens.slice(next + 1, end).map(({ text }) => text);
  const words = place.filter((word) => !isArticle(word)).map(singular);
  const there = fitting.filter((thing) => words.every((word) => thing.words.has(word)));
  if (there.length > 0) return { meant: there, next: end };
  return tokens[next]?.text === 'of' ? { meant: [], next } : { meant: fitting, next };
}
