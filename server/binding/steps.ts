import type * as syntax from '../../grammar/syntax.ts';
import type { Accept, Action, Flow, Item, Label, Mend, Role, Sign, Statement, Step } from '../../shared/card.ts';
import { itemsIn } from '../../shared/conditions.ts';
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
    head: placeOf(scope, { start: node.start, end: Math.max(lastOfHead?.end ?? 0, node.start + 'step'.length) }),
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
      mended.push({ at: step.actions.length, asked, label, node: action, block });
      step.actions.push(leadingTo(label, asked));
    }
  }
  step.actions.push(...inspections);
  if (step.actions.some((action) => itemsAsked(action).some((item) => scope.failed?.includes(item)))) step.anew = true;
  return [step, ...mended.map((one) => mendOf(scope, step, one, bindBlock))];
}

type Asked = Extract<Action, { type: 'check' | 'read' | 'bring' | 'wait' }>;

/** A check, reading or the like among the actions of a step, and the block that mends what it finds. */
interface Mended {
  readonly at: number;
  readonly asked: Asked;
  readonly label: Label;
  readonly node: syntax.Step['actions'][number];
  readonly block: syntax.Block;
}

function isAsked(action: Step['actions'][number]): action is Asked {
  const { type } = action;
  return type === 'check' || type === 'read' || type === 'bring' || type === 'wait';
}

/** As it was, but that where it fails the path goes to what mends it. */
function leadingTo(target: Label, asked: Asked): Asked {
  const otherwise = { type: 'go', target, place: asked.place } as const;
  if (asked.type !== 'wait') return { ...asked, otherwise };
  return asked.until ? { ...asked, until: { ...asked.until, otherwise } } : asked;
}

function elseOf(asked: Asked): Flow | undefined {
  return asked.type === 'wait' ? asked.until?.otherwise : asked.otherwise;
}

function mendOf(scope: BodyScope, step: Step, { at, asked, label, node, block }: Mended, bindBlock: BindBlock): Mend {
  const rest = step.actions.slice(at + 1).filter(({ type }) => type !== 'accept');
  const failed = itemsAsked(asked).filter(({ kind, may }) => kind.seen || may.length > 0);
  const body = bindBlock({ ...scope, failed: [...(scope.failed ?? []), ...failed] }, block);
  const isAsked = !elseOf(asked) && looksAgain(block.statements.at(-1), node);
  const place = placeOf(scope, { start: node.start, end: block.start });
  const again = againStep(step, isAsked ? rest : [asked, ...rest], place, failed.length > 0);
  return {
    type: 'mend',
    label,
    asked: step,
    only: step.only,
    body: leadsAway(body.at(-1)) || again.actions.length === 0 ? body : [...body, again],
    place: label.place,
  };
}

function itemsAsked(action: Step['actions'][number]): readonly Item[] {
  const condition = action.type === 'wait' ? action.until?.condition : action.type === 'check' && action.condition;
  return condition ? itemsIn(condition) : [];
}

/** What ends with `stop`, `go to` or `finish` does not come back to ask again. */
function leadsAway(last: Statement | undefined): boolean {
  return last?.type === 'stop' || last?.type === 'go' || last?.type === 'finish';
}

/** Asks a second time, and goes on with what is still to be done: in no more time than the whole step may take. */
function againStep(step: Step, actions: Step['actions'], place: Step['place'], anew: boolean): Step {
  const { roles, only, takes } = step;
  const time = takes && { ...takes, least: zero };
  const of = { roles, only, takes: time, ...(anew && { anew }) };
  return { type: 'step', texts: [], see: [], ...of, actions, place, head: place };
}

/** Whether the writer asks a second time in so many words: then it is not asked a third time. */
function looksAgain(last: syntax.Statement | undefined, asked: object): boolean {
  const action = last?.type === 'step' ? last.actions.at(-1) : undefined;
  return action !== undefined && lookOf(action) === lookOf(asked);
}

const notOfTheLook = new Set(['start', 'end', 'mend', 'otherwise']);

function lookOf(action: object): string {
  return JSON.stringify(action, (key, value) => (notOfTheLook.has(key) ? undefined : value));
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
