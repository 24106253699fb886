/** What may be written at a place, told from the words before it. It names sorts of things; what there is of each is for others to say. */
import { endOf, lex, type Token } from '../../../grammar/tokens.ts';
import type { Span } from '../../../shared/text.ts';
import { type BlockSort, openBlocks } from './blocks.ts';

export type Wanted =
  /** The beginning of a statement, declaration or part, by the block it stands in. */
  | { readonly type: 'beginning'; readonly block: BlockSort }
  | { readonly type: 'words'; readonly words: readonly string[] }
  | {
      readonly type:
        | 'item'
        | 'gauge'
        | 'supply'
        | 'kind'
        | 'role'
        | 'label'
        | 'hazard'
        | 'callable'
        | 'variant'
        | 'code'
        | 'file';
    }
  /** The states of an item, or of a kind that is named itself. */
  | { readonly type: 'state'; readonly of: string }
  | { readonly type: 'limit' | 'unit'; readonly gauge?: string }
  | { readonly type: 'time-unit' }
  | { readonly type: 'node'; readonly supply?: string }
  | { readonly type: 'value'; readonly variant: string }
  | { readonly type: 'argument'; readonly callee: string; readonly index: number }
  /** Inside a text, after `{`. */
  | { readonly type: 'slot' };

export interface CompletionContext {
  readonly wanted: readonly Wanted[];
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
  return { wanted: wantedAfter(said, beginsLine(text, typed.start)), typed };
}

/** A text that is not closed goes on to its end, and the cursor there is inside it. */
function unclosed({ image }: Token): number {
  return image.length > 1 && image.endsWith('"') ? 0 : 1;
}

