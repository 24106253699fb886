/** One concrete world: which state each item is really in, and what this run remembers of how it came there. Plain data, never changed. */
import type { Card, Condition, Duty, Equipment, Hazard, Item, Rule, Stage, Statement } from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import {
  allConditions,
  alternatives,
  bodiesOf,
  itemsIn,
  type LastingTerm,
  type Literal,
  lastingTerms,
  sure,
  type Term,
  truth,
} from './conditions.ts';
import { inside, type Known, Readings, type Value } from './readings.ts';
import { type Fed, fedNodes } from './supply.ts';

/** Stands for a time that nobody knows: longer than any limit. In seconds, as all times here. */
export const UNKNOWN = 1e9;

/** From some moment to one that nobody knows is a time that nobody knows. */
export function isUnknown(seconds: number): boolean {
  return seconds > UNKNOWN / 2;
}

/** How long an item has been in its present state: between these. */
export interface Age {
  readonly low: number;
  readonly high: number;
  /** Beside other lanes: it is no less, as another has seen it so old. */
  readonly floor?: number;
  /** It is the age of what the last move did. */
  readonly isNew?: true;
  /** What the last move has found out about it. */
  readonly told?: { readonly low: number; readonly high: number };
}

/** The runs of one item in one duty state on this path, the newest last. */
export interface DutyRecord {
  readonly running: boolean;
  /** When the present run, or the present rest, began. */
  readonly since: number;
  /** The key of the place where the present or last run began; empty where that was before the card. */
  readonly begunAt: string;
  /** Each run with the rest before it. */
  readonly runs: readonly { readonly rest: number; readonly length: number }[];
}

/** What one watcher (a rule, a hazard, a need) found when it was last asked. */
export interface Watched {
  readonly triggered: boolean;
  readonly broken: boolean;
  /** It was broken because of readings alone: once they are taken as met it is broken no longer. */
  readonly byReadings: boolean;
  /** Its trigger has held ever since the start, and no set, run or wait has come yet. */
  readonly beginsYet: boolean;
  /** It has been broken ever since the start, and no set, run or wait has come yet that could be blamed. */
  readonly sinceStart: boolean;
  /** It came about by itself, on a path that cannot tell it from what was so since the start. */
  readonly isPutOff?: boolean;
}

export interface World {
  readonly states: readonly number[];
  readonly known: Known;
  readonly watched: readonly Watched[];
  /** Ids of the hazards of which an admonition has been read. */
  readonly shown: readonly number[];
  /** Where hazards began unannounced: `id@place`. */
  readonly unannounced: readonly string[];
  /** Where each item was last set and to what, as `state@place`; empty where it was not. */
  readonly setAt: readonly string[];
  /** The last `set` of each item, whether or not it changed anything; only where that is followed. */
  readonly lastSet?: readonly string[];
  readonly duties: readonly DutyRecord[];
  /** By item; only where the card asks how long. */
  readonly ages: readonly (Age | undefined)[];
  /** Since each fork around the lane that moves; only there. */
  readonly clocks: readonly Age[];
  /** The first `set`, `run` or `wait` has been done. */
  readonly moved: boolean;
  /** The key of the stop or failing check that this run is stopping at. */
  readonly stopping?: string;
  /** How the items stood on which the last move hung; only where a path may know it. */
  readonly learnt?: string;
}

/** One item and the state of it that has duties. */
export interface DutyState {
  readonly item: Item;
  readonly state: number;
  readonly duties: readonly Duty[];
}

/** What may be followed by itself; `knows` says how much a path knows of its worlds, for a question that is followed on paths. */
export type Question = (
  | { readonly type: 'rule'; readonly rule: Rule }
  | { readonly type: 'hazard'; readonly hazard: Hazard }
  | { readonly type: 'needs' | 'duties'; readonly item: Item }
) & { readonly knows?: 'what it hung on' };

/** What is fixed for one card: its equipment, what is asked anywhere, and the questions about a world. */
export class Setting {
  readonly card: Card;
  readonly equipment: Equipment;
  readonly readings: Readings;
  readonly dutyStates: readonly DutyState[];
  /** Items of which the card asks how long they have been in a state. */
  readonly timedItems: ReadonlySet<Item>;
  /** Likewise anywhere in its equipment, for whatever question: a path may know how they stand. */
  readonly toldApart: ReadonlySet<Item>;
  /** The items whose states are followed; the others stay as they are. */
  readonly followed: ReadonlySet<Item>;
  /** Times beyond this make no difference. */
  readonly longestAsked: number;
  private readonly fedBy = new Map<string, Fed>();
  private readonly alternativesOf = new WeakMap<Condition, readonly (readonly Literal[])[]>();

