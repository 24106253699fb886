/** What the sentences of a text say that could be an action. */
import type * as model from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { conditionAt, isStated } from './conditions.ts';
import { sortsOf } from './english.ts';
import { orderAt } from './orders.ts';
import { boundOf, timeAt, withinIn } from './quantities.ts';
import { calledAt, type Sentence } from './reading.ts';
import { type Token, tokensOf } from './tokens.ts';
import { type Gauge, type Item, type Vocabulary, vocabularyOf } from './vocabulary.ts';

export interface Said {
  /** The action in our language; where the words fit several things, one for each. */
  readonly actions: readonly string[];
  /** What it is about. A wait is about nothing but the time. */
  readonly about: readonly (model.Item | model.Gauge)[];
  readonly sort: 'set' | 'run' | 'look' | 'read' | 'bring' | 'wait';
  /** The state that is named, where there is one thing. */
  readonly state?: number;
  /** It holds only where the condition at the start of its sentence does: that, where it can be said, or `true`. */
  readonly conditional: string | boolean;
  /** What its sentence says after it: an order of its own, or more about this one. */
  readonly rest?: string;
  readonly more?: boolean;
  /** The sentences that say it: the first, and the last where the next goes on with “it”. */
  readonly first: number;
  readonly last: number;
  /** Where it begins in the first sentence. */
  readonly at: number;
}

/** As it is kept: of whichever equipment has the same words. */
type Read = Omit<Said, 'about'> & { readonly about: readonly (Item | Gauge)[] };

interface Memory {
  item?: Item | undefined;
  gauge?: Gauge | undefined;
}

export interface Text {
  readonly sentences: readonly string[];
  /** The language tag of the card. */
  readonly language: string;
}

/** No step is longer for a person to read; what goes on beyond is left unread, so that no text can stop the check. */
const mostCharacters = 4_000;
const mostSentences = 100;

/** A bound of time that a sentence has in its middle, put at its end, where it is looked for. */
function straight(sentence: string): string {
  return sentence
    .replace(/^Wait up to (.+?) until (.+?)\.?$/u, 'Wait until $2, for $1 at most.')
    .replace(/^(Bring .+?) to the limit that applies (within .+?):?$/u, '$1 $2 to what holds here:');
}

/** Texts that are kept with what they say. */
const mostRead = 20_000;

/** What texts say that were read before, under the same words, is known: of a card in which somebody types most are. */
function once<Result>(
  what: string,
  { sentences, language }: Text,
  equipment: model.Equipment,
  work: (text: Text, vocabulary: Vocabulary) => Result,
): Result {
  const vocabulary = vocabularyOf(equipment);
  const read = sentences.slice(0, mostSentences).map((sentence) => sentence.slice(0, mostCharacters));
  const sort = `${what} ${language} ${read.length === 1 ? 'in one' : 'in several'}`;
  const known = getOrInsert(vocabulary.read, sort, () => new Map());
  // Most texts are one sentence, which is a key as it stands.
  const key = read.length === 1 ? (read[0] as string) : JSON.stringify(read);
  const before = known.get(key);
  if (before !== undefined) return before as Result;
  if (known.size > mostRead) known.clear();
  // Copies: a part of a long text keeps the whole of it in memory.
  const copy = structuredClone({ key, sentences: read, language });
  const result = work(copy, vocabulary);
  known.set(copy.key, result);
  return result;
}

const inEquipment =
  ({ items, gauges }: model.Equipment) =>
  (one: Item | Gauge) =>
    ('kind' in one ? items[one.index] : gauges[one.index]) as model.Item | model.Gauge;

/** In a language that no library covers, only the sentences of the kinds themselves. */
export function recognise(text: Text, equipment: model.Equipment): readonly Said[] {
  const ours = inEquipment(equipment);
  return once('said', text, equipment, readAll).map((said) => ({ ...said, about: said.about.map(ours) }));
}

function readAll({ sentences, language }: Text, vocabulary: Vocabulary): readonly Read[] {
  const english = /^en\b/i.test(language);
  const memory: Memory = {};
  const found: Read[] = [];
  for (const [index, whole] of sentences.entries()) {
    const text = straight(whole);
    const sentence = { text, tokens: tokensOf(text), english };
    const before = found.at(-1);
    const goingOn = english && before?.last === index - 1 ? goesOn(before, sentence, memory) : undefined;
    if (before && goingOn) found[found.length - 1] = { ...before, ...goingOn, last: index };
    else found.push(...saidIn(sentence, index, vocabulary, memory));
  }
  return found;
}

/** What sentences name by its whole label, whatever they say of it. */
export function namedIn(text: Text, equipment: model.Equipment): readonly (model.Item | model.Gauge)[] {
  return once('named', text, equipment, allNamed).map(inEquipment(equipment));
}

function allNamed({ sentences }: Text, { things }: Vocabulary): readonly (Item | Gauge)[] {
  return sentences.flatMap((text) => {
    const sentence = { text, tokens: tokensOf(text), english: false };
    return sentence.tokens.flatMap((_, at) => calledAt<Item | Gauge>(at, things, sentence, undefined)?.things ?? []);
  });
}

