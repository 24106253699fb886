/** What all questions share that ask whether something holds while something else is so. */
import type { Condition, Item } from '../../../shared/card.ts';
import type { Move } from '../../flow/graph.ts';
import { type Broken, brokenWhile, mayBeMetAtStart } from '../breaks.ts';
import { partsWhere } from '../evaluate.ts';
import type { Look, Question } from '../question.ts';
import { type Variable, withValue } from '../state.ts';
import { lastingTerms, thingsIn } from '../things.ts';
import { drifts, passesTime } from '../transition-facts.ts';
import type { Context } from './context.ts';

/** Whether the requirement holds while the trigger is met, at each move that may break it. */
export function whileQuestion(
  trigger: Condition,
  require: Condition,
  context: Context,
  report: (look: Look, broken: Broken) => void,
): Question {
  const { items, gauges } = thingsIn(trigger, require);
  const own = ownVariables(trigger, context);
  return {
    items: [...items],
    gauges: [...gauges],
    own,
    settle: keepMet(trigger),
    watches: actionsThatMatter([...items], gauges.size > 0 || asksTime(trigger, require), own),
    look: (look) => {
      const broken = brokenWhile(look, trigger, require);
      if (broken) report(look, broken);
    },
  };
}

/**
 * What a `while` needs beside items and gauges: where the trigger may be met from the start, whether anything was touched
 * yet; where it looks at readings, whether it was met at the last action.
 */
export function ownVariables(trigger: Condition, context: Context): Variable[] {
  const own: Variable[] = [];
  if (mayBeMetAtStart(trigger, context.start)) own.push({ type: 'untouched' });
  if (thingsIn(trigger).gauges.size > 0 && !asksTime(trigger)) own.push({ type: 'was-met' });
  return own;
}

/** Keeps whether a trigger that looks at readings was met: the readings will be forgotten. */
export function keepMet(trigger: Condition): Question['settle'] {
  return ({ before, after, own, variables, view }) => {
    const variable = own('was-met');
    if (variable === undefined) return [after];
    return [true, false].flatMap((met) =>
      partsWhere(
        trigger,
        after,
        variables,
        (answer) => (answer === 'yes') === met,
        (part) => view(part, 'known', before),
      ).map((part) => withValue(part, variable, met ? 1 : 0)),
    );
  };
}

/**
 * Only a move that may change one of the items can break what must hold, any that takes time where readings or times are
 * asked (`passing`), and the first touch, where it may be broken from the start.
 */
export function actionsThatMatter(
  items: readonly Item[],
  passing: boolean,
  own: readonly Variable[],
): Question['watches'] {
  if (passing || items.some(drifts)) return (index) => index.passingTime;
  const fromStart = own.some((variable) => variable.type === 'untouched');
  return (index) => {
    const moving = items
      .flatMap((item) => index.movesOfItem(item))
      .filter((move) => passesTime(index.flow.moves[move] as Move));
    return fromStart ? [...moving, ...index.touching, ...index.waits] : moving;
  };
}

/** Whether a condition asks how long something has been so. */
export function asksTime(...conditions: readonly Condition[]): boolean {
  return conditions.some((condition) => lastingTerms(condition).length > 0);
}
