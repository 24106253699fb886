/** What may be written at a place, told from the grammar. It names sorts of things; what there is of each is for others to say. */
import { type Expected, expectedAfter, type ReadWord } from '../../../grammar/expected.ts';
import { endOf, k, lex, type Token, UnitWord } from '../../../grammar/tokens.ts';
import type { Span } from '../../../shared/text.ts';
import type { Dimension } from '../../../shared/units.ts';

export type Wanted =
  /** A word of the language, or several in a row; it belongs to a rule of the grammar. */
  | { readonly type: 'word'; readonly word: string; readonly rule: string; readonly begins: boolean }
  | {
      readonly type: 'gauge' | 'supply' | 'kind' | 'role' | 'label' | 'callable' | 'variant' | 'code' | 'file';
    }
  /** The name of each round of a `for each`. */
  | { readonly type: 'round'; readonly name: string }
  /** `isSet` where it is put in a state, not looked at. */
  | { readonly type: 'item'; readonly isSet?: boolean }
  /** Those that fit the signal word. */
  | { readonly type: 'hazard'; readonly level: string }
  /** The states of an item, or of a kind that is named itself. */
  | { readonly type: 'state'; readonly of: string }
  | { readonly type: 'limit'; readonly gauge: string }
  | { readonly type: 'unit'; readonly measures: Dimension }
  | { readonly type: 'unit'; readonly gauge?: string | undefined }
  | { readonly type: 'node'; readonly supply?: string | undefined }
  | { readonly type: 'value'; readonly variant: string }
  | { readonly type: 'argument'; readonly callee: string; readonly index: number }
  /** The rest of a finding's code. */
  | { readonly type: 'rest'; readonly group: string }
  /** Inside a text, after `{`. */
  | { readonly type: 'slot' };

export interface CompletionContext {
  readonly wanted: readonly Wanted[];
  /** The procedure that is being written. */
  readonly procedure?: string | undefined;
  /** What is typed of the word so far. */
  readonly typed: Span;
}

export function completionContext(text: string, offset: number): CompletionContext {
  const { tokens, comments } = lex(text);
  const nowhere = { wanted: [], typed: { start: offset, end: offset } };
  if (comments.some((comment) => comment.startOffset < offset && offset <= endOf(comment))) return nowhere;
  const quoted = tokens.find(
    (token) => token.image.startsWith('"') && token.startOffset < offset && offset < endOf(token) + unclosed(token),
  );
  if (quoted) return insideText(tokens, quoted, offset) ?? nowhere;

  const before = tokens.filter((token) => endOf(token) <= offset);
  const last = before.at(-1);
  const isTyping = last !== undefined && endOf(last) === offset && /^\p{L}/u.test(last.image);
  const said = isTyping ? before.slice(0, -1) : before;
  const typed = { start: isTyping ? last.startOffset : offset, end: offset };
  const expected = withUnit(expectedAfter(text, said)).filter((one) => !isTooLate(one));
  const procedure = expected[0] && nearest(expected[0], 'a name for the procedure');
  return { wanted: unique(expected.flatMap(wantedFor)), procedure, typed };
}

/** A text that is not closed goes on to its end, and the cursor there is inside it. */
function unclosed({ image }: Token): number {
  return image.length > 1 && image.endsWith('"') ? 0 : 1;
}