function beginsLine(text: string, offset: number): boolean {
  return /(^|[\r\n])[ \t]*$/.test(text.slice(Math.max(0, offset - 200), offset));
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

function wantedAfter(said: readonly Token[], beginsLine: boolean): readonly Wanted[] {
  const blocks = openBlocks(said);
  const block = blocks.at(-1) as BlockSort;
  const last = said.at(-1)?.image;
  const beginning: Wanted = { type: 'beginning', block };
  if (last === undefined || last === '{' || last === '}') return [beginning];
  const clause = clauseOf(said);
  const inside = insideClause(clause, block);
  return beginsLine || inside.length === 0 ? [...inside, beginning] : inside;
}

/** A head word, and what has been written after it. */
interface Clause {
  readonly head: string;
  readonly words: readonly string[];
  /** The words before the head, back to the last brace. */
  readonly before: readonly string[];
}

const conditionHeads = ['check', 'if', 'until', 'while', 'before', 'require', 'keep', 'when', 'protect'];
const stateHeads = ['set', 'ensure', 'assume', 'leaves'];
const gaugeHeads = ['read', 'bring', 'watch'];
const levels = ['danger', 'warning', 'caution', 'note'];
const otherHeads = [
  ...['run', 'wait', 'go', 'by', 'sign', 'do', 'each', 'normally', 'may', 'needs', 'duty', 'accept', 'only', 'applies'],
  ...[
    'use',
    'item',
    'gauge',
    'link',
    'source',
    'limit',
    'record',
    'takes',
    'within',
    'for',
    'procedure',
    'stop',
    'else',
    'step',
  ],
];
const heads = new Set([...conditionHeads, ...stateHeads, ...gaugeHeads, ...levels, ...otherHeads]);

function clauseOf(said: readonly Token[]): Clause {
  const from = said.findLastIndex(({ image }) => image === '{' || image === '}') + 1;
  const words = said.slice(from).map(({ image }) => image);
  const at = words.findLastIndex((word, index) => heads.has(word) && !isState(words, index));
  if (at < 0) return { head: '', words, before: [] };
  return { head: words[at] as string, words: words.slice(at + 1), before: words.slice(0, at) };
}

/** A state may be called as a head is: `set parking-brake set`. */
function isState(words: readonly string[], index: number): boolean {
  const before = words[index - 2];
  return (
    before !== undefined &&
    [...stateHeads, 'run', ','].includes(before) &&
    !['at', 'in'].includes(words[index - 1] ?? '')
  );
}

const boundWords = ['in', 'at least', 'at most', 'above', 'below', 'exactly'];

function insideClause({ head, words, before }: Clause, block: BlockSort): readonly Wanted[] {
  if (conditionHeads.includes(head) && !(head === 'while' && before.includes('needs'))) return inCondition(words);
  if (stateHeads.includes(head)) return inStates(words);
  if (gaugeHeads.includes(head)) return inReading(words, head === 'watch');
  if (levels.includes(head)) return words.length === 0 ? [{ type: 'hazard' }] : [];
  const handler = handlers[head];
  return handler ? handler(words, before, block) : [];
}

type Handler = (words: readonly string[], before: readonly string[], block: BlockSort) => readonly Wanted[];

const first =
  (...wanted: readonly Wanted[]): Handler =>
  (words) =>
    words.length === 0 ? wanted : [];

const timeHandler: Handler = (words) => (isNumber(words.at(-1)) ? [{ type: 'time-unit' }] : []);

const handlers: Readonly<Record<string, Handler>> = {
  run: (words) => {
    const [item, state] = words;
    if (item === undefined) return [{ type: 'item' }];
    if (state === undefined) return [{ type: 'state', of: item }];
    return words.length === 2 ? [{ type: 'words', words: ['for', 'until'] }] : [];
  },
  wait: (words) =>
    words.length === 0 ? [{ type: 'words', words: ['until', 'at least'] }] : timeHandler(words, [], 'step'),
  takes: timeHandler,
  within: timeHandler,
  for: (words, before) =>
    words.length === 0 && isStatementFor(before)
      ? [{ type: 'words', words: ['each'] }]
      : timeHandler(words, [], 'step'),
  go: (words) =>
    words.length === 0 ? [{ type: 'words', words: ['to'] }] : words.length === 1 ? [{ type: 'label' }] : [],
  by: (words, before) => {
    if (words.length > 0 && words.at(-1) !== ',') return [];
    return [
      before.includes('moved') ? { type: 'item' } : before.includes('limit') ? { type: 'gauge' } : { type: 'role' },
    ];
  },
  sign: first({ type: 'role' }),
  do: (words) => {
    const [callee, paren] = words;
    if (callee === undefined) return [{ type: 'callable' }];
    if (paren !== '(' || words.includes(')')) return [];
    const index = words.filter((word) => word === ',').length;
    return ['(', ','].includes(words.at(-1) as string) ? [{ type: 'argument', callee, index }] : [];
  },
  each: (words) => {
    if (words.length === 1) return [{ type: 'words', words: ['in'] }];
    if (words[1] !== 'in') return [];
    if (words.length === 2) return [{ type: 'kind' }, { type: 'item' }];
    return words.at(-1) === ',' ? [{ type: 'item' }] : [];
  },
  item: (words) => (words.at(-1) === ':' ? [{ type: 'kind' }] : words.includes(':') ? [itemParts] : []),
  normally: (words, before) =>
    statesOfKind(words, before) ?? [{ type: 'words', words: ['verify', ...itemParts.words] }],
  may: (words, before) => statesOfKind(words, before) ?? [itemParts],
  duty: (words) => (words.length === 1 ? [{ type: 'words', words: ['at most'] }] : timeHandler(words, [], 'item')),
  needs: first({ type: 'supply' }),
  while: (words, before) => statesOfKind(words, before) ?? [itemParts],
  accept: (words) =>
    words.length === 0 ? [{ type: 'code' }] : words.length === 3 ? [{ type: 'words', words: ['because'] }] : [],
  only: (words) => inWhich(words),
  applies: (words) => inWhich(words),
  gauge: (words) =>
    words.at(-1) === 'in' ? [{ type: 'unit' }] : words.includes('in') ? [] : [{ type: 'words', words: ['in'] }],
  record: (words) =>
    words.at(-1) === 'in' ? [{ type: 'unit' }] : words.length === 1 ? [{ type: 'words', words: ['in'] }] : [],
  limit: (words) =>
    words.length === 1
      ? [{ type: 'words', words: [...boundWords.slice(1), 'by'] }]
      : isNumber(words.at(-1))
        ? [{ type: 'unit' }]
        : [],
  source: first({ type: 'node' }, { type: 'item' }),
  link: (words) => {
    if (words.length === 0 || ['->', '<->'].includes(words.at(-1) as string))
      return [{ type: 'node' }, { type: 'item' }];
    return words.length === 1 ? [{ type: 'words', words: ['->', '<->'] }] : [{ type: 'words', words: ['when'] }];
  },
  procedure: (words) => (words.at(-1) === ':' ? [{ type: 'kind' }, { type: 'words', words: ['gauge'] }] : []),
  else: first({ type: 'words', words: ['go to', 'stop', 'finish', 'if'] }),
  step: () => [
    { type: 'beginning', block: 'step' },
    { type: 'words', words: ['by', 'takes', 'see', 'only'] },
  ],
};

const itemParts = { type: 'words', words: ['at', 'normally', 'may', 'needs', 'reduces'] } as const;

function isStatementFor(before: readonly string[]): boolean {
  return !before.some((word) => ['run', 'wait', 'step'].includes(word));
}

/** Of the item that is being declared: the word after its colon is its kind. */
function statesOfKind(words: readonly string[], before: readonly string[]): readonly Wanted[] | undefined {
  const kind = before[before.indexOf(':') + 1];
  return words.length === 0 && kind ? [{ type: 'state', of: kind }] : undefined;
}

function inStates(words: readonly string[]): readonly Wanted[] {
  const [item, state] = words.slice(words.lastIndexOf(',') + 1);
  if (item === undefined) return [{ type: 'item' }];
  return state === undefined ? [{ type: 'state', of: item }] : [];
}

function inReading(words: readonly string[], isWatch: boolean): readonly Wanted[] {
  const [gauge, ...rest] = words;
  if (gauge === undefined) return [{ type: 'gauge' }];
  if (rest.length === 0) return [{ type: 'words', words: isWatch ? ['reaches', 'stays'] : boundWords }];
  if (isWatch && rest.length === 1) return [{ type: 'words', words: boundWords.slice(1) }];
  return inBound(gauge, rest) ?? [{ type: 'words', words: ['else go to', 'else stop', 'within'] }];
}

function inBound(gauge: string, rest: readonly string[]): readonly Wanted[] | undefined {
  const last = rest.at(-1);
  if (last === 'in' && rest.length === 1) return [{ type: 'limit', gauge }];
  if (last === 'at') return [{ type: 'words', words: ['least', 'most'] }];
  if (isNumber(last)) return [{ type: 'unit', gauge }];
  return ['least', 'most', 'above', 'below', 'exactly', 'to'].includes(last ?? '') ? [] : undefined;
}

function inCondition(words: readonly string[]): readonly Wanted[] {
  const [subject, ...rest] = words.slice(words.findLastIndex((word) => ['and', 'or', 'not', '('].includes(word)) + 1);
  if (subject === undefined) {
    return [{ type: 'item' }, { type: 'gauge' }, { type: 'supply' }, { type: 'words', words: ['any', 'every', 'not'] }];
  }
  if (subject === 'any' || subject === 'every') {
    if (rest.length === 0) return [{ type: 'kind' }];
    return rest.length === 1 ? [{ type: 'state', of: rest[0] as string }] : [{ type: 'words', words: ['and', 'or'] }];
  }
  if (rest.length === 0)
    return [
      { type: 'state', of: subject },
      { type: 'words', words: [...boundWords, 'reaches'] },
    ];
  if (rest.at(-1) === 'reaches') return [{ type: 'node', supply: subject }];
  return inBound(subject, rest) ?? [{ type: 'words', words: ['and', 'or', 'for at least', 'for at most'] }];
}

function inWhich(words: readonly string[]): readonly Wanted[] {
  const [variant, ...rest] = words.slice(words.lastIndexOf('and') + 1);
  if (variant === undefined) return [{ type: 'variant' }];
  const last = rest.at(-1);
  return last === undefined || last === ',' || last === 'to'
    ? [{ type: 'value', variant }]
    : [{ type: 'words', words: ['and'] }];
}

function isNumber(word: string | undefined): boolean {
  return word !== undefined && /^-?\d/.test(word);
}