/** `It must be at most 50 bar.` after a sentence that names a gauge. */
function goesOn({ sort }: Read, { text }: Sentence, { gauge }: Memory): Pick<Read, 'actions'> | undefined {
  if (
    sort !== 'read' ||
    !gauge ||
    !/^(?:it|this|that|the (?:reading|value|figure|gauge|pressure|temperature))\b/i.test(text)
  )
    return undefined;
  const bound = boundOf(text, gauge);
  return bound === undefined ? undefined : { actions: [`read ${gauge.name} ${bound}`] };
}

const starting = new Set([',', ';', ':', '–', '—', 'and', 'then', 'und', 'dann']);
const conditions = /^(?:if|when|once|unless|where|in case|falls|wenn|sobald)\b/i;

function saidIn(sentence: Sentence, index: number, vocabulary: Vocabulary, memory: Memory): Read[] {
  const found: Read[] = [];
  const { tokens } = sentence;
  const condition = conditions.test(sentence.text) && (conditionAt(1, sentence, vocabulary)?.text ?? true);
  let free = 0;
  for (const [at, token] of tokens.entries()) {
    if (at < free || (at > 0 && !starting.has(tokens[at - 1]?.text ?? ''))) continue;
    if (at > 0 && starting.has(token.text)) continue;
    const said = saidAt(beginning(at, sentence), sentence, vocabulary, memory);
    if (!said) continue;
    const { next, ...own } = said;
    const where = { first: index, last: index, at: token.start };
    found.push({ ...own, ...afterwards(said, sentence), conditional: condition, ...where });
    free = next;
  }
  // What another order follows has said all.
  return found.map(({ rest, ...one }, order) =>
    rest === undefined || order < found.length - 1 ? one : { ...one, rest },
  );
}

/** What a sentence goes on with: `and put it in the tray` is an order of its own, `a quarter turn` tells more of this one. */
function afterwards({ next, sort }: Found, sentence: Sentence): Pick<Read, 'rest' | 'more'> {
  const { tokens, text } = sentence;
  const left = tokens
    .slice(next)
    .filter(({ type, text: sign }) => type !== 'aside' && !/^[.!]$/u.test(sign) && sign !== 'again');
  const order = left.findIndex(
    (token, at) => starting.has(left[at - 1]?.text ?? '') && !starting.has(token.text) && isVerb(token, sentence),
  );
  if (order >= 0) return { rest: text.slice(left[order]?.start) };
  return sort === 'set' && left.length > 0 ? { more: true } : {};
}

function isVerb(token: Token, sentence: Sentence): boolean {
  return sentence.english && sortsOf(sentence.text).get(token.start)?.root !== undefined;
}

export type Found = Omit<Read, 'conditional' | 'first' | 'last' | 'at' | 'rest' | 'more'> & { readonly next: number };

const lead = new Set(
  'now then next again slowly carefully gently fully please first finally immediately also always only still'.split(
    ' ',
  ),
);

/** The first word of an order, without words of when and how. */
function beginning(at: number, { tokens }: Sentence): number {
  let first = at;
  while (lead.has(tokens[first]?.text ?? '') || /^(?!apply|supply).{4,}ly$/u.test(tokens[first]?.text ?? '')) first++;
  if (first > at && tokens[first]?.text === ',') first++;
  return first;
}

function saidAt(at: number, sentence: Sentence, vocabulary: Vocabulary, memory: Memory): Found | undefined {
  const order = orderAt(at, sentence, vocabulary, memory.item);
  if (order) {
    memory.item = order.items[0];
    return ordered(order, sentence, vocabulary);
  }
  if (!sentence.english) return undefined;
  return (
    waited(at, sentence, vocabulary) ??
    looked(at, sentence, vocabulary, memory) ??
    readAt(at, sentence, vocabulary, memory)
  );
}

// ---------------------------------------------------------------- orders

function ordered(
  { items, either, state, next, run }: NonNullable<ReturnType<typeof orderAt>>,
  sentence: Sentence,
  vocabulary: Vocabulary,
): Found | undefined {
  const rest = sentence.text.slice(sentence.tokens[next - 1]?.end ?? 0);
  const time = timeAt(rest);
  const until = untilIn(next, sentence, vocabulary);
  const [item] = items as readonly [Item];
  if (run && !time && !until) return undefined;
  const named = (one: Item): string => `${one.name} ${one.kind.states[state]?.name}`;
  const about = [...items, ...either];
  if (time && !/^\s*(?:,\s*)?for\b.*\bat most/i.test(rest)) {
    return {
      actions: [item, ...either].map((one) => `run ${named(one)} for ${time}`),
      about,
      sort: 'run',
      state,
      next,
    };
  }
  if (until) {
    return { actions: [item, ...either].map((one) => `run ${named(one)} ${until}`), about, sort: 'run', state, next };
  }
  if (either.length > 0) return { actions: about.map((one) => `set ${named(one)}`), about, sort: 'set', state, next };
  return { actions: [`set ${items.map(named).join(', ')}`], about, sort: 'set', state, next };
}

