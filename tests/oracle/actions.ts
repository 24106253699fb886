/** What each action of a step does to a run. */
import type {
  Bring,
  Change,
  Check,
  Condition,
  Flow,
  Read,
  Run,
  Seconds,
  Set as SetAction,
  TimeSpan,
  Wait,
  Words,
} from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import { type Ways, waysOf } from './branch.ts';
import { ANY_TIME, lengthsOf, NO_TIME, type Stretch } from './clocks.ts';
import type { Events } from './events.ts';
import type { Frame } from './frames.ts';
import { placeKey, type Sightings } from './verdicts.ts';
import { type Setting, UNKNOWN, type World } from './world.ts';

/** A run that goes on from here; or one that leaves its way by a flow, or for want of one stops, at `place`. */
export type Next =
  | { readonly type: 'on'; readonly frame: Frame | undefined; readonly now: number; readonly world: World }
  | {
      readonly type: 'leave';
      readonly flow: Flow | undefined;
      readonly place: string;
      readonly frame: Frame | undefined;
      readonly now: number;
      readonly world: World;
    };

type ActionsFrame = Extract<Frame, { type: 'actions' }>;
/** A condition, or a quoted question. */
interface Asked {
  readonly condition?: Condition;
  readonly question?: Words;
}

type Way = keyof Ways;
type RunFrame = Extract<Frame, { type: 'run' }>;

export function stretchOf(span: TimeSpan | undefined): Stretch {
  return span ? { least: span.least.valueOf(), most: span.most?.valueOf() ?? UNKNOWN } : ANY_TIME;
}

function upTo(within: Seconds | undefined): Stretch {
  return { least: 0, most: within?.valueOf() ?? UNKNOWN };
}

export class Actions {
  constructor(
    private readonly setting: Setting,
    private readonly events: Events,
    private readonly sightings: Sightings,
  ) {}

  /** The action that this frame stands at. */
  act(frame: ActionsFrame, world: World, now: number): readonly Next[] {
    const action = frame.step.actions[frame.index];
    const done: ActionsFrame = { ...frame, index: frame.index + 1, change: 0 };
    if (!action) return [{ type: 'on', frame: frame.under, now, world }];
    switch (action.type) {
      case 'set':
      case 'ensure':
        return this.set(action, frame, done, world, now);
      case 'check':
        return this.check(action, action, done, world, now);
      case 'read':
        return action.asked
          ? this.check(action, { condition: action.asked }, done, world, now)
          : [{ type: 'on', frame: done, now, world }];
      case 'bring':
        return this.bring(action, done, world, now);
      case 'run':
        return this.begin(action, done, world, now);
      case 'wait':
        return this.wait(action, done, world, now);
      default:
        return [{ type: 'on', frame: done, now, world }];
    }
  }

  private set(action: SetAction, frame: ActionsFrame, done: Frame, world: World, now: number): readonly Next[] {
    const change = action.changes[frame.change];
    if (!change) return [{ type: 'on', frame: done, now, world }];
    const next: Frame = { ...frame, change: frame.change + 1 };
    const already = world.states[change.item.id] === change.state;
    (already ? this.sightings.idle : this.sightings.changing).add(placeKey(change.place));
    if (action.type === 'ensure' && already) return [{ type: 'on', frame: next, now, world }];
    const place = placeKey(action.place);
    const noted = already ? world : this.withSetAt(world, change.item.id, `${change.state}@${place}`);
    return this.events
      .change(this.withLastSet(noted, change), change.item, change.state, now, place)
      .map((after) => ({ type: 'on', frame: next, now, world: after }));
  }

  private check(action: Check | Read, asked: Asked, done: Frame, world: World, now: number): readonly Next[] {
    const place = placeKey(action.place);
    const next = (wanted: Way) =>
      this.wayOf(place, asked, wanted, now)(world).map(this.next(wanted, action, done, now));
    return [...next('passes'), ...next('fails')];
  }

  private bring(action: Bring, done: Frame, world: World, now: number): readonly Next[] {
    const place = placeKey(action.place);
    return this.within(action.within, now, (wanted, stretch, then) => {
      const ways = this.wayOf(place, { condition: action.asked }, wanted, then);
      return this.events
        .bring(world, action.gauge, stretch, { now: then, place, moves: false, ways })
        .map(this.next(wanted, action, done, then));
    });
  }

  private wait(action: Wait, done: Frame, world: World, now: number): readonly Next[] {
    const { until, length } = action;
    const place = placeKey(action.place);
    if (!until) {
      const stretch = stretchOf(length);
      return this.each(stretch, now, (then) =>
        this.events
          .pass(world, stretch, { now: then, place, moves: true })
          .map(this.next('passes', action, done, then)),
      );
    }
    return this.within(until.within, now, (wanted, stretch, then) => {
      const ways = this.wayOf(place, until, wanted, then);
      return this.events
        .pass(world, stretch, { now: then, place, moves: true, ways })
        .map(this.next(wanted, { ...until, place: action.place }, done, then));
    });
  }

  /** What is awaited may come at any time; whoever gives up has waited as long as was said. */
  private within(
    within: Seconds | undefined,
    now: number,
    tried: (wanted: Way, stretch: Stretch, then: number) => readonly Next[],
  ): readonly Next[] {
    const most = within?.valueOf() ?? UNKNOWN;
    const inTime = { least: 0, most };
    const inVain = { least: within ? most : 0, most };
    return [
      ...this.each(inTime, now, (then) => tried('passes', inTime, then)),
      ...this.each(inVain, now, (then) => tried('fails', inVain, then)),
    ];
  }

