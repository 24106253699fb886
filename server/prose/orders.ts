/** An order that brings things into a state, in the words of their kinds. */
import { sortsOf, verbOf } from './english.ts';
import { calledAt, type Sentence } from './reading.ts';
import { spoken, type Token } from './tokens.ts';
import type { Item, Pattern, Things, Vocabulary } from './vocabulary.ts';

export interface Order {
  readonly items: readonly Item[];
  /** Others that the words fit as well, of which one is meant. */
  readonly either: readonly Item[];
  readonly state: number;
  readonly next: number;
  /** The verb alone says no state: only with a time is it an order to run. */
  readonly run: boolean;
}

export function orderAt(
  at: number,
  sentence: Sentence,
  vocabulary: Vocabulary,
  last: Item | undefined,
): Order | undefined {
  let best: Order | undefined;
  for (const [kind, patterns] of vocabulary.patterns) {
    const things = vocabulary.ofKind.get(kind);
    if (!things) continue;
    for (const pattern of patterns) {
      const order = matched(pattern, at, things, vocabulary, sentence, last);
      if (order && order.next > (best?.next ?? at)) best = order;
    }
  }
  return best ?? (sentence.english ? inflected(at, sentence, vocabulary, last) : undefined);
}

function matched(
  { before, after, state, parted }: Pattern,
  at: number,
  things: Things<Item>,
  vocabulary: Vocabulary,
  sentence: Sentence,
  last: Item | undefined,
): Order | undefined {
  const { tokens } = sentence;
  if (!before.every((word, index) => tokens[at + index]?.text === word)) return undefined;
  const start = at + before.length;
  // Labels of all kinds are read, so that those that share a sentence's words with this kind stay together.
  const called =
    calledAt(start, things, { ...sentence, ends: after[0] }, last) ?? mixed(start, things, vocabulary, sentence);
  if (!called) return undefined;
  let next = called.next;
  while (tokens[next]?.type === 'aside') next++;
  if (!after.every((word, index) => tokens[next + index]?.text === word)) return undefined;
  if (parted && !isOver(tokens[next + after.length])) return undefined;
  return { items: called.things, either: called.either, state, next: next + after.length, run: false };
}

/** `Put it in the tray` does not put it in. */
function isOver(token: Token | undefined): boolean {
  return token?.type !== 'word' || /^(?:again|and|then|for|until|before|after|at|by|with|und|dann)$/u.test(token.text);
}

/** A list that begins with a thing of this kind and goes on with others that have the same words for the state. */
function mixed(start: number, things: Things<Item>, vocabulary: Vocabulary, sentence: Sentence) {
  const called = calledAt(start, vocabulary.items, sentence, undefined);
  return called && called.things.length > 1 && things.has(called.things[0] as Item)
    ? { ...called, things: called.things.slice(0, 1), either: [] }
    : undefined;
}

const runs = new Set(['run', 'operate', 'work']);
const setting = new Set(['set', 'turn', 'switch', 'move', 'put', 'bring']);

/** A verb in another form, or one that only the name of a state has (`Run`, `Set … to auto`). */
function inflected(
  at: number,
  sentence: Sentence,
  { items, patterns }: Vocabulary,
  last: Item | undefined,
): Order | undefined {
  const { tokens, text } = sentence;
  const [word, second] = [tokens[at], tokens[at + 1]];
  if (word?.type !== 'word' || !second) return undefined;
  const lets = word.text === 'let' || word.text === 'keep';
  const called = calledAt(at + 1, items, sentence, last);
  const [item] = called?.things ?? [];
  if (!called || !item || item.kind.seen) return undefined;
  const order = (state: number, next: number, run = false): Order => ({
    items: called.things,
    either: called.either,
    state,
    next,
    run,
  });
  const { states } = item.kind;
  const rest = tokens.slice(called.next).filter(({ type }) => type !== 'aside');
  if (setting.has(word.text)) {
    const state = stateSet(states, rest);
    if (state >= 0) return order(state, called.next + 1);
  }
  if (!lets && /ing$/u.test(word.text)) return undefined;
  const sort = sortsOf(text).get(word.start);
  const isNoVerb = sort?.noun === true && sort.root === undefined;
  const root = lets ? rest[0]?.text.replace(/ning$/u, '') : (sort?.root ?? (isNoVerb ? undefined : word.text));
  if (root === undefined) return undefined;
  const inWords = (patterns.get(item.kind) ?? []).find(
    ({ before, after }) => before.length === 1 && after.length === 0 && before[0] === root,
  );
  if (inWords) return order(inWords.state, called.next);
  const named = states.findIndex(({ name }) => name.toLowerCase() === root || verbOf(name.toLowerCase()) === root);
  if (named >= 0) return order(named, called.next + (lets ? 1 : 0), lets || runs.has(root));
  return undefined;
}

/** The state that things are set to: `to auto`, also behind the place of the thing (`on the panel to auto`), or right there (`auto`). */
function stateSet(states: Item['kind']['states'], rest: readonly Token[]): number {
  const words = rest.map(({ text }) => text);
  const end = words.findIndex((word) => /^(?:[,;.:]|and|then|for|until)$/u.test(word));
  const to = words.slice(0, end < 0 ? words.length : end).findLastIndex((word) => word === 'to' || word === 'into');
  const stated = `${words.slice(to + 1).join(' ')} `.replace(/^(?:position|the) /u, '');
  return states.findIndex(({ name, printed = name }) =>
    [name, printed].some((one) => {
      const length = spoken(one).split(' ').length;
      return stated.startsWith(`${spoken(one)} `) && (to >= 0 || isOver(rest[length]));
    }),
  );
}
