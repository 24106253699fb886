/** Draws what is done in a step. */
import type { Action, Condition, Flow, Run, Seconds } from '../../shared/card.ts';
import type { Drawing, Scope } from './drawing.ts';
import type { Happening, Point, Reason } from './graph.ts';
import { type Ticks, ticks, ticksOf, unknownTime } from './time.ts';

export function drawAction(drawing: Drawing, action: Action, from: Point, scope: Scope): Point {
  switch (action.type) {
    case 'set':
    case 'ensure':
      return drawSet(drawing, action, from);
    case 'check':
      return action.condition
        ? drawAsked(drawing, action, action.condition, from, scope)
        : drawQuestion(drawing, action, from, scope);
    case 'read':
      return action.asked ? drawAsked(drawing, action, action.asked, from, scope) : from;
    case 'bring':
      return drawBring(drawing, action, from, scope);
    case 'run':
      return drawRun(drawing, action, from, scope);
    case 'wait':
      return drawWait(drawing, action, from, scope);
    case 'tighten':
    case 'record':
      return from;
  }
}

function drawSet(drawing: Drawing, action: Extract<Action, { type: 'set' | 'ensure' }>, from: Point): Point {
  let at = from;
  for (const change of action.changes) {
    const { item, state } = change;
    const place = action.changes.length === 1 ? action.place : change.place;
    const happening: Happening = { type: 'set', item, state };
    if (action.type === 'set') {
      at = drawing.next(at, place, { happening, change });
      continue;
    }
    const condition: Condition = { type: 'state', item, state, place };
    const changed = drawing.next(at, place, { happening: { type: 'assume', condition, holds: false } });
    const after = drawing.next(at, place, { happening: { type: 'assume', condition, holds: true } });
    at = drawing.move(changed, after, place, { happening, change, atOnce: true });
  }
  return at;
}

function drawQuestion(drawing: Drawing, action: Extract<Action, { type: 'check' }>, from: Point, scope: Scope): Point {
  const reason: Reason = { type: 'answer', question: action.question, answer: 'no' };
  const failed = drawing.next(from, action.place, { reason });
  drawing.drawElse(action.otherwise, failed, action.place, scope);
  return drawing.next(from, action.place);
}

/** A check or a reading: one way on where it holds, the other by its `else` or to a stop. */
function drawAsked(
  drawing: Drawing,
  action: Extract<Action, { type: 'check' | 'read' }>,
  condition: Condition,
  from: Point,
  scope: Scope,
): Point {
  const branch = { statement: action, form: 'check' as const };
  const failed = drawing.next(from, action.place, {
    happening: { type: 'assume', condition, holds: false },
    reason: { type: 'fails', what: action.type === 'check' ? 'check' : 'reading' },
    branch: { ...branch, passes: false },
  });
  drawing.drawElse(action.otherwise, failed, action.place, scope);
  return drawing.next(from, action.place, {
    happening: { type: 'assume', condition, holds: true },
    branch: { ...branch, passes: true },
  });
}

function drawBring(drawing: Drawing, bring: Extract<Action, { type: 'bring' }>, from: Point, scope: Scope): Point {
  const { asked: condition, within, otherwise, gauge } = bring;
  return drawAwaited(drawing, bring, { condition, within, otherwise }, from, scope, {
    happening: { type: 'moment', cause: 'bring', gauge },
    what: 'bring',
  });
}