/** `until the pressure is at least 2 bar, for 1 min at most`; only with a time can it be said as an action. */
function untilIn(at: number, sentence: Sentence, vocabulary: Vocabulary): string | undefined {
  const { tokens, text } = sentence;
  const until = tokens.findIndex((token, index) => index >= at && token.text === 'until');
  if (until < 0 || !sentence.english) return undefined;
  const condition = conditionAt(until + 1, sentence, vocabulary);
  const within = withinIn(text.slice(tokens[until]?.start));
  return condition && within ? `until ${condition.text} within ${within}` : undefined;
}

// ---------------------------------------------------------------- waits

function waited(at: number, sentence: Sentence, vocabulary: Vocabulary): Found | undefined {
  const { tokens, text } = sentence;
  if (tokens[at]?.text !== 'wait') return undefined;
  const until = untilIn(at, sentence, vocabulary);
  const next = tokens.length;
  if (until) return { actions: [`wait ${until}`], about: [], sort: 'wait', next };
  const condition = tokens[at + 1]?.text === 'until' ? conditionAt(at + 2, sentence, vocabulary) : undefined;
  if (condition) return { actions: [`wait until ${condition.text}`], about: condition.about, sort: 'wait', next };
  const time = timeAt(text.slice(tokens[at].end));
  return time ? { actions: [`wait ${time}`], about: [], sort: 'wait', next } : undefined;
}

// ---------------------------------------------------------------- looks

const sure = /^(?:make sure|ensure|see to it)(?: that)?\b/i;
const look = /^(?:check|verify|confirm|see|observe|watch)(?: that| whether| if)?\b/i;
const question = /^(?:is|are)\b/i;

function looked(at: number, sentence: Sentence, vocabulary: Vocabulary, memory: Memory): Found | undefined {
  const rest = sentence.text.slice(sentence.tokens[at]?.start ?? sentence.text.length);
  const verb = (sure.exec(rest) ?? look.exec(rest) ?? question.exec(rest))?.[0] ?? '';
  const first = verb === '' ? at : tokenAfter(at, verb, sentence);
  const must = verb === '';
  const condition = conditionAt(first, sentence, vocabulary, {
    must,
    question: question.test(verb),
    last: memory.item,
  });
  if (!condition) return undefined;
  const [only] = condition.about;
  const isItem = only !== undefined && 'kind' in only;
  if (isItem) memory.item = only;
  if (only !== undefined && !isItem) memory.gauge = only;
  const sets = (must || sure.test(verb)) && condition.state !== undefined && isItem && !only.kind.seen;
  const bounded = condition.bound !== undefined && condition.about.length === 1;
  const word = sets ? 'ensure' : 'check';
  const action = bounded
    ? `read ${condition.text}`
    : `${word} ${sets ? condition.text.replaceAll(' and ', ', ') : condition.text}`;
  return {
    actions: [action],
    about: condition.about,
    sort: bounded ? 'read' : 'look',
    ...(condition.state !== undefined && { state: condition.state }),
    next: condition.next,
  };
}

function tokenAfter(at: number, verb: string, { tokens }: Sentence): number {
  const end = (tokens[at] as Token).start + verb.length;
  const next = tokens.findIndex(({ start }) => start >= end);
  return next < 0 ? tokens.length : next;
}

// ---------------------------------------------------------------- readings

const reading = /^(?:read|note|take|measure|monitor|check|watch|observe|write down|log|work out)\b/i;
const bringing = /^(?:bring|adjust|regulate|raise|lower|increase|reduce|set|fill|pump up)\b/i;

function readAt(at: number, sentence: Sentence, vocabulary: Vocabulary, memory: Memory): Found | undefined {
  const { tokens, text } = sentence;
  const rest = text.slice(tokens[at]?.start ?? text.length);
  const verb = (reading.exec(rest) ?? bringing.exec(rest))?.[0];
  if (verb === undefined) return undefined;
  const called = calledAt(tokenAfter(at, verb, sentence), vocabulary.gauges, sentence, memory.gauge);
  const [gauge] = called?.things ?? [];
  if (!called || !gauge || called.either.length > 0) return undefined;
  memory.gauge = gauge;
  const after = text.slice(tokens[called.next - 1]?.end ?? 0);
  const bound = boundOf(after, gauge);
  const brings = bringing.test(rest);
  // “Note that the pressure is right” reads nothing.
  if (bound === undefined && isStated(called.next, sentence)) return undefined;
  if (bound === undefined && brings)
    return brings && /\bwhat holds here\b/u.test(after)
      ? { actions: [`read ${gauge.name}`], about: [gauge], sort: 'read', next: called.next }
      : undefined;
  const next = bound === undefined ? called.next : tokens.length;
  const within = withinIn(after);
  if (brings && within)
    return { actions: [`bring ${gauge.name} ${bound} within ${within}`], about: [gauge], sort: 'bring', next };
  return {
    actions: [`read ${gauge.name}${bound === undefined ? '' : ` ${bound}`}`],
    about: [gauge],
    sort: 'read',
    next,
  };
}
