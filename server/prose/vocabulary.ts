/** What a text may call the things of the equipment, and the sentences that name a state of each. */
import type { Equipment, Gauge, Item, Kind } from '../../shared/card.ts';
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

export interface Thing<Of extends Item | Gauge = Item | Gauge> {
  readonly of: Of;
  /** Without articles, nouns in the singular. */
  readonly label: readonly string[];
  /** All that it may be called by. */
  readonly words: ReadonlySet<string>;
  /** Words of which one stands at the end of what it is called. */
  readonly heads: ReadonlySet<string>;
}

export interface Vocabulary {
  readonly items: readonly Thing<Item>[];
  readonly gauges: readonly Thing<Gauge>[];
  readonly patterns: ReadonlyMap<Kind, readonly Pattern[]>;
  readonly equipment: Equipment;
}

const known = new WeakMap<Equipment, Vocabulary>();

export function vocabularyOf(equipment: Equipment): Vocabulary {
  const before = known.get(equipment);
  if (before) return before;
  const kinds = new Set(equipment.items.map(({ kind }) => kind));
  const vocabulary = {
    items: equipment.items.map((item) => thingOf(item, item.kind.name)),
    gauges: equipment.gauges.map((gauge) => thingOf(gauge, '')),
    patterns: new Map([...kinds].map((kind) => [kind, patternsOf(kind)])),
    equipment,
  };
  known.set(equipment, vocabulary);
  return vocabulary;
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
