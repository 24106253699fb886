/** What happens in a world: an item changes, time passes, a gauge is brought somewhere. Each gives every world that may be there afterwards. */
import type { Gauge, Item } from '../../shared/card.ts';
import { clocksAfterChange, grownOlder, type Stretch } from './clocks.ts';
import type { Known } from './readings.ts';
import type { Sightings } from './verdicts.ts';
import { ask, askBefore, type Watcher } from './watchers.ts';
import type { Setting, World } from './world.ts';

export class Events {
  constructor(
    private readonly setting: Setting,
    private readonly watchers: readonly Watcher[],
    private readonly sightings: Sightings,
  ) {}

  /** An item is put into a state by the action at `place`. */
  change(world: World, item: Item, state: number, now: number, place: string): readonly World[] {
    const states = world.states.map((old, id) => (id === item.id ? state : old));
    const changed: World = { ...world, states };
    if (world.states[item.id] !== state)
      askBefore(this.setting, world, changed, item, world.known, place, this.sightings);
    const clocked = clocksAfterChange(this.setting, changed, world.states, now, place, this.sightings);
    return this.settle(
      clocked,
      world.known,
      this.setting.readings.afterAction(world.known, item),
      now,
      place,
      true,
      item,
    );
  }

  /** Time alone: what happens in it is said by the event at its end. */
  older(world: World, stretch: Stretch): World {
    return grownOlder(world, stretch, this.setting);
  }

  /** Time passes, or at least something is done: readings may move and things go by themselves. `moves` is true for a wait. */
  pass(world: World, stretch: Stretch, now: number, place: string, moves: boolean): readonly World[] {
    const older = grownOlder(world, stretch, this.setting);
    return this.settle(
      older,
      world.known,
      this.setting.readings.afterAction(world.known, undefined),
      now,
      place,
      moves,
    );
  }

  /** A gauge is brought somewhere: it and the free ones may show anything. */
  bring(world: World, gauge: Gauge, stretch: Stretch, now: number, place: string): readonly World[] {
    const older = grownOlder(world, stretch, this.setting);
    const known = this.setting.readings.forget(this.setting.readings.afterAction(world.known, undefined), gauge);
    return this.settle(older, world.known, known, now, place, false);
  }

  private settle(
    world: World,
    knownBefore: Known,
    known: Known,
    now: number,
    place: string,
    moves: boolean,
    touched?: Item,
  ): readonly World[] {
    return this.drifted({ ...world, known }).map((drifted) => {
      const clocked = clocksAfterChange(this.setting, drifted, world.states, now, place, this.sightings);
      return ask(this.watchers, clocked, knownBefore, place, { moves, touched }, this.sightings);
    });
  }

  /** Every world that this one may turn into by itself. */
  private drifted(world: World): readonly World[] {
    const found = new Map([[world.states.join(), world]]);
    for (const from of found.values()) {
      for (const states of this.driftsOnce(from))
        if (!found.has(states.join())) found.set(states.join(), { ...from, states });
    }
    return [...found.values()];
  }

  private driftsOnce(world: World): readonly (readonly number[])[] {
    return this.setting.equipment.items.flatMap((item) => {
      const seen = item.kind.seen ? item.kind.states.map((_, state) => state) : [];
      const may = item.may
        .filter(({ when }) => when === undefined || this.setting.possible(when, world))
        .map(({ state }) => state);
      return [...seen, ...may].map((state) => world.states.map((old, id) => (id === item.id ? state : old)));
    });
  }
}
