import type * as syntax from '../../grammar/syntax.ts';
import type { Accept, Action, Role, Sign, Step } from '../../shared/card.ts';
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

export function bindStep(scope: BodyScope, node: syntax.Step): Step {
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
  for (const action of node.actions) {
    const bound = bindInStep(scope, action);
    if (bound) step.actions.push(bound);
  }
  step.actions.push(...inspections);
  return step;
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
