/** What a text may call the things of the equipment, and the sentences that name a state of each. */

import type * as model from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { singular } from './english.ts';
import { plainWords } from './tokens.ts';

/** `Put {} in place` is `put`, the thing, `in place`. */
export interface Pattern {
  readonly state: number;
  readonly before: readonly string[];
  readonly after: readonly string[];
  /** `after` is a particle that belongs to the verb: what follows it is no place. */
  readonly parted?: boolean;
}

/** What of the equipment can make a difference to what a sentence says: nothing else is looked at, so that the same words are read once. */
export interface Words {
  readonly kinds: readonly Kind[];
  readonly items: readonly Item[];
  readonly gauges: readonly Gauge[];
  readonly supplies: readonly (Pick<model.Supply, 'name' | 'label'> & {
    readonly nodes: readonly { readonly name: string }[];
  })[];
}

export type Kind = Pick<model.Kind, 'name' | 'seen'> & { readonly states: readonly Omit<model.KindState, 'place'>[] };
export type Item = Pick<model.Item, 'name' | 'label' | 'at'> & {
  /** In `Equipment.items`. */
  readonly index: number;
  readonly kind: Kind;
};
export type Gauge = Pick<model.Gauge, 'name' | 'label' | 'at'> & {
  /** In `Equipment.gauges`. */
  readonly index: number;
  readonly unit: Pick<model.Gauge['unit'], 'dimension'>;
};

export interface Thing<Of extends Item | Gauge = Item | Gauge> {
  readonly of: Of;
  /** Without articles, nouns in the singular. */
  readonly label: readonly string[];
  /** All that it may be called by. */
  readonly words: ReadonlySet<string>;
  /** Words of which one stands at the end of what it is called. */
  readonly heads: ReadonlySet<string>;
}

/** Things by the words that they may be called by: a sentence is held against those alone whose words it has. */
export class Things<Of extends Item | Gauge = Item | Gauge> {
  private readonly byFirst = new Map<string, Thing<Of>[]>();
  private readonly byWord = new Map<string, Thing<Of>[]>();

  constructor(readonly all: readonly Thing<Of>[]) {
    for (const thing of all) {
      getOrInsert(this.byFirst, thing.label[0] ?? '', () => []).push(thing);
      for (const word of thing.words) getOrInsert(this.byWord, word, () => []).push(thing);
    }
  }

  /** Those whose label begins with the word. */
  beginningWith(word: string): readonly Thing<Of>[] {
    return this.byFirst.get(word) ?? [];
  }

  /** Those that may be called by the word, among others. */
  having(word: string): readonly Thing<Of>[] {
    return this.byWord.get(word) ?? [];
  }

  /** As they stand among all. */
  readonly inOrder = (a: Thing<Of>, b: Thing<Of>): number => this.all.indexOf(a) - this.all.indexOf(b);

  has(one: Of): boolean {
    return this.all.some(({ of }) => of === one);
  }
}

export interface Vocabulary {
  readonly items: Things<Item>;
  /** Of each kind whose states are not only seen. */
  readonly ofKind: ReadonlyMap<Kind, Things<Item>>;
  readonly gauges: Things<Gauge>;
  readonly things: Things;
  readonly patterns: ReadonlyMap<Kind, readonly Pattern[]>;
  readonly equipment: Words;
  /** What was read before, for whoever reads, by what was read. */
  readonly read: Map<string, Map<string, unknown>>;
}

const known = new WeakMap<model.Equipment, Vocabulary>();
/** By the words themselves: a file that is read anew brings the same ones mostly. */
const same = new Map<string, Vocabulary>();
const mostSame = 8;

export function vocabularyOf(equipment: model.Equipment): Vocabulary {
  const before = known.get(equipment);
  if (before) return before;
  const words = wordsOf(equipment);
  const key = JSON.stringify([words, words.items.map(({ kind }) => words.kinds.indexOf(kind))]);
  const vocabulary = same.get(key) ?? made(words);
  same.delete(key);
  same.set(key, vocabulary);
  for (const [oldest] of same) if (same.size > mostSame) same.delete(oldest);
  known.set(equipment, vocabulary);
  return vocabulary;
}

