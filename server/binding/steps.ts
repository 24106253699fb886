import type * as syntax from '../../grammar/syntax.ts';
import type { Accept, Action, Label, Mend, Role, Sign, Statement, Step } from '../../shared/card.ts';
import { zero } from '../../shared/exact.ts';
import { bindAction } from './actions.ts';
import type { BodyScope } from './body.ts';
import { findRole } from './crew.ts';
import { labelHere } from './labels.ts';
import { type Building, placeOf } from './names.ts';
import { Once } from './once.ts';
import { bindSpan } from './quantities.ts';
import { bindWords } from './texts.ts';
import { bindWhich } from './variants.ts';

type StepInMaking = Omit<Building<Step>, 'texts' | 'roles' | 'see' | 'actions'> & {
  texts: Step['texts'][number][];
  roles: Role[];
  see: Step['see'][number][];
  actions: Step['actions'][number][];
};

type BindBlock = (scope: BodyScope, block: syntax.Block) => readonly Statement[];

/** The step, and behind it what is done where one of its checks fails. */
export function bindStep(scope: BodyScope, node: syntax.Step, bindBlock: BindBlock): readonly Statement[] {
  const label = labelHere(scope, node.label);
  const lastOfHead = node.parts.at(-1) ?? node.label;
  const step: StepInMaking = {
    type: 'step',
    label,
    texts: [],
    roles: [],
    see: [],
    actions: [],
    place: placeOf(scope, node),
    head: placeOf(scope, { start: node.start, end: lastOfHead?.end ?? node.start + 'step'.length }),
  };
  const once = new Once(scope);
  // Who inspects signs after all that is done.
  const inspections: Sign[] = [];
  for (const part of node.parts) addPart(scope, step, inspections, part, once);
  const mended: Mended[] = [];
  for (const action of node.actions) {
    const asked = bindInStep(scope, action);
    const block = 'mend' in action ? action.mend : undefined;
    if (asked === undefined) continue;
    if (block === undefined || !isAsked(asked)) step.actions.push(asked);
    else {
      const label = { name: 'what is done then', place: placeOf(scope, block) };
      mended.push({ at: step.actions.length, asked, label, start: action.start, block });
      step.actions.push({ ...asked, otherwise: { type: 'go', target: label, place: asked.place } });
    }
  }
  step.actions.push(...inspections);
  return [step, ...mended.map((one) => mendOf(scope, step, one, bindBlock))];
}

type Asked = Extract<Action, { type: 'check' | 'read' }>;

/** A check or reading among the actions of a step, and the block that mends what it finds. */
interface Mended {
  readonly at: number;
  readonly asked: Asked;
  readonly label: Label;
  readonly start: number;
  readonly block: syntax.Block;
}

function isAsked(action: Step['actions'][number]): action is Asked {
  return action.type === 'check' || action.type === 'read';
}

function mendOf(scope: BodyScope, step: Step, { at, asked, label, start, block }: Mended, bindBlock: BindBlock): Mend {
  const rest = step.actions.slice(at + 1).filter(({ type }) => type !== 'accept');
  const body = bindBlock(scope, block);
  const again = againStep(step, [asked, ...rest], placeOf(scope, { start, end: block.start }));
  return {
    type: 'mend',
    label,
    asked: step,
    only: step.only,
    body: leadsAway(body.at(-1)) && !asked.otherwise ? body : [...body, again],
    place: label.place,
  };
}

/** What ends with `stop`, `go to` or `finish` does not come back to ask again. */
function leadsAway(last: Statement | undefined): boolean {
  return last?.type === 'stop' || last?.type === 'go' || last?.type === 'finish';
}

/** Asks a second time, and goes on with what is still to be done: in no more time than the whole step may take. */
function againStep(step: Step, actions: Step['actions'], place: Step['place']): Step {
  const { roles, only, takes } = step;
  const time = takes && { ...takes, least: zero };
  return { type: 'step', texts: [], see: [], roles, only, takes: time, actions, place, head: place };
}

function addPart(scope: BodyScope, step: StepInMaking, inspections: Sign[], part: syntax.StepPart, once: Once): void {
  switch (part.type) {
    case 'text':
      step.texts.push(bindWords(scope, part));
      return;
    case 'by': {
      const role = findRole(scope, part.role);
      if (role && !step.roles.includes(role)) step.roles.push(role);
      return;
    }
    case 'inspected': {
      const place = placeOf(scope, part);
      if (part.role) inspections.push({ type: 'sign', role: findRole(scope, part.role), independent: true, place });
      return;
    }
    case 'takes':
      if (once.take('takes', part)) step.takes = bindSpan(scope, part.span);
      return;
    case 'see':
      if (part.text) step.see.push(bindWords(scope, part.text));
      return;
    case 'from-source':
      if (part.text) step.sources = [...(step.sources ?? []), part.text.value];
      return;
    case 'only':
      if (once.take('only', part)) step.only = bindWhich(scope, part.which);
      return;
  }
}

function bindInStep(scope: BodyScope, node: syntax.Step['actions'][number]): Action | Sign | Accept | undefined {
  switch (node.type) {
    case 'sign':
      return bindSign(scope, node);
    case 'accept':
      return bindAccept(scope, node);
    case 'broken':
      return undefined;
    default:
      return bindAction(scope, node);
  }
}

export function bindSign(scope: BodyScope, node: syntax.Sign): Sign {
  const role = findRole(scope, node.role);
  const text = bindWords(scope, node.text);
  return { type: 'sign', role, ...(node.independent && { independent: true }), text, place: placeOf(scope, node) };
}

/** One without a code or a reason was not understood. */
export function bindAccept(scope: BodyScope, node: syntax.Accept): Accept | undefined {
  if (node.code === undefined || node.because === undefined) return undefined;
  return { type: 'accept', code: node.code.text, because: node.because.value, place: placeOf(scope, node) };
}