  /** Follows one question and what the way of the card hangs on; or, without one, all but the duties. */
  constructor(
    card: Card,
    readonly question?: Question,
    readonly followsSets = false,
  ) {
    this.card = question ? { ...card, equipment: equipmentFor(card.equipment, question) } : card;
    this.equipment = this.card.equipment;
    const dutied = question?.type === 'duties' ? question.item : undefined;
    const conditions = allConditions(this.card);
    this.readings = new Readings(this.equipment, conditions);
    this.dutyStates = dutied ? dutyStatesOf(dutied) : [];
    this.followed = new Set(
      question ? [...itemsOf(question), ...itemsIn(conditions), ...card.body.flatMap(ensuredIn)] : this.equipment.items,
    );
    const lasting = conditions.flatMap(lastingTerms);
    this.timedItems = new Set(lasting.map((term) => term.item));
    this.toldApart = new Set(
      allConditions(card)
        .flatMap(lastingTerms)
        .map((term) => term.item),
    );
    this.longestAsked =
      1 +
      Math.max(0, ...this.dutyStates.flatMap((state) => state.duties.flatMap(timesOf)), ...lasting.map(lastingSeconds));
  }

  get knowsWhatItHungOn(): boolean {
    return this.question?.knows !== undefined;
  }

  /** The world from which a path goes on that may know how these items are. */
  learning(world: World, items: Iterable<Item>): World {
    if (!this.knowsWhatItHungOn) return world;
    const stood = [...items].map(({ id }) => world.states[id]).join();
    return { ...world, learnt: `${world.learnt ?? ''};${stood}` };
  }

  literalsOf(condition: Condition, wanted: boolean): readonly (readonly Literal[])[] {
    if (!wanted) return alternatives(condition, false);
    return getOrInsert(this.alternativesOf, condition, () => alternatives(condition));
  }

  /** Is the condition sure to hold here, as far as this run knows? `readings` says how to take terms about gauges. */
  sure(condition: Condition, world: World, known: Known, readings: 'asked' | 'taken as met' = 'asked'): boolean {
    return this.literalsOf(condition, true).some((literals) =>
      literals.every((literal) => this.literalSure(literal, world, known, readings)),
    );
  }

  literalSure({ term, wanted }: Literal, world: World, known: Known, readings: 'asked' | 'taken as met'): boolean {
    if (term.type === 'open') return true;
    if (term.type === 'state') return this.stateSure(term, wanted, world);
    if (term.type === 'reaches') return this.fed(world.states)[term.supply.id]?.[term.node] === wanted;
    if (readings === 'taken as met') return true;
    return this.readings.possible(known, term).values.every(({ value }) => readingHolds(term, value) === wanted);
  }

  private stateSure(term: LastingTerm, wanted: boolean, world: World): boolean {
    const inIt = world.states[term.item.id] === term.state;
    if (!term.lasting) return inIt === wanted;
    if (!inIt) return !wanted;
    return lastingTruth(term, world) === wanted;
  }

  /** Truth of a condition for one combination of readings, and one answer to each question of time that is not settled. */
  holds(condition: Condition, world: World, value: Value, answers: ReadonlyMap<LastingTerm, boolean>): boolean {
    return truth(condition, (term: Term) => {
      if (term.type === 'open') return true;
      if (term.type === 'reaches') return this.fed(world.states)[term.supply.id]?.[term.node] === true;
      if (term.type !== 'state') return readingHolds(term, value);
      if (world.states[term.item.id] !== term.state) return false;
      return term.lasting === undefined || (lastingTruth(term, world) ?? answers.get(term) === true);
    });
  }

  /** May the condition hold here, for all that this run knows? */
  possible(condition: Condition, world: World): boolean {
    const denied = this.literalsOf(condition, false);
    return !denied.some((literals) =>
      literals.every((literal) => this.literalSure(literal, world, world.known, 'asked')),
    );
  }

  /** Is each node of each supply fed? */
  fed(states: readonly number[]): Fed {
    return getOrInsert(this.fedBy, states.join(), () => this.feed(states));
  }

  private feed(states: readonly number[]): Fed {
    return fedNodes(this.equipment.supplies, (condition, fed) =>
      sure(condition, ({ term, wanted }) => {
        if (term.type === 'reaches') return (fed[term.supply.id]?.[term.node] === true) === wanted;
        return term.type === 'state' && (states[term.item.id] === term.state) === wanted;
      }),
    );
  }
}

