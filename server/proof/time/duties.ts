/**
 * How long each item can have been in a duty state, how short it can have rested, how often it can have been started: worst
 * cases over all paths. Time is no part of a state: each place keeps the worst of every clock.
 */
import type { Duty, Item } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { Move, Track } from '../../flow/graph.ts';
import { mostCountedOver, mostGrowing } from '../../flow/limits.ts';
import { settle } from '../../flow/settle.ts';
import { type Ticks, ticks } from '../../flow/time.ts';
import { placesInPart } from '../exploring/explore.ts';
import { aroundAll, eitherHands, elapsed, forked, type Hands, joined, onlyHands } from '../exploring/hands.ts';
import type { MonitorName } from '../slicing/monitor.ts';
import { type Node, type Places, type Way, waysTo } from '../slicing/question.ts';
import type { Slice } from '../slicing/slice.ts';
import { type Clock, elapse, forkClock, joinClock, narrowedClock, sameClock, startClock } from './clock.ts';
import {
  type Count,
  eitherClock,
  mapClocks,
  mergeCounts,
  type Starts,
  sameTimes,
  type Times,
  waysAlong,
  withoutEnd,
  withTrails,
  worstStarts,
} from './duty-times.ts';
import { isLed, ledInward, ledTimes, ledTrack, reachedBeside } from './led.ts';

export interface DutyReport {
  readonly sort: 'too-long' | 'unbounded' | 'short-rest' | 'too-often';
  readonly duty: Duty;
  readonly node: Node;
  /** The ways that lead there; worked out when asked for, since thousands of runs in one card would each tell thousands. */
  readonly ways: () => readonly Way[];
  /** The action that starts the run. */
  readonly move: Move;
  /** Ticks. */
  readonly worst: number;
  readonly limit: number;
  readonly count?: number;
}

export interface DutyResult {
  readonly reports: readonly DutyReport[];
  /** The card begins a run, the first of its path too: it relies on the item's having rested. */
  readonly reliesOnRest: boolean;
}

/** One duty of one item over the places of its slice. */
export function checkDuty(
  item: Item,
  duty: Duty,
  begunBy: MonitorName,
  slice: Slice,
  places: Places,
): InParts<DutyResult> {
  return new DutyCheck(item, duty, begunBy, slice, places).run();
}

class DutyCheck {
  private readonly window?: Extract<Duty, { type: 'times-in-window' }>;
  private readonly count?: Extract<Duty, { type: 'times-then-rest' }>;
  private readonly variable: number;
  private readonly asksStays: boolean;
  /** The ways by which each place got its longest run, and its shortest rest. */
  private readonly longestBy: (Way | undefined)[] = [];
  private readonly shortestBy: (Way | undefined)[] = [];

  constructor(
    private readonly item: Item,
    private readonly duty: Duty,
    private readonly begunBy: MonitorName,
    private readonly slice: Slice,
    private readonly places: Places,
  ) {
    if (duty.type === 'times-in-window') this.window = duty;
    if (duty.type === 'times-then-rest') this.count = duty;
    this.variable = slice.ofItem(item) as number;
    this.asksStays = slice.index.stays.some((term) => term.item === item);
  }

  *run(): InParts<DutyResult> {
    const settled = yield* this.settled();
    const reports: DutyReport[] = [];
    let reliesOnRest = false;
    for (const node of this.places.nodes) {
      if (node.id % placesInPart === 0) yield;
      const times = settled[node.id];
      if (!times) continue;
      reports.push(...this.reportRun(node, times));
      for (const way of this.places.ways[node.id] ?? []) {
        if (!this.begins(way)) continue;
        reports.push(...this.reportStart(way, times));
        reliesOnRest = true;
      }
    }
    return { reports, reliesOnRest };
  }

  private settled(): InParts<(Times | undefined)[]> {
    const { nodes, ways } = this.places;
    return settle<Times, Way>(ways, ({ to }) => to.id, {
      starts: new Map(nodes.flatMap((node) => (node.parent ? [] : [[node.id, this.atStart(node)]]))),
      along: (times, way) => this.along(times, way),
      join: (known, arriving) => sameOr(known, this.wider(known, arriving)),
      mostGrowths: (node) => mostGrowing + 4 * (ways[node]?.length ?? 0),
      widen: (known, joined) => sameOr(known, withoutEnd(known, joined)),
      onChange: (way, times, before) => {
        if (!before || !sameClock(before.running, times.running)) this.longestBy[way.to.id] = way;
        if (!before || !sameClock(before.rest, times.rest)) this.shortestBy[way.to.id] = way;
      },
    });
  }

