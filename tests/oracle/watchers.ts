/** What is asked after each action: rules with `while`, hazards and their protection, needs; and the rules with `before` at each change. */
import type { Condition, Hazard, Item, Rule } from '../../shared/card.ts';
import { goesByItself, itemsIn, lastingTerms } from './conditions.ts';
import type { Known } from './readings.ts';
import type { Sightings } from './verdicts.ts';
import type { Setting, Watched, World } from './world.ts';

/** One standing question: while the trigger holds, the requirement must. */
export interface Watcher {
  readonly code: string;
  readonly subject: string;
  triggered(world: World, known: Known): boolean;
  met(world: World, known: Known, readings: 'asked' | 'taken as met'): boolean;
  /** The items that it looks at. */
  readonly items: ReadonlySet<Item>;
  /** It asks how long something has been so. */
  readonly asksTime: boolean;
  /** Only for the beginning of a hazard. */
  readonly hazard?: Hazard;
}

export function watchersOf(setting: Setting): readonly Watcher[] {
  const { equipment, question } = setting;
  const { rules, hazards } = equipment;
  const needing = question ? (question.type === 'needs' ? [question.item] : []) : equipment.items;
  return [
    ...rules
      .filter((rule) => rule.trigger === 'while')
      .map((rule) => requirement(setting, 'safety.rule', rule.name, rule.condition, rule.require)),
    ...hazards.flatMap((hazard) =>
      hazard.protect ? [requirement(setting, 'safety.unprotected', hazard.name, hazard.condition, hazard.protect)] : [],
    ),
    ...hazards.map((hazard) => ({
      ...requirement(setting, 'safety.warning', hazard.name, hazard.condition, undefined),
      hazard,
    })),
    ...needing.flatMap((item) => needsOf(setting, item)),
  ];
}

function requirement(
  setting: Setting,
  code: string,
  subject: string,
  trigger: Condition | undefined,
  required: Condition | undefined,
): Watcher {
  return {
    code,
    subject,
    items: itemsIn([trigger, required]),
    asksTime: [trigger, required].some((condition) => condition && lastingTerms(condition).length > 0),
    triggered: (world, known) => trigger === undefined || setting.sure(trigger, world, known),
    met: (world, known, readings) => required !== undefined && setting.sure(required, world, known, readings),
  };
}

function needsOf(setting: Setting, item: Item): readonly Watcher[] {
  return item.needs.map((need) => ({
    code: 'supply.not-fed',
    subject: item.name,
    items: new Set([item, ...itemsIn([{ type: 'reaches', supply: need.supply, node: need.node, place: need.place }])]),
    asksTime: false,
    triggered: (world) => world.states[item.id] === need.state,
    met: (world) => setting.fed(world.states)[need.supply.id]?.[need.node] === true,
  }));
}

/** How things stand before the first action. */
export function watchedAtStart(setting: Setting, watchers: readonly Watcher[], world: World): readonly Watched[] {
  return watchers.map((watcher) => {
    const nothing = setting.readings.unknown;
    const triggered = watcher.triggered(world, nothing);
    return {
      triggered,
      broken: false,
      byReadings: false,
      beginsYet: triggered,
      sinceStart: triggered && !watcher.met(world, nothing, 'taken as met'),
    };
  });
}

/** Notes what is broken before the first action. */
export function noteBrokenStarts(watchers: readonly Watcher[], world: World, sightings: Sightings): void {
  watchers.forEach(({ code, subject }, index) => {
    if (world.watched[index]?.sinceStart) sightings.sinceStart.add(`${code} ${subject}`);
  });
}

/** Asks every watcher after an action at `place`; `known` is what was known just before it. */
export function ask(
  watchers: readonly Watcher[],
  world: World,
  known: Known,
  {
    place,
    moves,
    touched,
    done,
    isTimeAlone,
  }: {
    readonly place: string;
    readonly moves: boolean;
    readonly touched?: Item;
    /** The world as the action left it, before anything went by itself. */
    readonly done: World;
    readonly isTimeAlone?: boolean;
  },
  sightings: Sightings,
): World {
  const firstMove = moves && !world.moved;
  let unannounced = world.unannounced;
  const watched = watchers.map((watcher, index) => {
    const before = world.watched[index] as Watched;
    if (isTimeAlone && !watcher.asksTime) return before;
    const now = askOne(watcher, before, world, known, moves);
    if (!now.broken) return now;
    if (before.broken && !before.byReadings) return now;
    const brokenBefore = sightings.brokenBefore[index] ?? 'no';
    const isTouched = touched !== undefined && watcher.items.has(touched);
    const left = isTouched ? askOne(watcher, before, done, known, moves) : undefined;
    // What the first touch asks of readings is of the same trigger that was told before it.
    const isToldAgain = firstMove && before.beginsYet && left?.byReadings && brokenBefore === 'told';
    const isDone = left?.broken && !isToldAgain;
    const byItself = !(firstMove && before.sinceStart) && !isDone && mayBreakByItself(watcher);
    if (byItself && brokenBefore === 'told') return now;
    const isPutOff = before.isPutOff || (byItself && brokenBefore !== 'no');
    if (isPutOff && !moves) return { ...now, broken: false, sinceStart: true, isPutOff };
    if (isPutOff && !watcher.hazard) sightings.brokeBefore(watcher.code, place, watcher.subject);
    else if (!watcher.hazard) sightings.broke(watcher.code, place, watcher.subject, byItself);
    else if (!world.shown.includes(watcher.hazard.id)) {
      const begun = `${watcher.hazard.id}@${place}`;
      sightings.beganUnannounced(
        begun,
        watcher.subject,
        isPutOff ? 'put off' : byItself ? 'by itself' : 'by an action',
      );
      if (!unannounced.includes(begun)) unannounced = [...unannounced, begun].sort();
    }
    return now;
  });
  return { ...world, watched, unannounced, moved: world.moved || moves };
}

