/** Times for the editor: when a step begins, how much rest there is to spare, and what an item has run and rested so far. */
import type { Card, Item, Step } from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import { buildFlow } from '../flow/build.ts';
import type { Flow, Move, Point } from '../flow/graph.ts';
import { type Ticks, ticks } from '../flow/time.ts';
import { timeBetween } from '../flow/time-between.ts';

const flows = new WeakMap<Card, Flow>();

/** The flow of a card for all machines at once, made once. */
function flowOf(card: Card): Flow {
  const flow = flows.get(card) ?? buildFlow(card, { includes: () => true });
  flows.set(card, flow);
  return flow;
}

/** From the start of the card to the beginning of a step, over all ways that the card allows; undefined where none leads there. */
export function timeSinceStart(card: Card, step: Step): Ticks | undefined {
  const flow = flowOf(card);
  const times = entriesOf(step, flow).flatMap((move) => timeBetween(flow.moves, flow.start, move.from) ?? []);
  if (times.length === 0) return undefined;
  return { least: Math.min(...times.map(({ least }) => least)), most: Math.max(...times.map(({ most }) => most)) };
}

function entriesOf(step: Step, flow: Flow): Move[] {
  return flow.moves.filter(({ steps }) => steps?.includes(step));
}

// ---------------------------------------------------------------- rests

export interface SpareRest {
  /** The action that begins the run. */
  readonly place: Place;
  readonly item: Item;
  /** Microseconds beyond what the duty asks for, in the worst case; never negative, since too short a rest is a finding. */
  readonly spare: number;
}

/** The rests between the runs of a card that have a duty to rest after each. */
export function sparesIn(card: Card): SpareRest[] {
  const flow = flowOf(card);
  return card.equipment.items.flatMap((item) =>
    item.duties.flatMap((duty) => {
      if (duty.type !== 'longest' || duty.rest === undefined) return [];
      const asked = ticks(duty.rest);
      const begins = flow.moves.filter((move) => enters(move, item, duty.state));
      const ends = flow.moves.filter((move) => leaves(move, item, duty.state));
      return begins.flatMap((begin) => {
        const rests = ends.flatMap((end) => timeBetween(flow.moves, end.to, begin.from)?.least ?? []);
        const spare = Math.min(...rests) - asked;
        return Number.isFinite(spare) && spare >= 0 ? [{ place: begin.place, item, spare }] : [];
      });
    }),
  );
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

// ---------------------------------------------------------------- runs so far

/** A stretch of time in which an item is in a duty state, or is not. */
export interface Stretch {
  readonly runs: boolean;
  readonly time: Ticks;
}

/** What an item has run and rested on the shortest way to a step, the time before its first run left out. */
export function runsUntil(card: Card, step: Step, item: Item): Stretch[] {
  const stretches: Stretch[] = [];
  const dutyStates = new Set(item.duties.map(({ state }) => state));
  let runs: boolean | undefined;
  for (const { happening, time } of shortestWay(flowOf(card), step)) {
    if (runs !== undefined) addTime(stretches, runs, time);
    if (happening.type === 'begin' || happening.type === 'set') {
      if (happening.item === item) runs = dutyStates.has(happening.state) || (runs === undefined ? undefined : false);
    } else if (happening.type === 'end' && happening.item === item) runs = false;
  }
  return stretches;
}

function addTime(stretches: Stretch[], runs: boolean, time: Ticks): void {
  const last = stretches.at(-1);
  if (last?.runs === runs) {
    const sum = { least: last.time.least + time.least, most: last.time.most + time.most };
    stretches[stretches.length - 1] = { runs, time: sum };
  } else if (time.most > 0) stretches.push({ runs, time });
}

/** The fewest moves from the start to a step, breadth first. */
function shortestWay(flow: Flow, step: Step): Move[] {
  const goals = new Set(entriesOf(step, flow).map(({ from }) => from));
  const cameBy = new Map<Point, Move | undefined>([[flow.start, undefined]]);
  const queue = [flow.start];
  for (const point of queue) {
    if (goals.has(point)) return wayTo(point, cameBy);
    for (const index of flow.from[point] ?? []) {
      const move = flow.moves[index] as Move;
      if (cameBy.has(move.to)) continue;
      cameBy.set(move.to, move);
      queue.push(move.to);
    }
  }
  return [];
}

function wayTo(point: Point, cameBy: ReadonlyMap<Point, Move | undefined>): Move[] {
  const way: Move[] = [];
  for (let move = cameBy.get(point); move; move = cameBy.get(move.from)) way.push(move);
  return way.reverse();
}