  private atStart(node: Node): Times {
    return {
      hands: onlyHands(),
      ...(this.isIn(node) && { underWay: startClock('least', []) }),
      counts: this.count ? [{ runs: 0 }] : [],
      starts: this.window ? [{ clocks: [] }] : [],
    };
  }

  private isIn(node: Node): boolean {
    return node.state[this.variable] === 1 << this.duty.state;
  }

  private begins({ from, to, move }: Way): boolean {
    return 'item' in move.happening && !this.isIn(from) && this.isIn(to);
  }

  private along(times: Times, way: Way): Times {
    const passed = this.shown(this.passTime(times, way.move), way);
    if (this.begins(way)) return withTrails(this.begin(passed), times, way);
    return withTrails(this.isIn(way.from) && !this.isIn(way.to) ? this.end(passed) : passed, times, way);
  }

  /** A condition that asks how long the item has been so has shown it: it cannot have rested less, nor run longer. */
  private shown(times: Times, { to, move: { happening }, stayOf }: Way): Times {
    const stay =
      happening.type === 'assume'
        ? stayOf?.(ledTrack(times.hands), this.item, to.state[this.variable] as number)
        : undefined;
    if (!stay) return times;
    const lanes = ledTimes(times.hands);
    const least = (clock: Clock, since: number) => narrowedClock('least', clock, since, lanes);
    const starts = times.starts.map((row) => ({
      ...row,
      clocks: row.clocks.map((clock, index) => least(clock, (row.atChange?.[index] ?? 0) + stay.least)),
    }));
    if (this.isIn(to)) {
      const { running } = times;
      return { ...times, starts, running: running && narrowedClock('most', running, stay.most, lanes) };
    }
    return {
      ...times,
      starts,
      rest: times.rest && least(times.rest, stay.least),
      counts: times.counts.map((count) => (count.rest ? { ...count, rest: least(count.rest, stay.least) } : count)),
    };
  }

  /** Time passes for the clocks only where the path that is timed goes on. */
  private passTime(times: Times, move: Move): Times {
    const passed = isLed(times.hands, move.track ?? []) ? clocksAlong(times, move) : times;
    return { ...passed, hands: handsAlong(times.hands, move) };
  }

  private begin(times: Times): Times {
    return {
      hands: times.hands,
      running: startClock('most', ledTimes(times.hands)),
      counts: times.counts.map((one) => ({ runs: Math.min(this.runsAfterStart(one), this.mostCounted) })),
      starts: times.starts.map(({ clocks }) =>
        this.changed([startClock('least', ledTimes(times.hands)), ...clocks].slice(0, this.window?.times)),
      ),
    };
  }

  /** A row of starts where a run has just begun or ended. */
  private changed(clocks: readonly Clock[]): Starts {
    return this.asksStays ? { clocks, atChange: clocks.map(({ since }) => since) } : { clocks };
  }

  private get mostCounted(): number {
    return (this.count?.times ?? 0) + mostCountedOver;
  }

  private runsAfterStart({ runs, rest }: Count): number {
    const rested = !rest || rest.since >= ticks((this.count as NonNullable<typeof this.count>).rest);
    return rested ? 1 : runs + 1;
  }

  /** What was begun before the card counts as one run, and nothing has begun since. */
  private end({ underWay, ...times }: Times): Times {
    const rest = startClock('least', ledTimes(times.hands));
    const runs = underWay && this.count ? [{ runs: 1 }] : times.counts;
    const starts = underWay && this.window ? [{ clocks: [underWay] }] : times.starts;
    return {
      ...times,
      running: undefined,
      rest,
      counts: runs.map(({ runs }) => ({ runs, rest })),
      starts: starts.map(({ clocks }) => this.changed(clocks)),
    };
  }

  // -------------------------------------------------------------- merging

  /** Times that allow what either allows. */
  private wider(known: Times, arriving: Times): Times {
    return {
      hands: eitherHands(known.hands, arriving.hands),
      running: eitherClock('most', known.running, arriving.running),
      rest: eitherClock('least', known.rest, arriving.rest),
      underWay: eitherClock('least', known.underWay, arriving.underWay),
      counts: mergeCounts(known.counts, arriving.counts),
      starts: this.window
        ? worstStarts([...known.starts, ...arriving.starts], ticks(this.window.window))
        : known.starts,
    };
  }

