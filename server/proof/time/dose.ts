/**
 * Noise dose of each role over a card: 29 CFR 1910.95 Appendix A, D = 100 · Σ C/T with T = 8 h / 2^((L - 90) / 5), or the same by
 * another criterion. Levels under 80 dBA count nothing, whichever it is. Worn protection takes off (NRR - 7) / 2 dB: the A-weighted correction of Appendix B, halved as
 * usual for work in the field. The formula is used, not the rounded Table G-16.
 */
import type { Condition, Hazard, Item } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { NoiseCriterion } from '../../../shared/settings.ts';
import { mostGrowing } from '../../flow/limits.ts';
import { settle } from '../../flow/settle.ts';
import { seconds } from '../../flow/time.ts';
import { evaluate, knownIn, partWhere, type Variables } from '../meaning/evaluate.ts';
import type { State } from '../meaning/state.ts';
import { thingsIn } from '../meaning/things.ts';
import { type Node, type Places, type Way, waysTo } from '../slicing/question.ts';
import { doseWithoutEnd, joined, type LaneDose, noDose, passMove, widerDose } from './lane-doses.ts';

const threshold = 80;
const hour = 3600;

/** The level of a whole day of 8 h, and how many dB more leave half of the time. */
const criteria: Readonly<Record<NoiseCriterion, { readonly day: number; readonly half: number }>> = {
  '90 dBA, 5 dB': { day: 90, half: 5 },
  '85 dBA, 3 dB': { day: 85, half: 3 },
  // The table of the directive follows equal energy to the last digit: 3.01 dB.
  '87 dBA, 3 dB': { day: 87, half: 10 * Math.log10(2) },
};

/** Seconds for which a level may last in a day. */
export function permissibleSeconds(level: number, criterion: NoiseCriterion = '90 dBA, 5 dB'): number {
  const { day, half } = criteria[criterion];
  return (8 * hour) / 2 ** ((level - day) / half);
}

/** Percent of the permissible dose. */
export function dose(level: number, exposedSeconds: number, criterion?: NoiseCriterion): number {
  return level < threshold ? 0 : (100 * exposedSeconds) / permissibleSeconds(level, criterion);
}

export interface DoseResult {
  readonly percent: number;
  readonly atLeast: boolean;
  readonly node: Node;
  /** Those by which it is got. */
  readonly ways: readonly Way[];
}

/** The largest dose that the role may get on any path of these places. */
export function* largestDose(
  hazards: readonly Hazard[],
  places: Places,
  variables: Variables,
  criterion?: NoiseCriterion,
): InParts<DoseResult | undefined> {
  const levels: number[] = [];
  const levelAt = ({ id, state }: Node) => {
    levels[id] ??= loudest(state, hazards, variables);
    return levels[id];
  };
  const doseOf = (level: number, ticks: number) => dose(level, seconds(ticks).valueOf(), criterion);
  const by: Way[] = [];
  const doses = yield* settle<LaneDose, Way>(places.ways, ({ to }) => to.id, {
    starts: new Map(places.nodes.slice(0, 1).map(({ id }) => [id, noDose])),
    along: (here, { from, move }) => passMove(here, move, levelAt(from), doseOf),
    join: widerDose,
    mostGrowths: (node) => mostGrowing + 4 * (places.ways[node]?.length ?? 0),
    widen: doseWithoutEnd,
    onChange: (way, here, before) => {
      if (!before || joined(here, doseOf).percent > joined(before, doseOf).percent) by[way.to.id] = way;
    },
  });
  let largest: Omit<DoseResult, 'ways'> | undefined;
  for (const node of places.nodes) {
    const here = doses[node.id];
    if (!here) continue;
    const { percent, atLeast } = here;
    if (!largest || percent > largest.percent) largest = { percent, atLeast, node };
    else if (percent === largest.percent && atLeast) largest = { ...largest, atLeast };
  }
  return largest && { ...largest, ways: waysTo(largest.node, by) };
}

/** The loudest level in dBA that may reach the ear in a state; 0 where that counts nothing. */
function loudest(state: State, hazards: readonly Hazard[], variables: Variables): number {
  const levels = hazards.flatMap((hazard) => {
    const part = partWhere(hazard.condition, state, variables, (answer) => answer === 'yes', knownIn);
    return part && hazard.noise ? [hazard.noise.valueOf() - takenOff(hazard, part, variables)] : [];
  });
  return Math.max(0, ...levels.filter((level) => level >= threshold));
}

/** dB that the protection takes off, where it is surely worn as the hazard asks. */
function takenOff({ protect }: Hazard, state: State, variables: Variables): number {
  const rating = protect ? ratingWorn(protect, state, variables) : 0;
  return Math.max(0, (rating - 7) / 2);
}

/** The best rating of what is named and surely worn: where one thing or another will do, that of one which is not on is none. */
function ratingWorn(asked: Condition, state: State, variables: Variables): number {
  if (evaluate(asked, knownIn(state), variables) !== 'yes') return 0;
  switch (asked.type) {
    case 'or':
    case 'and':
      return Math.max(...asked.terms.map((term) => ratingWorn(term, state, variables)));
    case 'quantified':
      return ratingWorn(asked.written, state, variables);
    case 'not':
      // Which of several things it holds by is not known.
      return least([...thingsIn(asked).items].map(ratingOf));
    case 'state':
      return ratingOf(asked.item);
    case 'bound':
    case 'limit':
    case 'reaches':
    case 'open':
      return 0;
  }
}

const least = ([first = 0, ...others]: readonly number[]): number => Math.min(first, ...others);

const ratingOf = ({ reduces }: Item): number => reduces?.valueOf() ?? 0;
