/** A condition in a sentence: `the valve is closed`, `the oil pressure must be at least 2 bar`, `air reaches the starter`. */
import { verbOf } from './english.ts';
import { boundOf, timeAt } from './quantities.ts';
import { calledAt, type Sentence } from './reading.ts';
import { plainWords, spoken } from './tokens.ts';
import type { Gauge, Item, Vocabulary } from './vocabulary.ts';

export interface ConditionSaid {
  readonly text: string;
  readonly about: readonly (Item | Gauge)[];
  readonly state?: number;
  readonly bound?: string;
  readonly next: number;
}

interface Form {
  /** Only with a word of duty: “must be”, not “is”. */
  readonly must?: boolean;
  /** The verb stood before: “Is the drain closed?” */
  readonly question?: boolean;
  readonly last?: Item | undefined;
}

const copulas = new Set([
  'is',
  'are',
  'be',
  'has',
  'have',
  'been',
  'may',
  'must',
  'shall',
  'should',
  'to',
  'needs',
  'need',
  'reads',
  'shows',
  'stays',
  'remains',
  'reach',
  'stay',
  'now',
  'still',
  'fully',
]);
const duties = new Set(['may', 'must', 'shall', 'should', 'needs', 'to']);

export function conditionAt(
  at: number,
  sentence: Sentence,
  vocabulary: Vocabulary,
  form: Form = {},
): ConditionSaid | undefined {
  const first = oneAt(at, sentence, vocabulary, form);
  if (!first || form.must) return first;
  const joint = sentence.tokens[first.next]?.text;
  if (joint !== 'and' && joint !== 'or') return first;
  const second = conditionAt(first.next + 1, sentence, vocabulary, form);
  if (!second) return first;
  const { state: _, bound: __, ...rest } = first;
  return {
    ...rest,
    text: `${first.text} ${joint} ${second.text}`,
    about: [...first.about, ...second.about],
    next: second.next,
    ...(joint === 'and' && first.state !== undefined && second.state !== undefined && { state: first.state }),
  };
}

function oneAt(at: number, sentence: Sentence, vocabulary: Vocabulary, form: Form): ConditionSaid | undefined {
  const { text, tokens } = sentence;
  const not = /^it is not so that /i.exec(text.slice(tokens[at]?.start));
  if (not) {
    const inner = oneAt(at + 5, sentence, vocabulary, form);
    return inner && negated(inner);
  }
  return (
    ofItem(at, sentence, vocabulary, form) ??
    ofGauge(at, sentence, vocabulary, form) ??
    ofKind(at, sentence, vocabulary) ??
    ofSupply(at, sentence, vocabulary)
  );
}

function negated({ text, about, next }: ConditionSaid): ConditionSaid {
  return { text: `not ${text}`, about, next };
}

function ofItem(
  at: number,
  sentence: Sentence,
  { items }: Vocabulary,
  { must, question, last }: Form,
): ConditionSaid | undefined {
  const called = calledAt(at, items, sentence, last);
  const [item] = called?.things ?? [];
  if (!called || !item) return undefined;
  const verb = verbAt(called.next, sentence);
  if (!question && verb.next === called.next) return undefined;
  if (must && !verb.duty) return undefined;
  const stated = stateAt(verb.next, item, sentence);
  if (!stated) return undefined;
  const rest = sentence.text.slice(sentence.tokens[stated.next - 1]?.end);
  const time = /^\s*for\b/i.test(rest) ? timeAt(rest) : undefined;
  const lasting = time === undefined ? '' : ` for ${time.startsWith('at ') ? time : `at least ${time}`}`;
  const name = item.kind.states[stated.state]?.name;
  const words = called.things.map((one) => `${one.name} ${name}${lasting}`).join(' and ');
  const next = lasting ? sentence.tokens.length : stated.next;
  const found = { text: words, about: [...called.things, ...called.either], next };
  return verb.not ? negated(found) : { ...found, ...(!lasting && { state: stated.state }) };
}

function verbAt(
  at: number,
  { tokens }: Sentence,
): { readonly next: number; readonly not: boolean; readonly duty: boolean } {
  let next = at;
  let [not, duty] = [false, false];
  for (; tokens[next]; next++) {
    const { text, type } = tokens[next] as (typeof tokens)[number];
    if (text === 'not') not = true;
    else if (!copulas.has(text) && type !== 'aside') break;
    if (duties.has(text)) duty = true;
  }
  return { next, not, duty };
}