/** Some of what the watcher looks at moves without anybody's doing, or hangs on time. */
export function mayBreakByItself({ items, asksTime }: Watcher): boolean {
  return asksTime || [...items].some(goesByItself);
}

/** It was broken when it was last asked; readings alone are asked again. */
export function isBroken({ broken, byReadings, sinceStart }: Watched): boolean {
  return (broken || sinceStart) && !byReadings;
}

function askOne(watcher: Watcher, before: Watched, world: World, known: Known, moves: boolean): Watched {
  const triggered = watcher.triggered(world, known);
  // A trigger that holds since the start begins, for its readings, with the first set, run or wait.
  const asksReadings = !before.triggered || (before.beginsYet && moves);
  const broken = triggered && !watcher.met(world, known, asksReadings ? 'asked' : 'taken as met');
  const beginsYet = before.beginsYet && triggered && !moves;
  const sinceStart = before.sinceStart && broken && !moves;
  const byReadings = broken && watcher.met(world, known, 'taken as met');
  const isPutOff = sinceStart && before.isPutOff;
  return { triggered, broken: broken && !sinceStart, byReadings, beginsYet, sinceStart, ...(isPutOff && { isPutOff }) };
}

/** Rules with `before`, asked for the change of `item` from the world `before` to the world `after`. */
export function askBefore(
  setting: Setting,
  before: World,
  after: World,
  item: Item,
  known: Known,
  place: string,
  sightings: Sightings,
): void {
  for (const rule of setting.equipment.rules) {
    if (
      rule.trigger !== 'before' ||
      !rule.condition ||
      !beginsWith(setting, rule.condition, before, after, item, known)
    )
      continue;
    if (!setting.sure(rule.require, before, known)) sightings.broke('safety.rule', place, rule.name);
  }
}

/** Some alternative of the condition holds after the change, with a term on this item that did not hold before. */
function beginsWith(
  setting: Setting,
  condition: Condition,
  before: World,
  after: World,
  item: Item,
  known: Known,
): boolean {
  return setting.literalsOf(condition, true).some((literals) => {
    const holdsAfter = literals.every((literal) => setting.literalSure(literal, after, known, 'asked'));
    const turned = literals.some(
      (literal) =>
        (literal.term.type === 'reaches' || (literal.term.type === 'state' && literal.term.item === item)) &&
        !setting.literalSure(literal, before, known, 'asked'),
    );
    return holdsAfter && turned;
  });
}

/** Rules `at end` or `at stop`, asked in the last world of a run. */
export function askAtEnd(
  setting: Setting,
  trigger: Rule['trigger'],
  world: World,
  place: string,
  sightings: Sightings,
): void {
  for (const rule of setting.equipment.rules) {
    if (rule.trigger === trigger && !setting.sure(rule.require, world, world.known))
      sightings.broke('safety.rule', place, rule.name);
  }
}

/** A change left behind at a finish, and hazards left active at a stop. */
export function lookAtLeftChanges(setting: Setting, world: World, sightings: Sightings): void {
  const { card, equipment } = setting;
  for (const item of equipment.items) {
    if (item.normally === undefined) continue;
    const allowed = [item.normally, ...card.leaves.filter((leave) => leave.item === item).map((leave) => leave.state)];
    if (allowed.includes(world.states[item.id] as number)) continue;
    const set = /^(\d+)@(.*)$/.exec(world.setAt[item.id] as string);
    const assumed = card.assumes.find((assumption) => assumption.item === item && !allowed.includes(assumption.state));
    if (set) {
      if (!allowed.includes(Number(set[1]))) sightings.broke('safety.left-changed', set[2] as string, item.name);
    } else if (assumed)
      sightings.broke(
        'safety.left-changed',
        `${assumed.place.file}:${assumed.place.start}-${assumed.place.end}`,
        item.name,
      );
  }
}

export function lookAtActiveHazards(setting: Setting, world: World, place: string, sightings: Sightings): void {
  for (const hazard of setting.equipment.hazards) {
    if (setting.sure(hazard.condition, world, world.known)) sightings.broke('safety.unsafe-stop', place, hazard.name);
  }
}