function wordsOf({ kinds, items, gauges, supplies }: model.Equipment): Words {
  const kindOf = new Map<model.Kind, Kind>();
  for (const kind of [...kinds, ...items.map((item) => item.kind)]) {
    const { name, seen, states } = kind;
    if (!kindOf.has(kind)) kindOf.set(kind, { name, seen, states: states.map(({ place: _, ...state }) => state) });
  }
  const thing = ({ name, label, at }: model.Item | model.Gauge, index: number) => ({
    index,
    name,
    label,
    ...(at !== undefined && { at }),
  });
  return {
    kinds: kinds.map((kind) => kindOf.get(kind) as Kind),
    items: items.map((item, index) => ({ ...thing(item, index), kind: kindOf.get(item.kind) as Kind })),
    gauges: gauges.map((gauge, index) => ({ ...thing(gauge, index), unit: { dimension: gauge.unit.dimension } })),
    supplies: supplies.map(({ name, label, nodes }) => ({
      name,
      label,
      nodes: nodes.map((node) => ({ name: node.name })),
    })),
  };
}

function made(words: Words): Vocabulary {
  const items = words.items.map((item) => thingOf(item, item.kind.name));
  const gauges = words.gauges.map((gauge) => thingOf(gauge, ''));
  const kinds = [...new Set(words.items.map(({ kind }) => kind))];
  const ofKind = (kind: Kind) => new Things(items.filter(({ of }) => of.kind === kind));
  return {
    items: new Things(items),
    ofKind: new Map(kinds.filter(({ seen }) => !seen).map((kind) => [kind, ofKind(kind)])),
    gauges: new Things(gauges),
    things: new Things<Item | Gauge>([...items, ...gauges]),
    patterns: new Map(kinds.map((kind) => [kind, patternsOf(kind)])),
    equipment: words,
    read: new Map(),
  };
}

const nouns = (text: string): string[] => plainWords(text).map(singular);

/** The part of a label before its place: `the drain` of `the drain at the left tank`. */
const joins = /^(?:at|of|in|on|for|to|under|behind|between|with|near|above|below|am|an|im|unter|hinter|von|der|des)$/u;

function thingOf<Of extends Item | Gauge>(of: Of, kind: string): Thing<Of> {
  const label = nouns(of.label);
  const kindWords = nouns(kind);
  const nameWords = nouns(of.name);
  const end = label.findIndex((word, index) => index > 0 && joins.test(word));
  const head = label[(end < 0 ? label.length : end) - 1];
  const heads = [head, kindWords.at(-1), nameWords.findLast((word) => !/^\d+$/u.test(word))];
  return {
    of,
    label,
    words: new Set([...label, ...kindWords, ...nameWords, ...nouns(of.at ?? '')]),
    heads: new Set(heads.filter((word) => word !== undefined)),
  };
}

const particles = new Set(['off', 'on', 'out', 'up', 'down', 'back', 'in', 'away', 'apart']);

function patternsOf({ states }: Kind): Pattern[] {
  const patterns = states.flatMap(({ wording, others = [] }, state) =>
    [wording, ...others].flatMap((words) => (words === undefined ? [] : patternsIn(words, state))),
  );
  return patterns.sort((a, b) => length(b) - length(a));
}

const length = ({ before, after }: Pattern): number => before.length + after.length;

/** Words of a wording with its further place for a particle: `Take out {}` is `Take {} out` too. */
function patternsIn(wording: string, state: number): Pattern[] {
  const [first = '', second] = wording.split('{}');
  if (second === undefined) return [];
  const before = first.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  const after = second.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  if (before.length + after.length === 0) return [];
  const patterns: Pattern[] = [{ state, before, after }];
  const last = before.at(-1) ?? '';
  if (before.length === 2 && after.length === 0 && particles.has(last)) {
    patterns.push({ state, before: before.slice(0, -1), after: [last], parted: true });
  }
  return patterns;
}
