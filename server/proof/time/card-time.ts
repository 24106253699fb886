/** What a card takes: the time of the whole, and of each role. */
import { blocksOf } from '../../../shared/blocks.ts';
import type { Card, Role, Seconds, Stage, Statement, Together } from '../../../shared/card.ts';
import { buildFlow } from '../../flow/build.ts';
import type { Configuration } from '../../flow/configurations.ts';
import type { Flow, Move } from '../../flow/graph.ts';
import { noTicks, seconds, type Ticks } from '../../flow/time.ts';
import { timeBetween } from '../../flow/time-between.ts';

export interface CardTime {
  readonly least: Seconds;
  /** Undefined where nobody knows it. */
  readonly most?: Seconds;
}

/** From the first step to a finish, over all ways that come to one. */
export function timeOfCard(card: Card, configuration: Configuration): Ticks {
  const flow = buildFlow(card, { includes: configuration.includes, lead: () => -1 });
  return timeToFinish(flow, flow.moves);
}

/** The time in which the role has its hands on the card; beside others only its own lane counts. */
export function timeOfRole(card: Card, role: Role, configuration: Configuration): Ticks {
  const flow = buildFlow(card, {
    includes: configuration.includes,
    lead: (lanes) => laneOfRole(lanes, role),
  });
  const busy = flow.moves.map((move) => (move.roles.includes(role) ? move : { ...move, time: noTicks }));
  return timeToFinish(flow, busy);
}

/** The lane in which the role works; -1 where it works in none. */
export function laneOfRole(lanes: Together['lanes'], role: Role): number {
  return lanes.findIndex((lane) => lane.role === role || stepsOf(lane.body, role));
}

function stepsOf(body: readonly (Stage | Statement)[], role: Role): boolean {
  return body.some(
    (part) =>
      (part.type === 'step' && part.roles.includes(role)) || blocksOf(part).some((block) => stepsOf(block, role)),
  );
}

function timeToFinish(flow: Flow, moves: readonly Move[]): Ticks {
  const onward = moves.filter(({ happening }) => happening.type !== 'stopping');
  const end = moves.find(({ happening }) => happening.type === 'finish')?.to;
  return (end !== undefined && timeBetween(onward, flow.start, end)) || noTicks;
}

export function cardTime({ least, most }: Ticks): CardTime {
  return most === Number.POSITIVE_INFINITY ? { least: seconds(least) } : { least: seconds(least), most: seconds(most) };
}
