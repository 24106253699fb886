/** What an item has run and rested so far, on the way that the card is meant to go. */
import type { Card, Item, Step } from '../../../shared/card.ts';
import type { Flow, Move, Point } from '../../flow/graph.ts';
import { noTicks, sum, type Ticks } from '../../flow/time.ts';
import { type Rounds, roundsAfter } from '../../flow/time-between.ts';
import { entriesOf, flowOfItem } from '../step-flow.ts';

/** A stretch of time in which an item is in a duty state, or is not. */
export interface Stretch {
  readonly runs: boolean;
  readonly time: Ticks;
}

/** What an item has run and rested when a step is first come to, the time before its first run left out. */
export function runsUntil(card: Card, step: Step, item: Item): Stretch[] {
  const stretches: Stretch[] = [];
  const dutyStates = new Set(item.duties.map(({ state }) => state));
  let runs: boolean | undefined;
  for (const { move, time } of inTime(usualWay(flowOfItem(card, item, step), step))) {
    if (runs !== undefined) addTime(stretches, runs, time);
    const { happening } = move;
    if (happening.type === 'begin' || happening.type === 'set') {
      if (happening.item === item) runs = dutyStates.has(happening.state) || (runs === undefined ? undefined : false);
    } else if (happening.type === 'end' && happening.item === item) runs = false;
  }
  return stretches;
}

function addTime(stretches: Stretch[], runs: boolean, time: Ticks): void {
  const last = stretches.at(-1);
  if (last?.runs === runs) stretches[stretches.length - 1] = { runs, time: sum(last.time, time) };
  else if (time.most > 0) stretches.push({ runs, time });
}

/** The moves with the time that passes; at the end of its lane the path waits for the others. */
function inTime(way: readonly Move[]): { move: Move; time: Ticks }[] {
  const lanes: Ticks[] = [];
  return way.map((move) => {
    const { happening } = move;
    let { time } = move;
    if (happening.type === 'join') {
      const own = lanes.pop() ?? noTicks;
      const { others } = happening;
      time = sum(time, {
        least: Math.max(0, others.least - own.least),
        most: Math.max(0, others.most - own.most),
      });
    }
    lanes.forEach((lane, depth) => {
      lanes[depth] = sum(lane, time);
    });
    if (happening.type === 'fork') lanes.push(noTicks);
    return { move, time };
  });
}

// ---------------------------------------------------------------- the usual way

interface Stand {
  readonly point: Point;
  readonly rounds: Rounds;
  /** Moves that are still to be tried from here, the likeliest last. */
  readonly untried: Move[];
}

/**
 * The way to a step as the card is meant to go: checks pass, questions are answered as written first, all rounds of a counted
 * loop are done. Where the step is not on it, the last choice that leads there is another one. Empty where no way leads there.
 */
function usualWay(flow: Flow, step: Step): Move[] {
  const goals = new Set(entriesOf(step, flow).map(({ from }) => from));
  const seen = new Set<string>();
  const stands: Stand[] = [];
  const way: Move[] = [];
  const arrive = (point: Point, rounds: Rounds): boolean => {
    const key = [point, ...[...rounds].flat()].join(' ');
    if (seen.has(key)) return false;
    seen.add(key);
    stands.push({ point, rounds, untried: movesFrom(flow, point) });
    return true;
  };
  arrive(flow.start, new Map());
  for (let stand = stands.at(-1); stand; stand = stands.at(-1)) {
    if (goals.has(stand.point)) return way;
    const move = stand.untried.pop();
    if (!move) {
      stands.pop();
      way.pop();
      continue;
    }
    const rounds = roundsAfter(stand.rounds, move);
    if (rounds && arrive(move.to, rounds)) way.push(move);
  }
  return [];
}

function movesFrom(flow: Flow, point: Point): Move[] {
  const moves = (flow.from[point] ?? []).map((index) => flow.moves[index] as Move);
  return moves.reverse().sort((a, b) => likelihood(a) - likelihood(b));
}

function likelihood({ happening, branch }: Move): number {
  if (happening.type === 'stopping') return 0;
  if (happening.type === 'assume' && !happening.holds) return 1;
  return branch?.passes === false ? 1 : 2;
}