function insideText(tokens: readonly Token[], quoted: Token, offset: number): CompletionContext | undefined {
  const inside = quoted.image.slice(1, offset - quoted.startOffset);
  if (tokens[tokens.indexOf(quoted) - 1]?.image === 'use') {
    return { wanted: [{ type: 'file' }], typed: { start: quoted.startOffset + 1, end: offset } };
  }
  const slot = /(?<!\{)\{(?:([\p{L}\p{N}-]+)\.)?([\p{L}\p{N}-]*)$/u.exec(inside);
  if (!slot) return undefined;
  const typed = { start: offset - (slot[2] ?? '').length, end: offset };
  return { wanted: [slot[1] ? { type: 'limit', gauge: slot[1] } : { type: 'slot' }], typed };
}

/** Fields belong to the head of a card, before what is done. */
function isTooLate({ within }: Expected): boolean {
  const card = within.findIndex(({ rule }) => rule === 'card');
  const isField = within[card - 1]?.rule === 'field';
  return isField && within[card]?.done.some((rule) => rule === 'stage' || rule === 'statement') === true;
}

/** A number is read without its unit too, as in `27 to 29 V`; but what else may follow it only follows its unit. */
function withUnit(expected: readonly Expected[]): readonly Expected[] {
  const asksUnit = expected.some(({ type }) => type === UnitWord);
  return asksUnit ? expected.filter(({ type }) => type === UnitWord || type === k.to || type === k.times) : expected;
}

function unique(wanted: readonly Wanted[]): Wanted[] {
  return [...new Map(wanted.map((one) => [JSON.stringify(one), one])).values()];
}

function wantedFor(expected: Expected): readonly Wanted[] {
  if (expected.type === UnitWord) return [unitFor(expected)];
  if (expected.wanted !== undefined) return named[expected.wanted]?.(expected) ?? [];
  const rule = expected.within[0]?.rule ?? '';
  return expected.phrases.map((word) => ({ type: 'word', word, rule, begins: beginsSentence(expected) }));
}

const sentences = ['declaration', 'field', 'stage', 'statement'];

function beginsSentence({ within }: Expected): boolean {
  const begun = within.findIndex(({ read }) => read.length > 0);
  return within.slice(0, begun < 0 ? undefined : begun).some(({ rule }) => sentences.includes(rule));
}

/** What the parser asks for, in its own words, and what that is. */
const named: Readonly<Record<string, (expected: Expected) => readonly Wanted[]>> = {
  'the name of an item': (expected) => [{ type: 'item', isSet: isIn(expected, 'set') }, ...roundsAround(expected)],
  'the name of a gauge': () => [{ type: 'gauge' }],
  'the name of the other gauge': () => [{ type: 'gauge' }],
  'the name of an item, a gauge or a supply': (expected) => [
    { type: 'item' },
    { type: 'gauge' },
    { type: 'supply' },
    ...roundsAround(expected),
  ],
  'the name of a kind': () => [{ type: 'kind' }],
  'the name of a kind, or a list of items,': () => [{ type: 'kind' }, { type: 'item' }],
  'the name of an item or gauge': (expected) => {
    const index = expected.within[0]?.read.filter(({ image }) => image === ',').length ?? 0;
    return [{ type: 'argument', callee: nearest(expected, 'the name of a procedure or card') ?? '', index }];
  },
  'the name of a node': () => [{ type: 'node' }, { type: 'item' }],
  'what the supply reaches': (expected) => [{ type: 'node', supply: nearest(expected, ...subjects) }],
  'the name of a hazard': ({ within }) => [{ type: 'hazard', level: within[1]?.read[0]?.image ?? '' }],
  'the name of a supply': () => [{ type: 'supply' }],
  'the name of a limit': (expected) => [{ type: 'limit', gauge: nearest(expected, ...gauges) ?? '' }],
  'the name of a variant': () => [{ type: 'variant' }],
  'a value': (expected) => [{ type: 'value', variant: nearest(expected, 'the name of a variant') ?? '' }],
  'the name of a value': (expected) => roundsAround(expected),
  'the name of a role': (expected) => (isIn(expected, 'member') ? [] : [{ type: 'role' }]),
  'the name of a stage or step': () => [{ type: 'label' }],
  'the name of a procedure or card': () => [{ type: 'callable' }],
  'a state': (expected) => [{ type: 'state', of: ownerOfState(expected) }],
  'the code of a finding': () => [{ type: 'code' }],
  'the rest of the code': (expected) => [{ type: 'rest', group: nearest(expected, 'the code of a finding') ?? '' }],
};

const subjects = ['the name of an item', 'the name of an item, a gauge or a supply'] as const;
const gauges = ['the name of a gauge', 'the name of an item, a gauge or a supply'] as const;

/** Where the item is that of each round, what the rounds are over. */
function ownerOfState(expected: Expected): string {
  const owner = nearest(expected, ...subjects, 'the name of a kind') ?? '';
  const round = expected.within.find(({ read }) =>
    read.some(({ image, wanted }) => wanted === ofRound && image === owner),
  );
  return round
    ? (nearest({ within: [round] }, 'the name of a kind, or a list of items,', 'the name of a kind') ?? owner)
    : owner;
}

const ofRound = 'a name for the item of each round';

function roundsAround({ within }: Expected): Wanted[] {
  const words = within.flatMap(({ read }) => read).filter(({ wanted }) => wanted === ofRound);
  return words.map(({ image }) => ({ type: 'round', name: image }));
}

function unitFor(expected: Expected): Wanted {
  if (isIn(expected, 'duration')) return { type: 'unit', measures: 'time' };
  if (isIn(expected, 'torque', 'setting')) return { type: 'unit', measures: 'torque' };
  if (isIn(expected, 'hazardBody')) return { type: 'unit', measures: 'sound level' };
  if (expected.within.some(({ read }) => read[0]?.image === 'reduces'))
    return { type: 'unit', measures: 'noise reduction' };
  return { type: 'unit', gauge: nearest(expected, ...gauges) };
}

function isIn({ within }: Expected, ...rules: readonly string[]): boolean {
  return within.some(({ rule }) => rules.includes(rule));
}

/** The last word read as one of these, in the rule or in those around it. */
function nearest({ within }: Pick<Expected, 'within'>, ...wanted: readonly string[]): string | undefined {
  const isAsked = (word: ReadWord) => word.wanted !== undefined && wanted.includes(word.wanted);
  return within.flatMap(({ read }) => read).find(isAsked)?.image;
}