  // -------------------------------------------------------------- reports

  private reportRun(node: Node, { running }: Times): DutyReport[] {
    if (!running || !this.isIn(node)) return [];
    const begun = this.slice.valueAt(node, this.begunBy) as number;
    const move = this.slice.flow.moves[begun - 1] as Move;
    const ends = (this.slice.flow.from[node.point] ?? []).some((index) =>
      ['finish', 'stopped'].includes((this.slice.flow.moves[index] as Move).happening.type),
    );
    const worst = ends ? Number.POSITIVE_INFINITY : running.since;
    const { duty } = this;
    if (duty.type !== 'longest' || worst <= ticks(duty.limit)) return [];
    const sort = worst === Number.POSITIVE_INFINITY ? 'unbounded' : 'too-long';
    return [{ sort, duty, node, ways: () => waysTo(node, this.longestBy), move, worst, limit: ticks(duty.limit) }];
  }

  private reportStart({ from: node, move }: Way, times: Times): DutyReport[] {
    const at = this.passTime(times, move);
    const { duty } = this;
    switch (duty.type) {
      case 'longest': {
        if (!duty.rest || !at.rest || at.rest.since >= ticks(duty.rest)) return [];
        const ways = () => waysTo(node, this.shortestBy);
        return [{ sort: 'short-rest', duty, node, ways, move, worst: at.rest.since, limit: ticks(duty.rest) }];
      }
      case 'times-then-rest': {
        const over = at.counts.flatMap((count, index) => {
          const runs = this.runsAfterStart(count);
          return runs > duty.times ? [{ runs, rest: count.rest?.since ?? 0, trail: times.counts[index]?.trail }] : [];
        });
        const [first] = over.sort((a, b) => a.runs - b.runs || a.rest - b.rest);
        if (!first) return [];
        const worst = Math.min(...over.map(({ rest }) => rest));
        const ways = () => waysAlong(first.trail);
        const count = first.runs <= this.mostCounted ? { count: first.runs } : {};
        return [{ sort: 'too-often', duty, node, ways, move, worst, limit: ticks(duty.rest), ...count }];
      }
      case 'times-in-window': {
        const ages = at.starts.map(({ clocks }) => clocks[duty.times - 1]?.since ?? Number.POSITIVE_INFINITY);
        const worst = Math.min(...ages);
        if (worst >= ticks(duty.window)) return [];
        const ways = () => waysAlong(times.starts[ages.indexOf(worst)]?.trail);
        return [{ sort: 'too-often', duty, node, ways, move, worst, limit: ticks(duty.window), count: duty.times + 1 }];
      }
    }
  }
}

function sameOr(known: Times, other: Times): Times {
  return sameTimes(known, other) ? known : other;
}

function clocksAlong(times: Times, { happening, time, track = [] }: Move): Times {
  const passed = clocksElapsed(times, time);
  if (happening.type === 'fork') return mapClocks(passed, forkClock, forkClock);
  return happening.type === 'join' ? joinClocks(passed, track, happening.others) : passed;
}

function handsAlong(hands: Hands, { happening, time, track = [] }: Move): Hands {
  if (happening.type === 'fork') return forked(hands, track, happening.lanes, happening.led);
  if (happening.type === 'join') return aroundAll(elapsed(joined(hands, track, happening.others), track, time));
  return track.length === 0 ? hands : elapsed(hands, track, time);
}

function clocksElapsed(times: Times, time: Ticks): Times {
  if (time.most === 0) return times;
  return mapClocks(
    times,
    (clock) => elapse(clock, time.least),
    (clock) => elapse(clock, time.most),
  );
}

/** The lanes come together from the innermost one outward; outermost there are others that are not followed. */
function joinClocks(times: Times, track: Track, others: Ticks): Times {
  return ledInward(times.hands, track).reduceRight<Times>((joined, lanes, depth) => {
    const beside = reachedBeside(lanes);
    const latest = (side: 'least' | 'most') => Math.max(beside[side], depth === 0 ? others[side] : 0);
    return mapClocks(
      joined,
      (clock) => joinClock(clock, latest('least')),
      (clock) => joinClock(clock, latest('most')),
    );
  }, times);
}
