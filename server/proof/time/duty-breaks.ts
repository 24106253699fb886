import type { Duty, Item, Seconds, Together } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { Place } from '../../../shared/text.ts';
import { drives } from '../../flow/drives.ts';
import type { Move } from '../../flow/graph.ts';
import { noTicks, seconds, sum, type Ticks } from '../../flow/time.ts';
import type { Break } from '../break.ts';
import { movesAlong, type Passed, tell } from '../exploring/witness.ts';
import { bitsOf, withValue } from '../meaning/state.ts';
import type { Context, QuestionSort, TimedContext } from '../questions/sort.ts';
import type { Monitor } from '../slicing/monitor.ts';
import type { Question } from '../slicing/question.ts';
import type { Slice } from '../slicing/slice.ts';
import { checkDuty, type DutyReport } from './duties.ts';
import { placesInTime } from './places.ts';

export interface DutyBreak extends Break {
  readonly item: Item;
  readonly duty: Duty;
  readonly sort: 'too-long' | 'unbounded' | 'short-rest' | 'too-often';
  /** Seconds: the longest run, or the shortest rest or closest distance of the starts; for `too-often` by rest the longest rest that the path is sure of. */
  readonly worst?: Seconds;
  /** Seconds: what the duty asks for. */
  readonly limit: Seconds;
  /** Seconds of rest to add before this run; or seconds by which the run is too long. */
  readonly missing?: Seconds;
  /** For `unbounded`: the first thing in the run that takes nobody knows how long; absent where the card ends with it. */
  readonly untimed?: Place | undefined;
  /** For `too-often`: which run this is. */
  readonly count?: number;
}

/** Does an item run too long, rest too short or run too often? */
export const duties: QuestionSort<DutyBreak> = {
  timed: proveDuties,
  examples: [
    {
      given: `kind starter { off "Release {}", cranking "Hold {}" }
item starter-1 : starter "the starter" normally off { duty cranking at most 30 s, then rest 60 s }`,
      bad: `card a "A" {
  step run starter-1 cranking for 40 s
  //   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ duties
}`,
      good: `card a "A" {
  step run starter-1 cranking for 30 s
}`,
    },
  ],
};

function* proveDuties(context: TimedContext<DutyBreak>): InParts<void> {
  for (const item of context.card.equipment.items) {
    if (item.duties.length === 0 || !drives(context.card.body, item)) continue;
    const begunBy = begunByMonitor(item);
    const question = { items: [item], gauges: [], monitors: [begunBy], settle: toldApart(item) };
    const lead = (lanes: Together['lanes']) => lanes.findIndex((lane) => drives(lane.body, item));
    const { slice, places } = yield* placesInTime(context, question, lead, item);
    for (const duty of item.duties) {
      const { reports, reliesOnRest } = yield* checkDuty(item, duty, begunBy, slice, places);
      for (const one of reports) {
        report(one, item, slice, context);
        yield;
      }
      if (reliesOnRest) context.noted.relyingOnRest.add(item);
    }
  }
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

function report(
  { sort, duty, node, move, worst, limit, count, ways }: DutyReport,
  item: Item,
  slice: Slice,
  context: Context<DutyBreak>,
): void {
  const asked = sort === 'unbounded' || sort === 'too-long' ? 'length' : sort;
  const missing = sort === 'too-long' ? worst - limit : limit - worst;
  context.collector.addWorst(
    `${item.id} ${item.duties.indexOf(duty)} ${asked}`,
    move.place,
    asked === 'length' ? worst : -worst,
    (): DutyBreak => {
      const moves = fromItsRun(movesAlong(ways(), node, slice), item, sort);
      return {
        place: move.place,
        item,
        duty,
        sort,
        worst: worst === Number.POSITIVE_INFINITY ? undefined : seconds(worst),
        limit: seconds(limit),
        missing: sort === 'unbounded' ? undefined : seconds(missing),
        untimed: sort === 'unbounded' ? firstUntimed(moves) : undefined,
        count,
        path: tell(timed(moves, item, asked === 'length' ? 'most' : 'least'), [item], [], context.card.place),
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

function firstUntimed(moves: readonly { readonly move: Move }[]): Place | undefined {
  return moves.find(({ move }) => move.time.most === Number.POSITIVE_INFINITY)?.move.place;
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
