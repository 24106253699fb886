/**
 * What a concrete run knows of its gauges. Every gauge's axis is cut at all ends of bounds that the card or its equipment mention, and each piece is
 * stood for by one value in it; gauges that are asked about in one breath form a group, and what is known of a group is the set of its value
 * combinations that have not been ruled out.
 */
import type { Bound, Condition, Equipment, Gauge, Item } from '../../shared/card.ts';
import { type Exact, exact } from '../../shared/exact.ts';
import type { Interval } from '../../shared/interval.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { boundTerms } from './conditions.ts';

/** For each group the number of a set of its combinations: those still possible. Sets are long, and few of them come up. */
export type Known = readonly number[];

/** What a gauge shows in one combination. */
export type Value = (gauge: Gauge) => Exact;

export function inside(interval: Interval, value: Exact): boolean {
  const { low, high } = interval;
  if (low && (low.open ? value.compare(low.value) <= 0 : value.compare(low.value) < 0)) return false;
  if (high && (high.open ? value.compare(high.value) >= 0 : value.compare(high.value) > 0)) return false;
  return true;
}

interface Possible {
  /** Which combination of its group. */
  readonly index: number;
  readonly value: Value;
}

interface Group {
  readonly gauges: readonly Gauge[];
  readonly combinations: readonly Value[];
  readonly sets: Sets;
}

/** Sets of combinations, each with a number. Number 0 has all. */
class Sets {
  private readonly all: (readonly Possible[])[] = [];
  private readonly numbers = new Map<string, number>();

  constructor(private readonly combinations: readonly Value[]) {
    this.numberOf(() => true);
  }

  get(number: number): readonly Possible[] {
    return this.all[number] as readonly Possible[];
  }

  numberOf(has: (value: Value, index: number) => boolean): number {
    const set = this.combinations.flatMap((value, index) => (has(value, index) ? [{ index, value }] : []));
    const key = set.map(({ index }) => index).join();
    return getOrInsert(this.numbers, key, () => this.all.push(set) - 1);
  }
}

/** More combinations than this are refused: the oracle is for small cards. */
const MOST_COMBINATIONS = 20_000;

export class TooBig extends Error {}

export class Readings {
  private readonly groups: readonly Group[];
  private readonly groupOf = new Map<Gauge, number>();
  readonly unknown: Known;
  /** What was once found to be left of a group when a gauge is forgotten. */
  private readonly freed = new Map<string, number>();

  constructor(equipment: Equipment, conditions: readonly Condition[]) {
    const axes = axesOf(equipment, conditions);
    this.groups = groupGauges(equipment, conditions).map((gauges) => {
      const combinations = combine(gauges, axes);
      return { gauges, combinations, sets: new Sets(combinations) };
    });
    this.groups.forEach((group, index) => {
      for (const gauge of group.gauges) this.groupOf.set(gauge, index);
    });
    this.unknown = this.groups.map(() => 0);
  }

  /** Every combination that `condition` may meet; one arbitrary combination where it reads no gauge. */
  possible(known: Known, condition: Condition): { readonly group?: number; readonly values: readonly Possible[] } {
    const group = this.groupAsked(condition);
    if (group === undefined) return { values: [{ index: 0, value: noValue }] };
    return { group, values: this.setOf(known, group) };
  }

  private setOf(known: Known, group: number): readonly Possible[] {
    return (this.groups[group] as Group).sets.get(known[group] as number);
  }

  /** Only these combinations of the group are left. */
  keepOnly(known: Known, group: number, indices: ReadonlySet<number>): Known {
    const before = this.setOf(known, group);
    const left = new Set(before.map(({ index }) => index).filter((index) => indices.has(index)));
    if (left.size === before.length) return known;
    const number = (this.groups[group] as Group).sets.numberOf((_, index) => left.has(index));
    return known.map((old, at) => (at === group ? number : old));
  }

  /**
   * What is left after an action on `item`, or after time has passed (`item` undefined). `isShown`: the action has just shown something, so that only
   * what the item moves is lost.
   */
  afterAction(known: Known, item: Item | undefined, isShown = false): Known {
    let left = known;
    for (const gauge of this.groupOf.keys()) {
      const ends = gauge.movedBy === undefined ? !isShown : item !== undefined && gauge.movedBy.includes(item);
      if (ends) left = this.forget(left, gauge);
    }
    return left;
  }

  /** This gauge may show anything again, whatever the others of its group show. */
  forget(known: Known, gauge: Gauge): Known {
    const groupIndex = this.groupOf.get(gauge);
    if (groupIndex === undefined) return known;
    if (known[groupIndex] === 0) return known;
    const key = `${gauge.id} ${known[groupIndex]}`;
    const freed = getOrInsert(this.freed, key, () => this.freeing(groupIndex, known, gauge));
    return known.map((old, index) => (index === groupIndex ? freed : old));
  }

