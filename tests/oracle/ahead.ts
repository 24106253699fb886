/** What may still come on a run: a run after which nothing can begin a duty any more has no more to show of it. */
import type { Action, Card, Flow, Stage, Statement, Step } from '../../shared/card.ts';
import { bodiesOf, goesByItself } from './conditions.ts';
import type { Frame } from './frames.ts';
import type { DutyState, Setting, World } from './world.ts';

type Part = Stage | Statement;

export class Ahead {
  private readonly stopStages: readonly Part[];
  /** Nothing leads back to what was done, and the item only goes where it is put. */
  private readonly onlyForward: boolean;

  constructor(private readonly setting: Setting) {
    const { body }: Card = setting.card;
    this.stopStages = body.filter((part) => part.type === 'stage' && part.whenStopped);
    this.onlyForward = !body.some(leadsBack) && !setting.dutyStates.some(({ item }) => goesByItself(item));
  }

  /** Whether a duty goes on in this world or may still begin. */
  hasDuties(frame: Frame | undefined, world: World): boolean {
    if (!this.onlyForward || world.duties.some(({ running }) => running)) return true;
    return this.setting.dutyStates.some((duty) => {
      const stops = world.stopping === undefined && this.stopStages.some((stage) => begins(stage, duty));
      return stops || mayBegin(frame, duty);
    });
  }
}

function mayBegin(frame: Frame | undefined, duty: DutyState): boolean {
  for (let at = frame; at; at = at.under) {
    if (at.type === 'list' && at.list.slice(at.index).some((part) => begins(part, duty))) return true;
    if (at.type === 'actions' && at.step.actions.slice(at.index).some((action) => actionBegins(action, duty)))
      return true;
    if (at.type === 'run' && at.run.item === duty.item) return true;
    if (at.type === 'repeat' && begins(at.repeat, duty)) return true;
    if (at.type === 'together' && at.lanes.some((lane) => mayBegin(lane.frame, duty))) return true;
  }
  return false;
}

function begins(part: Part, duty: DutyState): boolean {
  const here = part.type === 'step' && part.actions.some((action) => actionBegins(action, duty));
  return (
    here ||
    bodiesOf(part)
      .flat()
      .some((inner) => begins(inner, duty))
  );
}

function actionBegins(action: Step['actions'][number], { item, state }: DutyState): boolean {
  if (action.type === 'run') return action.item === item;
  if (action.type !== 'set' && action.type !== 'ensure') return false;
  return action.changes.some((change) => change.item === item && change.state === state);
}

function leadsBack(part: Part): boolean {
  return flowsOf(part).some(isBack) || bodiesOf(part).flat().some(leadsBack);
}

export function isBack(flow: Flow): boolean {
  return flow.type === 'go' && flow.target !== undefined && flow.target.place.start < flow.place.start;
}

function flowsOf(part: Part): readonly Flow[] {
  switch (part.type) {
    case 'go':
      return [part];
    case 'keep':
    case 'repeat':
      return part.otherwise ? [part.otherwise] : [];
    case 'step':
      return part.actions.flatMap(flowsOfAction);
    default:
      return [];
  }
}

function flowsOfAction(action: Action | { readonly type: 'sign' | 'accept' }): readonly Flow[] {
  const own = 'otherwise' in action && action.otherwise ? [action.otherwise] : [];
  const until = 'until' in action && action.until?.otherwise ? [action.until.otherwise] : [];
  const watches = action.type === 'run' ? action.watches.flatMap(({ otherwise }) => otherwise ?? []) : [];
  return [...own, ...until, ...watches];
}