/** Whether something is said of what stands before: “the pressure is right”. */
export function isStated(at: number, { tokens }: Sentence): boolean {
  return copulas.has(tokens[at]?.text ?? '') && tokens[at]?.text !== 'to';
}

/** The state that a word names: itself, or the participle of a verb of its wordings. */
function stateAt(
  at: number,
  item: Item,
  { tokens }: Sentence,
): { readonly state: number; readonly next: number } | undefined {
  const following = (words: readonly string[]): boolean =>
    words.length > 0 && words.every((word, index) => tokens[at + index]?.text === word);
  for (const [state, { name, printed = name }] of item.kind.states.entries()) {
    for (const words of [name, printed].map((one) => spoken(one).split(/[ /]+/u))) {
      if (following(words)) return { state, next: at + words.length };
    }
  }
  const token = tokens[at];
  if (token?.type !== 'word') return undefined;
  const verb = verbOf(token.text);
  const particle = tokens[at + 1]?.text;
  for (const [state, { wording = '', others = [] }] of item.kind.states.entries()) {
    for (const one of [wording, ...others]) {
      const [first = '', second] = plainWords(one);
      if (first !== verb && first !== token.text) continue;
      if (second === undefined) return { state, next: at + 1 };
      if (second === particle) return { state, next: at + 2 };
    }
  }
  return undefined;
}

function ofGauge(at: number, sentence: Sentence, { gauges }: Vocabulary, { must }: Form): ConditionSaid | undefined {
  const called = calledAt(at, gauges, sentence, undefined);
  const [gauge] = called?.things ?? [];
  if (!called || !gauge || called.either.length > 0) return undefined;
  const verb = verbAt(called.next, sentence);
  if (
    verb.next === called.next ||
    (must && !verb.duty && !/^(?:is|reads|shows)$/u.test(sentence.tokens[called.next]?.text ?? ''))
  )
    return undefined;
  // A “not” turns the words of the bound round, and is read with them.
  const from = verb.not ? called.next : verb.next;
  const bound = boundOf(sentence.text.slice(sentence.tokens[from - 1]?.end), gauge);
  return bound === undefined
    ? undefined
    : { text: `${gauge.name} ${bound}`, about: [gauge], bound, next: sentence.tokens.length };
}

/** `any pump is running` */
function ofKind(at: number, sentence: Sentence, { equipment }: Vocabulary): ConditionSaid | undefined {
  const { tokens } = sentence;
  const quantifier = tokens[at]?.text;
  if (quantifier !== 'any' && quantifier !== 'every') return undefined;
  for (const kind of equipment.kinds) {
    const words = spoken(kind.name).split(' ');
    if (!words.every((word, index) => tokens[at + 1 + index]?.text === word)) continue;
    const items = equipment.items.filter((item) => item.kind === kind);
    const [item] = items;
    const verb = verbAt(at + 1 + words.length, sentence);
    const stated = item && stateAt(verb.next, item, sentence);
    if (stated)
      return { text: `${quantifier} ${kind.name} ${kind.states[stated.state]?.name}`, about: items, next: stated.next };
  }
  return undefined;
}

function ofSupply(at: number, sentence: Sentence, { equipment, items }: Vocabulary): ConditionSaid | undefined {
  const { tokens, text } = sentence;
  const reaches = tokens.findIndex((token, index) => index > at && token.text === 'reaches');
  if (reaches < 0) return undefined;
  const said = plainWords(text.slice(tokens[at]?.start, tokens[reaches]?.start)).join(' ');
  const supply = equipment.supplies.find(({ label }) => plainWords(label).join(' ') === said);
  const called = supply && calledAt(reaches + 1, items, sentence, undefined);
  const [item] = called?.things ?? [];
  const node = plainWords(text.slice(tokens[reaches]?.end)).join(' ');
  const name = item?.name ?? supply?.nodes.find((one) => spoken(one.name) === node)?.name;
  return supply && name
    ? { text: `${supply.name} reaches ${name}`, about: item ? [item] : [], next: called?.next ?? tokens.length }
    : undefined;
}
