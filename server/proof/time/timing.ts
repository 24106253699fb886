/** What a card takes: worst times of duties, time of the whole and of each role. */
import { blocksOf } from '../../../shared/blocks.ts';
import type { Card, Item, Role, Stage, Statement, Together } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import { buildFlow } from '../../flow/build.ts';
import type { Configuration } from '../../flow/configurations.ts';
import { drives } from '../../flow/drives.ts';
import type { Flow, Move } from '../../flow/graph.ts';
import { noTicks, seconds, sum, type Ticks } from '../../flow/time.ts';
import { timeBetween } from '../../flow/time-between.ts';
import { type Collector, placeKey } from '../collector.ts';
import { movesAlong, type Passed, tell } from '../exploring/witness.ts';
import type { CardTime, DutyBreak } from '../facts.ts';
import { bitsOf, withValue } from '../meaning/state.ts';
import type { Monitor } from '../slicing/monitor.ts';
import type { Question } from '../slicing/question.ts';
import type { Slice } from '../slicing/slice.ts';
import { checkDuty, type DutyReport } from './duties.ts';
import { placesInTime, type TimingInput } from './places.ts';

/** Reports broken duties to the collector; gives the items on whose rest before the card it relies, and the states explored. `note` is told of what each question must know. */
export function* proveDuties(
  input: TimingInput,
  collector: Collector,
  note: (slice: Slice) => void,
): InParts<{ relying: Item[]; explored: number }> {
  const relying: Item[] = [];
  let explored = 0;
  for (const item of input.card.equipment.items) {
    if (item.duties.length === 0 || !drives(input.card.body, item)) continue;
    const begunBy = begunByMonitor(item);
    const question = { items: [item], gauges: [], monitors: [begunBy], settle: toldApart(item) };
    const lead = (lanes: Together['lanes']) => lanes.findIndex((lane) => drives(lane.body, item));
    const { slice, places } = yield* placesInTime(input, question, lead, item);
    explored += places.nodes.length;
    note(slice);
    for (const duty of item.duties) {
      const { reports, reliesOnRest } = yield* checkDuty(item, duty, begunBy, slice, places);
      for (const report of reports) {
        collect(report, item, slice, input, collector);
        yield;
      }
      if (reliesOnRest && !relying.includes(item)) relying.push(item);
    }
  }
  return { relying, explored };
}

/** The move (plus one) that began the present stay of an item in a state that its duties ask about. */
function begunByMonitor(item: Item): Monitor {
  const asked = item.duties.reduce((mask, { state }) => mask | (1 << state), 0);
  return {
    name: 'begun by',
    step: ({ move: { happening }, site, before, after }) => {
      const isOwn = happening.type === 'set' || happening.type === 'begin' || happening.type === 'end';
      if (!isOwn || happening.item !== item || before(item) === after(item)) return undefined;
      return after(item) & asked ? site : 0;
    },
  };
}

/** Whether a run is under way when the card begins is told apart from the start. */
function toldApart(item: Item): Question['settle'] {
  return ({ after, isStart, variables }) => {
    const variable = variables.ofItem(item);
    if (!isStart || variable === undefined) return [after];
    return bitsOf(after[variable] as number).map((state) => withValue(after, variable, 1 << state));
  };
}

function collect(report: DutyReport, item: Item, slice: Slice, input: TimingInput, collector: Collector): void {
  const { sort, duty, node, move, worst, limit, count } = report;
  const asked = sort === 'unbounded' || sort === 'too-long' ? 'length' : sort;
  const key = `${item.id} ${duty.place.start} ${asked} ${placeKey(move.place)}`;
  const missing = sort === 'too-long' ? worst - limit : limit - worst;
  collector.addWorst(
    'duties',
    key,
    asked === 'length' ? worst : -worst,
    (): DutyBreak => {
      const moves = fromItsRun(movesAlong(report.ways(), node, slice), item, sort);
      return {
        place: move.place,
        item,
        duty,
        sort,
        worst: worst === Number.POSITIVE_INFINITY ? undefined : seconds(worst),
        limit: seconds(limit),
        missing: sort === 'unbounded' ? undefined : seconds(missing),
        count,
        path: tell(timed(moves, item, asked === 'length' ? 'most' : 'least'), [item], [], input.card.place),
        blended: node.blended,
      };
    },
    move.call,
  );
}

/** A run that is too long is told from its start, a short rest from the run before it. */
function fromItsRun<T extends { readonly move: Move }>(
  moves: readonly T[],
  item: Item,
  sort: DutyBreak['sort'],
): readonly T[] {
  if (sort === 'too-often') return moves;
  return moves.slice(
    Math.max(
      moves.findLastIndex(({ move }) => begins(move, item)),
      0,
    ),
  );
}

function begins({ happening }: Move, item: Item): boolean {
  return (happening.type === 'set' || happening.type === 'begin') && happening.item === item;
}

/**
 * With the time that has passed from the first run to each, as the duty counts it: a run at its longest, a rest at its shortest. Beside
 * other lanes each has a time of its own.
 */
function timed<T extends { readonly move: Move }>(
  moves: readonly T[],
  item: Item,
  counts: Passed['counts'],
): readonly T[] {
  if (moves.some(({ move: { track, happening } }) => (track?.length ?? 0) > 0 || happening.type === 'fork'))
    return moves;
  let passed: Ticks | undefined;
  return moves.map((one) => {
    if (passed) passed = sum(passed, one.move.time);
    else if (begins(one.move, item)) passed = noTicks;
    return passed ? { ...one, passed: { ...passed, counts } } : one;
  });
}

// ---------------------------------------------------------------- time of the card

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