  private freeing(groupIndex: number, known: Known, gauge: Gauge): number {
    const { gauges, sets } = this.groups[groupIndex] as Group;
    const others = gauges.filter((other) => other !== gauge);
    const signature = (value: Value) => others.map((other) => value(other).toFraction()).join(' ');
    const alive = new Set(this.setOf(known, groupIndex).map(({ value }) => signature(value)));
    return sets.numberOf((value) => alive.has(signature(value)));
  }

  private groupAsked(condition: Condition): number | undefined {
    const first = boundTerms(condition)[0];
    return first && this.groupOf.get(first.gauge);
  }
}

function noValue(): Exact {
  throw new Error('a condition without readings asked for one');
}

/** Every bound that is ever held against a gauge, with the gauge. */
function boundsIn(
  equipment: Equipment,
  conditions: readonly Condition[],
): readonly { readonly gauge: Gauge; readonly bound: Bound }[] {
  const limits = equipment.gauges
    .flatMap((gauge) => gauge.limits)
    .flatMap((limit) => [
      ...(limit.bound ? [{ gauge: limit.gauge, bound: limit.bound }] : []),
      ...(limit.by?.rows ?? []).flatMap((row) => [
        { gauge: limit.gauge, bound: row.bound },
        { gauge: limit.by?.gauge as Gauge, bound: row.when },
      ]),
    ]);
  const written = conditions
    .flatMap(boundTerms)
    .flatMap((term) => (term.type === 'bound' ? [{ gauge: term.gauge, bound: term.bound }] : []));
  return [...limits, ...written];
}

function axesOf(equipment: Equipment, conditions: readonly Condition[]): ReadonlyMap<Gauge, readonly Exact[]> {
  const bounds = boundsIn(equipment, conditions);
  const ends = (gauge: Gauge) =>
    bounds
      .filter((entry) => entry.gauge === gauge)
      .flatMap(({ bound }) => [bound.interval.low?.value, bound.interval.high?.value])
      .filter((value) => value !== undefined);
  return new Map(equipment.gauges.map((gauge) => [gauge, piecesOf(ends(gauge))]));
}

/** One value for each piece of an axis that is cut at these points: the points themselves, and one between each two and beyond the last. */
function piecesOf(points: readonly Exact[]): readonly Exact[] {
  const sorted = [...points]
    .sort((a, b) => a.compare(b))
    .filter((point, index, all) => index === 0 || !point.equals(all[index - 1] as Exact));
  if (sorted.length === 0) return [exact(0)];
  const between = sorted.slice(1).map((point, index) => point.add(sorted[index] as Exact).div(2));
  return [(sorted[0] as Exact).sub(1), ...sorted, ...between, (sorted.at(-1) as Exact).add(1)];
}

/** Gauges that stand in one condition, or in one limit `by` another, belong together. */
function groupGauges(equipment: Equipment, conditions: readonly Condition[]): readonly (readonly Gauge[])[] {
  const together = [
    ...conditions.map((condition) => boundTerms(condition).flatMap(gaugesOf)),
    ...equipment.gauges.flatMap((gauge) => gauge.limits.map((limit) => (limit.by ? [gauge, limit.by.gauge] : [gauge]))),
  ];
  let groups: Gauge[][] = [];
  for (const gauges of together.filter((list) => list.length > 0)) {
    const touching = groups.filter((group) => group.some((gauge) => gauges.includes(gauge)));
    groups = [...groups.filter((group) => !touching.includes(group)), [...new Set([...touching.flat(), ...gauges])]];
  }
  return groups;
}

function gaugesOf(term: ReturnType<typeof boundTerms>[number]): Gauge[] {
  return term.type === 'limit' && term.limit.by ? [term.gauge, term.limit.by.gauge] : [term.gauge];
}

function combine(gauges: readonly Gauge[], axes: ReadonlyMap<Gauge, readonly Exact[]>): readonly Value[] {
  let combinations: ReadonlyMap<Gauge, Exact>[] = [new Map()];
  for (const gauge of gauges) {
    combinations = combinations.flatMap((combination) =>
      (axes.get(gauge) ?? []).map((value) => new Map([...combination, [gauge, value]])),
    );
    if (combinations.length > MOST_COMBINATIONS) throw new TooBig('too many gauges asked together');
  }
  return combinations.map((combination) => (gauge: Gauge) => combination.get(gauge) as Exact);
}