/** True or false where the known times settle it, undefined where they do not. The item is in the state. */
function lastingTruth(term: LastingTerm, world: World): boolean | undefined {
  const { low, floor = 0, ...age } = world.ages[term.item.id] as Age;
  const high = Math.max(0, age.high);
  // An order of the lanes that their clocks do not allow says nothing.
  const least = floor <= high ? Math.max(low, floor) : Math.max(low, 0);
  const asked = lastingSeconds(term);
  if (term.lasting?.form === 'at least') return least >= asked ? true : high < asked ? false : undefined;
  return high <= asked ? true : least > asked ? false : undefined;
}

export function lastingSeconds(term: LastingTerm): number {
  return term.lasting?.duration.valueOf() ?? 0;
}

type ReadingTerm = Extract<Term, { type: 'bound' | 'limit' }>;
const heldBefore = new WeakMap<ReadingTerm, WeakMap<Value, boolean>>();

/** Exact numbers are slow, and the same few are compared over and over. */
function readingHolds(term: ReadingTerm, value: Value): boolean {
  const answers = getOrInsert(heldBefore, term, () => new WeakMap());
  return getOrInsert(answers, value, () => compareReading(term, value));
}

function compareReading(term: ReadingTerm, value: Value): boolean {
  const shown = value(term.gauge);
  if (term.type === 'bound') return inside(term.bound.interval, shown);
  const { bound, by } = term.limit;
  if (bound) return inside(bound.interval, shown);
  return (
    by?.rows.some((row) => inside(row.when.interval, value(by.gauge)) && inside(row.bound.interval, shown)) ?? false
  );
}

function equipmentFor(equipment: Equipment, question: Question): Equipment {
  return {
    ...equipment,
    rules: question.type === 'rule' ? [question.rule] : [],
    hazards: question.type === 'hazard' ? [question.hazard] : [],
  };
}

function itemsOf(question: Question): readonly Item[] {
  return 'item' in question ? [question.item] : [];
}

/** Whether anything is done to these hangs on how they are. */
function ensuredIn(part: Stage | Statement): readonly Item[] {
  const actions = part.type === 'step' ? part.actions : [];
  const own = actions.flatMap((action) => (action.type === 'ensure' ? action.changes.map(({ item }) => item) : []));
  return [...own, ...bodiesOf(part).flat().flatMap(ensuredIn)];
}

function dutyStatesOf(item: Item): DutyState[] {
  const states = [...new Set(item.duties.map((duty) => duty.state))];
  return states.map((state) => ({ item, state, duties: item.duties.filter((duty) => duty.state === state) }));
}

function timesOf(duty: Duty): number[] {
  const times =
    duty.type === 'longest' ? [duty.limit, duty.rest] : [duty.type === 'times-then-rest' ? duty.rest : duty.window];
  return times.filter((time) => time !== undefined).map((time) => time.valueOf());
}

/** A run that is under way when the card begins may have gone on for longer than anything asks, or have just begun. */
const BEGUN_BEFORE = [UNKNOWN, 0];

/** Every world that a run of this card may start in. */
export function startWorlds(setting: Setting): readonly World[] {
  let states: readonly (readonly number[])[] = [[]];
  for (const item of setting.equipment.items) {
    const choices = startStates(setting, item);
    states = states.flatMap((some) => choices.map((state) => [...some, state]));
  }
  const begun = setting.dutyStates.length > 0 ? BEGUN_BEFORE : [UNKNOWN];
  return states.flatMap((chosen) => begun.map((before) => startWorld(setting, chosen, before)));
}

function startStates({ card, followed }: Setting, item: Item): readonly number[] {
  if (!followed.has(item)) return [0];
  const assumed = card.assumes.find((assumption) => assumption.item === item);
  if (assumed) return [assumed.state];
  if (item.normally !== undefined && !item.verify) return [item.normally];
  return item.kind.states.map((_, index) => index);
}

function startWorld(setting: Setting, states: readonly number[], begunBefore: number): World {
  const { equipment, dutyStates, timedItems } = setting;
  return {
    states,
    known: setting.readings.unknown,
    watched: [],
    shown: [],
    unannounced: [],
    setAt: equipment.items.map(() => ''),
    ...(setting.followsSets && { lastSet: equipment.items.map(() => '') }),
    duties: dutyStates.map(({ item, state }) =>
      states[item.id] === state
        ? { running: true, since: -begunBefore, begunAt: '', runs: [{ rest: UNKNOWN, length: 0 }] }
        : { running: false, since: -UNKNOWN, begunAt: '', runs: [] },
    ),
    ages: equipment.items.map((item) => (timedItems.has(item) ? { low: 0, high: UNKNOWN } : undefined)),
    clocks: [],
    moved: false,
  };
}
