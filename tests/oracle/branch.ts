/** The ways that a question may go in a world: each with what is known once it has gone so. */
import type { Condition, Words } from '../../shared/card.ts';
import { itemsIn, type LastingTerm, lastingTerms } from './conditions.ts';
import {
  type Age,
  type DutyRecord,
  type DutyState,
  lastingSeconds,
  type Setting,
  UNKNOWN,
  type World,
} from './world.ts';

export interface Ways {
  readonly passes: readonly World[];
  readonly fails: readonly World[];
}

/** A little less, or more, than a time that was asked about. */
const HAIR = 1e-6;

/** A quoted question goes either way; a condition as the world and what is known of it say. `now` is the time of the one who asks. */
export function waysOf(
  setting: Setting,
  asked: { readonly condition?: Condition; readonly question?: Words },
  world: World,
  now: number,
): Ways {
  const { condition } = asked;
  if (!condition || condition.type === 'open') return { passes: [world], fails: [world] };
  const passes: World[] = [];
  const fails: World[] = [];
  for (const answers of answersTo(setting, condition, world)) {
    const duties = setting.dutyStates.map((duty, index) =>
      taking(world.duties[index] as DutyRecord, duty, answers, now),
    );
    const { group, values } = setting.readings.possible(world.known, condition);
    for (const wanted of [true, false]) {
      const fitting = values.filter(({ value }) => setting.holds(condition, world, value, answers) === wanted);
      if (fitting.length === 0) continue;
      const known =
        group === undefined
          ? world.known
          : setting.readings.keepOnly(world.known, group, new Set(fitting.map(({ index }) => index)));
      const way = { ...setting.learning(world, itemsIn([condition])), known, ages: agesAfter(world, answers), duties };
      (wanted ? passes : fails).push(way);
    }
  }
  return { passes, fails };
}

/** Every answer to the questions of time in a condition that the known times leave open. */
function answersTo(setting: Setting, condition: Condition, world: World): readonly ReadonlyMap<LastingTerm, boolean>[] {
  let answers: ReadonlyMap<LastingTerm, boolean>[] = [new Map()];
  for (const term of lastingTerms(condition)) {
    const open =
      world.states[term.item.id] === term.state &&
      [true, false].every((wanted) => !setting.literalSure({ term, wanted }, world, world.known, 'asked'));
    if (open) answers = answers.flatMap((answer) => [true, false].map((way) => new Map([...answer, [term, way]])));
  }
  return answers;
}

/** An answer tells how long the item has been in its state. */
function agesAfter(world: World, answers: ReadonlyMap<LastingTerm, boolean>): World['ages'] {
  let ages = world.ages;
  for (const [term, answer] of answers) {
    ages = ages.map((age, item) => (age && item === term.item.id ? narrowed(age, term, answer) : age));
  }
  return ages;
}

function narrowed(age: Age, term: LastingTerm, answer: boolean): Age {
  const asked = lastingSeconds(term);
  const atLeast = (term.lasting?.form === 'at least') === answer;
  const strictly = answer ? 0 : HAIR;
  const { low, high } = age.told ?? { low: 0, high: UNKNOWN };
  return atLeast
    ? {
        ...age,
        low: Math.max(age.low, asked + strictly),
        told: { low: Math.max(low, asked + strictly), high },
      }
    : {
        ...age,
        high: Math.min(age.high, asked - strictly),
        told: { low, high: Math.min(high, asked - strictly) },
      };
}

/**
 * A run that takes each stretch of time at its least or its most may itself contradict an answer about that time. It then stands for the run that took
 * just so long that the answer is true: its present run, or rest, began at the moment nearest to what it says.
 */
function taking(
  record: DutyRecord,
  { item, state }: DutyState,
  answers: ReadonlyMap<LastingTerm, boolean>,
  now: number,
): DutyRecord {
  let { since } = record;
  for (const [term, answer] of answers) {
    if (term.item !== item || (term.state === state) !== record.running) continue;
    const { low, high } = narrowed({ low: 0, high: UNKNOWN }, term, answer);
    since = Math.min(since, now - low);
    if (record.running) since = Math.max(since, now - high);
  }
  return { ...record, since };
}
