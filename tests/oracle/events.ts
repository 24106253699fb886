/** What happens in a world: an item changes, time passes, a gauge is brought somewhere. Each gives every world that may be there afterwards. */
import type { Gauge, Item } from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { clocksAfterChange, grownOlder, type Stretch } from './clocks.ts';
import { goesByItself, itemsIn } from './conditions.ts';
import type { Known } from './readings.ts';
import type { Sightings } from './verdicts.ts';
import { ask, askBefore, type Watcher } from './watchers.ts';
import type { Setting, World } from './world.ts';

/** When and where something happens. */
export interface Occasion {
  readonly now: number;
  readonly place: string;
  /** It is a set, a run or a wait. */
  readonly moves: boolean;
  readonly touched?: Item;
  /** The ways of a question that is asked at its end, of which some are followed. */
  readonly ways?: (world: World) => readonly World[];
}

export class Events {
  /** The items that go by themselves, and where each world was found to go. */
  private readonly drifting: readonly Item[];
  /** Those of them that go only while a condition holds, and the items on which that hangs. */
  private readonly conditional: readonly Item[];
  private readonly reasons: ReadonlySet<Item>;
  private readonly driftsFrom = new Map<string, readonly (readonly number[])[]>();

  constructor(
    private readonly setting: Setting,
    private readonly watchers: readonly Watcher[],
    private readonly sightings: Sightings,
  ) {
    this.drifting = [...setting.followed].filter(goesByItself);
    this.conditional = this.drifting.filter(({ may }) => may.some(({ when }) => when));
    this.reasons = itemsIn(this.conditional.flatMap(({ may }) => may.map(({ when }) => when)));
  }

  /** An item is put into a state by the action at `place`. `known` is what is known of the readings afterwards. */
  change(
    world: World,
    item: Item,
    state: number,
    now: number,
    place: string,
    known: Known = this.setting.readings.afterAction(world.known, item),
  ): readonly World[] {
    const follows = this.setting.followed.has(item);
    const states = world.states.map((old, id) => (follows && id === item.id ? state : old));
    const changed: World = { ...world, states };
    if (follows && world.states[item.id] !== state)
      askBefore(this.setting, world, changed, item, world.known, place, this.sightings);
    const clocked = clocksAfterChange(this.setting, changed, world.states, now, place, this.sightings);
    return this.settle(clocked, known, { now, place, moves: true, touched: item });
  }

  /** Time alone passes, until something happens at its end: who asks how long something has been so is asked before that. */
  older(world: World, stretch: Stretch, place: string): World {
    if (stretch.most === 0) return world;
    const done = grownOlder(world, stretch, this.setting);
    return ask(this.watchers, done, world.known, { place, moves: false, done, isTimeAlone: true }, this.sightings);
  }

  /** The world without what an action on the item ends knowledge of. */
  forgetful(world: World, item: Item): World {
    return { ...world, known: this.setting.readings.afterAction(world.known, item) };
  }

  /** Time passes, or at least something is done: readings may move and things go by themselves. */
  pass(world: World, stretch: Stretch, occasion: Occasion): readonly World[] {
    const known = this.setting.readings.afterAction(world.known, undefined);
    return this.settle(grownOlder(world, stretch, this.setting), known, occasion);
  }

  /** A gauge is brought somewhere: it and the free ones may show anything. */
  bring(world: World, gauge: Gauge, stretch: Stretch, occasion: Occasion): readonly World[] {
    const known = this.setting.readings.forget(this.setting.readings.afterAction(world.known, undefined), gauge);
    return this.settle(grownOlder(world, stretch, this.setting), known, occasion);
  }

  private settle(world: World, known: Known, occasion: Occasion): readonly World[] {
    const { now, place, ways = (only: World) => [only] } = occasion;
    return this.drifted({ ...world, known })
      .flatMap(ways)
      .map((drifted) => {
        const clocked = clocksAfterChange(this.setting, drifted, world.states, now, place, this.sightings);
        return ask(this.watchers, clocked, world.known, { ...occasion, done: world }, this.sightings);
      });
  }

  /** Every world that this one may turn into by itself. */
  private drifted(world: World): readonly World[] {
    if (this.drifting.length === 0) return [world];
    const key = `${world.states} ${world.known}`;
    const found = getOrInsert(this.driftsFrom, key, () => this.allDrifts(world));
    const before = this.setting.learning(world, this.reasons);
    return found.map((states) => this.setting.learning({ ...before, states }, this.conditional));
  }

  private allDrifts(world: World): readonly (readonly number[])[] {
    const found = new Map([[world.states.join(), world.states]]);
    for (const from of found.values()) {
      for (const states of this.driftsOnce({ ...world, states: from })) {
        if (!found.has(states.join())) found.set(states.join(), states);
      }
    }
    return [...found.values()];
  }

  private driftsOnce(world: World): readonly (readonly number[])[] {
    return this.drifting.flatMap((item) => {
      const seen = item.kind.seen ? item.kind.states.map((_, state) => state) : [];
      const may = item.may
        .filter(({ when }) => when === undefined || this.setting.possible(when, world))
        .map(({ state }) => state);
      return [...seen, ...may].map((state) => world.states.map((old, id) => (id === item.id ? state : old)));
    });
  }
}
