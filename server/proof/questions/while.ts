/** What all questions share that ask whether something holds while something else is so. */
import type { Condition, Item } from '../../../shared/card.ts';
import type { Move } from '../../flow/graph.ts';
import { partsWhere, type View } from '../meaning/evaluate.ts';
import { type State, withValue } from '../meaning/state.ts';
import { asksTime, thingsIn } from '../meaning/things.ts';
import { drifts, passesTime } from '../meaning/transition-facts.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';
import type { Monitor } from '../slicing/monitor.ts';
import type { Look, Question, Settling } from '../slicing/question.ts';
import { mayBeMetAtStart } from './breaks.ts';
import { untouched, wasMet } from './monitors.ts';
import type { Context } from './sort.ts';
import { type Broken, brokenWhile } from './standing.ts';

/** Whether the requirement holds while the trigger is met, at each move that may break it. */
export function whileQuestion(
  trigger: Condition,
  require: Condition,
  context: Pick<Context, 'start'>,
  report: (look: Look, broken: Broken) => void,
): Question {
  const { items, gauges } = thingsIn(trigger, require);
  const monitors = standingMonitors(trigger, context);
  return {
    items: [...items],
    gauges: [...gauges],
    monitors,
    settle: settleStanding(trigger, require),
    watches: actionsThatMatter([...items], gauges.size > 0, asksTime(trigger, require), monitors),
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
export function standingMonitors(trigger: Condition, context: Pick<Context, 'start'>): Monitor[] {
  return [
    ...(mayBeMetAtStart(trigger, context.start) ? [untouched] : []),
    ...(thingsIn(trigger).gauges.size > 0 && !asksTime(trigger) ? [wasMet] : []),
  ];
}

/** What a standing question keeps of a state after each move that passes time. */
export function settleStanding(trigger: Condition, require: Condition | undefined): Question['settle'] {
  return (settling) => keepMet(trigger, settling).map((after) => noteTold(trigger, require, { ...settling, after }));
}

/** Keeps whether a trigger that looks at readings was met: the readings will be forgotten. */
function keepMet(trigger: Condition, { before, after, ofMonitor, variables, view }: Settling): readonly State[] {
  const variable = ofMonitor(wasMet);
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
}

/**
 * What is broken from the start is told at the first touch. What breaks by itself before that is told where it does, and the
 * path is from then on as if something had been touched; likewise where the trigger was not met, so that nothing is so since the start.
 */
function noteTold(trigger: Condition, require: Condition | undefined, settling: Settling): State {
  const { before, after, isStart, ofMonitor, variables, view } = settling;
  const [isUntouched, metBefore] = [ofMonitor(untouched), ofMonitor(wasMet)];
  if (isUntouched === undefined || after[isUntouched] !== 1 || isStart) return after;
  const partsWith = (state: State, condition: Condition, met: boolean, as: View['as']) =>
    partsWhere(
      condition,
      state,
      variables,
      (answer) => (answer === 'yes') === met,
      (part) => view(part, as, before),
    );
  const triggered = (state: State) => partsWith(state, trigger, true, 'known');
  const isBroken = (part: State, as: View['as']) => !require || partsWith(part, require, false, as).length > 0;
  const met = metBefore === undefined ? triggered(before) : [before].filter((state) => state[metBefore] === 1);
  const isTold = !met.some((part) => isBroken(part, 'met')) && triggered(after).some((part) => isBroken(part, 'met'));
  return met.length === 0 || isTold ? withValue(after, isUntouched, 0) : after;
}

/**
 * Only a move that may change one of the items can break what must hold; any that passes time where readings are asked, and any that takes time where
 * times are (`asksTimes`), so that the time of a run is over before its end; and the first touch, where it may be broken from the start.
 */
export function actionsThatMatter(
  items: readonly Item[],
  asksReadings: boolean,
  asksTimes: boolean,
  monitors: readonly Monitor[],
): Question['watches'] {
  if (asksTimes)
    return (index) => [...index.passingTime, ...index.takingTime.filter((move) => !passesTimeAt(index, move))];
  if (asksReadings || items.some(drifts)) return (index) => index.passingTime;
  const fromStart = monitors.includes(untouched);
  return (index) => {
    const moving = items.flatMap((item) => index.movesOfItem(item)).filter((move) => passesTimeAt(index, move));
    return fromStart ? [...moving, ...index.touching] : moving;
  };
}

function passesTimeAt({ flow }: FlowIndex, move: number): boolean {
  return passesTime(flow.moves[move] as Move);
}
