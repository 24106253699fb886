/** What each action of a step does to a run. */
import type {
  Action,
  Bring,
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
import { waysOf } from './branch.ts';
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
    const noted = withSetAt(world, change.item.id, `${change.state}@${place}`);
    return this.events
      .change(noted, change.item, change.state, now, place)
      .map((after) => ({ type: 'on', frame: next, now, world: after }));
  }

  private check(
    action: Check | Read,
    asked: { readonly condition?: Condition; readonly question?: Words },
    done: Frame,
    world: World,
    now: number,
  ): readonly Next[] {
    return this.ask(action, asked, action.otherwise, done, world, now);
  }

  private bring(action: Bring, done: Frame, world: World, now: number): readonly Next[] {
    const stretch = upTo(action.within);
    return this.each(stretch, now, (then) =>
      this.events
        .bring(world, action.gauge, stretch, then, placeKey(action.place))
        .flatMap((after) => this.ask(action, { condition: action.asked }, action.otherwise, done, after, then)),
    );
  }

  private wait(action: Wait, done: Frame, world: World, now: number): readonly Next[] {
    const { until } = action;
    const stretch = until ? upTo(until.within) : stretchOf(action.length);
    return this.each(stretch, now, (then) =>
      this.events
        .pass(world, stretch, then, placeKey(action.place), true)
        .flatMap((after) =>
          until
            ? this.ask(action, until, until.otherwise, done, after, then)
            : [{ type: 'on' as const, frame: done, now: then, world: after }],
        ),
    );
  }

  /** Goes on where the question passes, and leaves where it fails. */
  private ask(
    action: Action,
    asked: { readonly condition?: Condition; readonly question?: Words },
    otherwise: Flow | undefined,
    done: Frame,
    world: World,
    now: number,
  ): readonly Next[] {
    const place = placeKey(action.place);
    const ways = waysOf(this.setting, asked, world);
    const { passes, fails } = ways;
    this.sightings.went(place, passes.length > 0, fails.length > 0);
    return [
      ...passes.map((way): Next => ({ type: 'on', frame: done, now, world: way })),
      ...fails.map((way): Next => ({ type: 'leave', flow: otherwise, place, frame: done, now, world: way })),
    ];
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
    const noted = withSetAt(world, id, `${run.state}@${place}`);
    return this.events
      .change(noted, run.item, run.state, now, place)
      .map((after) => ({ type: 'on', frame, now, world: after }));
  }

  /** The time of a run passes, and it ends: as it should, or because a watch or its `until` failed. */
  end(frame: RunFrame, world: World, now: number): readonly Next[] {
    return [
      ...this.endAsMeant(frame, world, now),
      ...frame.run.watches.flatMap((watch) => this.endByWatch(frame, watch, world, now)),
    ];
  }

  private endAsMeant(frame: RunFrame, world: World, now: number): readonly Next[] {
    const { run, under } = frame;
    const watchesMayHold = run.watches.every(
      (watch) => waysOf(this.setting, { condition: watch.asked }, world).passes.length > 0,
    );
    if (!watchesMayHold) return [];
    const stretch = runStretch(run);
    const older = this.events.older(world, stretch);
    const ways = run.until ? waysOf(this.setting, run.until, older) : { passes: [older], fails: [] };
    const place = placeKey(run.place);
    if (run.until) this.sightings.went(place, ways.passes.length > 0, ways.fails.length > 0);
    return this.each(stretch, now, (then) => [
      ...ways.passes
        .flatMap((way) => this.putBack(frame, way, then))
        .map((after): Next => ({ type: 'on', frame: under, now: then, world: after })),
      ...ways.fails
        .flatMap((way) => this.putBack(frame, way, then))
        .map(
          (after): Next => ({
            type: 'leave',
            flow: run.until?.otherwise,
            place,
            frame: under,
            now: then,
            world: after,
          }),
        ),
    ]);
  }

  private endByWatch(frame: RunFrame, watch: Run['watches'][number], world: World, now: number): readonly Next[] {
    const place = placeKey(watch.place);
    const ways = waysOf(this.setting, { condition: watch.asked }, world);
    this.sightings.went(place, ways.passes.length > 0, ways.fails.length > 0);
    if (ways.fails.length === 0) return [];
    const run = runStretch(frame.run);
    const within = watch.within?.valueOf() ?? UNKNOWN;
    const stretch =
      watch.form === 'stays'
        ? { least: 0, most: run.most }
        : { least: Math.min(within, run.least), most: Math.min(within, run.most) };
    return this.each(stretch, now, (then) =>
      this.putBack(frame, this.events.older(world, stretch), then).map(
        (after): Next => ({ type: 'leave', flow: watch.otherwise, place, frame: frame.under, now: then, world: after }),
      ),
    );
  }

  private putBack(frame: RunFrame, world: World, now: number): readonly World[] {
    const { run, state, setAt } = frame;

    return this.events.change(withSetAt(world, run.item.id, setAt), run.item, state, now, placeKey(run.place));
  }

  private each(stretch: Stretch, now: number, then: (now: number) => readonly Next[]): readonly Next[] {
    return lengthsOf(this.setting, stretch).flatMap((length) => then(now + length));
  }
}

function runStretch(run: Run): Stretch {
  return run.until ? upTo(run.until.within) : run.length ? stretchOf(run.length) : NO_TIME;
}

function withSetAt(world: World, item: number, mark: string): World {
  return { ...world, setAt: world.setAt.map((old, id) => (id === item ? mark : old)) };
}