function drawRun(drawing: Drawing, run: Run, from: Point, scope: Scope): Point {
  const number = drawing.newRun(run.item);
  const { item, state, place } = run;
  const begin: Happening = { type: 'begin', run: number, item, state };
  const end: Happening = { type: 'end', run: number, item, state };
  const roles = scope.roles;
  const running = drawing.next(from, place, { happening: begin });
  const length = run.length ? ticksOf(run.length) : upTo(run.until?.within);
  let watched = running;
  // What is watched is so until the end: nothing that another lane finds comes in between.
  const atOnce = run.watches.length > 0 && { atOnce: true as const };
  for (const [index, watch] of run.watches.entries()) {
    const time =
      watch.form === 'reaches' && watch.within ? cutAt(length, ticks(watch.within)) : { least: 0, most: length.most };
    const asked = { type: 'assume', condition: watch.asked, inPassing: true } as const;
    const reason: Reason = { type: 'watch-fails', gauge: watch.gauge };
    // Whichever fails first ends the run, whatever the others show.
    const seen = drawing.next(running, watch.place, { happening: { ...asked, holds: false }, time, roles, reason });
    const ended = drawing.next(seen, place, { happening: end, atOnce: true });
    drawing.drawElse(watch.otherwise, ended, watch.place, scope);
    watched = drawing.next(watched, watch.place, { happening: { ...asked, holds: true }, ...(index > 0 && atOnce) });
  }
  if (!run.until) {
    const over = drawing.next(watched, place, { time: length, roles, ...atOnce });
    return drawing.next(over, place, { happening: end, ...atOnce });
  }
  const { condition, within, otherwise } = run.until;
  const meanwhile: Happening = { type: 'meanwhile', movedBy: item };
  const shown: Happening = { ...end, shows: true };
  const reached = drawing.next(watched, place, { happening: meanwhile, time: length, roles, ...atOnce });
  const held = drawing.next(reached, place, {
    happening: { type: 'assume', condition, holds: true },
    branch: { statement: run, form: 'check', passes: true },
    atOnce: true,
  });
  const overdue = drawing.next(watched, place, {
    happening: meanwhile,
    time: exactly(within),
    roles,
    reason: { type: 'fails', what: 'run' },
    ...atOnce,
  });
  const failed = drawing.next(overdue, place, {
    happening: { type: 'assume', condition, holds: false },
    branch: { statement: run, form: 'check', passes: false },
    atOnce: true,
  });
  drawing.drawElse(otherwise, drawing.next(failed, place, { happening: shown, atOnce: true }), place, scope);
  return drawing.next(held, place, { happening: shown, atOnce: true });
}

function drawWait(drawing: Drawing, wait: Extract<Action, { type: 'wait' }>, from: Point, scope: Scope): Point {
  const { until, place } = wait;
  const happening: Happening = { type: 'moment', cause: 'wait' };
  if (until) return drawAwaited(drawing, wait, until, from, scope, { happening, what: 'wait' });
  return drawing.next(from, place, {
    happening,
    time: wait.length ? ticksOf(wait.length) : unknownTime,
    roles: scope.roles,
  });
}

interface Awaited {
  readonly condition: Condition;
  readonly within?: Seconds | undefined;
  readonly otherwise?: Flow | undefined;
}

/** What is awaited may come at any time up to its limit; whoever gives up has waited as long as was said. */
function drawAwaited(
  drawing: Drawing,
  action: Extract<Action, { type: 'bring' | 'wait' }>,
  { condition, within, otherwise }: Awaited,
  from: Point,
  scope: Scope,
  { happening, what }: { readonly happening: Happening; readonly what: 'bring' | 'wait' },
): Point {
  const { place } = action;
  const { roles } = scope;
  const branch = { statement: action, form: 'check' as const };
  // The reason stands where the ways part: a slice may skip the question behind.
  const reason: Reason = { type: 'fails', what };
  const overdue = drawing.next(from, place, { happening, time: exactly(within), roles, reason });
  const failed = drawing.next(overdue, place, {
    happening: { type: 'assume', condition, holds: false },
    branch: { ...branch, passes: false },
    atOnce: true,
  });
  drawing.drawElse(otherwise, failed, place, scope);
  const inTime = drawing.next(from, place, { happening, time: upTo(within), roles });
  return drawing.next(inTime, place, {
    happening: { type: 'assume', condition, holds: true },
    branch: { ...branch, passes: true },
    atOnce: true,
  });
}

function upTo(limit: Seconds | undefined): Ticks {
  return limit ? { least: 0, most: ticks(limit) } : unknownTime;
}

function exactly(length: Seconds | undefined): Ticks {
  return length ? { least: ticks(length), most: ticks(length) } : unknownTime;
}

function cutAt(length: Ticks, within: number): Ticks {
  return { least: Math.min(length.least, within), most: Math.min(length.most, within) };
}