  /** The worlds in which the question at `place` goes the wanted way. */
  private wayOf(place: string, asked: Asked, wanted: Way, now: number): (world: World) => readonly World[] {
    return (world) => {
      const worlds = waysOf(this.setting, asked, world, now)[wanted];
      if (worlds.length > 0) this.sightings[wanted === 'passes' ? 'passed' : 'failed'].add(place);
      return worlds;
    };
  }

  /** Goes on where the question passed, and leaves where it failed. */
  private next(
    way: Way,
    action: { readonly otherwise?: Flow; readonly place: Place },
    done: Frame | undefined,
    now: number,
  ): (world: World) => Next {
    if (way === 'passes') return (world) => ({ type: 'on', frame: done, now, world });
    return (world) => ({
      type: 'leave',
      flow: action.otherwise,
      place: placeKey(action.place),
      frame: done,
      now,
      world,
    });
  }

  private begin(run: Run, done: Frame, world: World, now: number): readonly Next[] {
    const place = placeKey(run.place);
    const { id } = run.item;
    const frame: Frame = {
      type: 'run',
      run,
      state: world.states[id] as number,
      setAt: world.setAt[id] as string,
      under: done,
    };
    const noted = world.states[id] === run.state ? world : this.withSetAt(world, id, `${run.state}@${place}`);
    return this.events
      .change(noted, run.item, run.state, now, place)
      .map((after) => ({ type: 'on', frame, now, world: after }));
  }

  /** The time of a run passes, and it ends: as it should, or because a watch or its `until` failed. */
  end(frame: RunFrame, world: World, now: number): readonly Next[] {
    if (frame.answer) return this.endByAnswer(frame, frame.answer, world, now);
    return [
      ...this.endAsMeant(frame, world, now),
      ...frame.run.watches.flatMap((watch) => this.endByWatch(frame, watch, world, now)),
    ];
  }

  private endAsMeant(frame: RunFrame, world: World, now: number): readonly Next[] {
    const { until, length, watches } = frame.run;
    const watchesMayHold = watches.every(
      (watch) => waysOf(this.setting, { condition: watch.asked }, world, now).passes.length > 0,
    );
    if (!watchesMayHold) return [];
    if (until) {
      return this.within(until.within, now, (answer, stretch, then) =>
        this.wayOf(
          placeKey(frame.run.place),
          until,
          answer,
          then,
        )(this.events.forgetful(this.events.older(world, stretch, placeKey(frame.run.place)), frame.run.item)).map(
          this.next('passes', frame.run, { ...frame, answer }, then),
        ),
      );
    }
    const stretch = length ? stretchOf(length) : NO_TIME;
    return this.each(stretch, now, (then) =>
      this.putBack(frame, this.events.older(world, stretch, placeKey(frame.run.place)), then).map(
        this.next('passes', frame.run, frame.under, then),
      ),
    );
  }

  /** By then the path knows how its `until` went. */
  private endByAnswer(frame: RunFrame, answer: Way, world: World, now: number): readonly Next[] {
    const { run, under } = frame;
    const known = this.setting.readings.afterAction(world.known, run.item, true);
    return this.putBack(frame, world, now, known).map(
      this.next(answer, { ...run.until, place: run.place }, under, now),
    );
  }

  private endByWatch(frame: RunFrame, watch: Run['watches'][number], world: World, now: number): readonly Next[] {
    const place = placeKey(watch.place);
    const ways = waysOf(this.setting, { condition: watch.asked }, world, now);
    this.sightings.went(place, ways.passes.length > 0, ways.fails.length > 0);
    if (ways.fails.length === 0) return [];
    const run = runStretch(frame.run);
    const within = watch.within?.valueOf() ?? UNKNOWN;
    const stretch =
      watch.form === 'stays'
        ? { least: 0, most: run.most }
        : { least: Math.min(within, run.least), most: Math.min(within, run.most) };
    return this.each(stretch, now, (then) =>
      this.putBack(frame, this.events.older(world, stretch, place), then).map(
        this.next('fails', watch, frame.under, then),
      ),
    );
  }

  /** `known` is what is known afterwards, where the end of the run has shown something. */
  private putBack(frame: RunFrame, world: World, now: number, known?: World['known']): readonly World[] {
    const { run, state, setAt } = frame;
    const noted = this.withSetAt(world, run.item.id, setAt);
    return this.events.change(noted, run.item, state, now, placeKey(run.place), known);
  }

  /** Who set an item matters only to what is left changed. */
  private withSetAt(world: World, item: number, mark: string): World {
    if (this.setting.question) return world;
    return { ...world, setAt: world.setAt.map((old, id) => (id === item ? mark : old)) };
  }

  private withLastSet(world: World, { item, place }: Change): World {
    const { lastSet } = world;
    if (!lastSet) return world;
    const set = placeKey(place);
    this.sightings.noteReach(item.name, lastSet[item.id] as string, set);
    return { ...world, lastSet: lastSet.map((last, id) => (id === item.id ? set : last)) };
  }

  private each(stretch: Stretch, now: number, then: (now: number) => readonly Next[]): readonly Next[] {
    return lengthsOf(this.setting, stretch).flatMap((length) => then(now + length));
  }
}

function runStretch(run: Run): Stretch {
  return run.until ? upTo(run.until.within) : run.length ? stretchOf(run.length) : NO_TIME;
}
