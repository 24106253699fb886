/** Times for the editor: when a step begins, and how much rest there is to spare. */
import type { Card, Duty, Item, Step } from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { InParts } from '../../shared/parts.ts';
import { structureOf } from '../../shared/structure.ts';
import type { Place } from '../../shared/text.ts';
import type { Flow, Move, Point } from '../flow/graph.ts';
import { type Ticks, ticks } from '../flow/time.ts';
import { timesFrom } from '../flow/time-between.ts';
import { entriesOf, flowOfItem, flowToStep } from './step-flow.ts';

const timesOfFlows = new WeakMap<Flow, ReadonlyMap<Point, Ticks>>();

/** From the start of the card to the beginning of a step, over all ways that the card allows; undefined where none leads there. */
export function timeSinceStart(card: Card, step: Step): Ticks | undefined {
  const flow = flowToStep(card, step);
  const all = getOrInsert(timesOfFlows, flow, () => timesFrom(flow.moves, [flow.start]));
  const times = entriesOf(step, flow).flatMap((move) => all.get(move.from) ?? []);
  if (times.length === 0) return undefined;
  return { least: Math.min(...times.map(({ least }) => least)), most: Math.max(...times.map(({ most }) => most)) };
}

// ---------------------------------------------------------------- rests

export interface SpareRest {
  /** The action that begins the run. */
  readonly place: Place;
  readonly item: Item;
  /** Microseconds that the duty asks for. */
  readonly asked: number;
  /** Microseconds beyond it, in the worst case. */
  readonly spare: number;
}

const sparesOfCards = new WeakMap<object, readonly SpareRest[]>();

/** The rests between the runs of a card that are as long as a duty asks for, or longer. */
export function* sparesIn(card: Card): InParts<readonly SpareRest[]> {
  const known = sparesOfCards.get(structureOf(card));
  if (known) return known;
  const spares: SpareRest[] = [];
  for (const item of card.equipment.items) {
    for (const duty of item.duties) {
      const asked = restOf(duty);
      if (asked === undefined) continue;
      spares.push(...sparesOf(card, item, duty.state, asked));
      yield;
    }
  }
  sparesOfCards.set(structureOf(card), spares);
  return spares;
}

function restOf(duty: Duty): number | undefined {
  return duty.type === 'times-in-window' || duty.rest === undefined ? undefined : ticks(duty.rest);
}

function sparesOf(card: Card, item: Item, state: number, asked: number): SpareRest[] {
  const { moves } = flowOfItem(card, item);
  const begins = moves.filter((move) => enters(move, item, state));
  const afterRun = timesFrom(
    moves,
    begins.map(({ to }) => to),
  );
  const ends = moves.filter((move) => leaves(move, item, state) && afterRun.has(move.from));
  const rested = timesFrom(
    moves,
    ends.map(({ to }) => to),
  );
  return begins.flatMap(({ from, place }) => {
    const rest = rested.get(from);
    return rest && rest.least >= asked ? [{ place, item, asked, spare: rest.least - asked }] : [];
  });
}

function enters({ happening }: Move, item: Item, state: number): boolean {
  return (
    (happening.type === 'begin' || happening.type === 'set') && happening.item === item && happening.state === state
  );
}

function leaves({ happening }: Move, item: Item, state: number): boolean {
  if (happening.type === 'end') return happening.item === item && happening.state === state;
  return happening.type === 'set' && happening.item === item && happening.state !== state;
}
