/** Labels of steps and stages: where a `go to` may lead from where it stands. */
import { all as allNodes, titleAsName } from '../../grammar/navigate.ts';
import type * as syntax from '../../grammar/syntax.ts';
import type { Label } from '../../shared/card.ts';
import { reportSecond } from './duplicates.ts';
import { bodyOf, type Callable, placeOf, reportUnknown, type Scope } from './names.ts';
import type { Barrier } from './problems.ts';
import type { Declared } from './references.ts';

type Body = readonly (syntax.Stage | syntax.Statement)[];

/** What a stretch of text lets through: jumps lead out of a block, but not out of a lane, and never into either. */
type Border = 'body' | 'block' | 'lane' | 'when stopped';

interface KnownLabel {
  readonly declared: Declared;
  readonly border: Border;
  /** A title that no `go to` names is no label: it only may be meant by a slip. */
  readonly isTitleOnly?: boolean;
  readonly isOfSeveral?: boolean;
}

/** All labels of a card or procedure, wherever they stand. */
export type AllLabels = ReadonlyMap<string, KnownLabel>;

/** The labels of one block as it is written out, inside those around it. */
export interface LabelScope {
  readonly here: ReadonlyMap<string, Label>;
  readonly border: Border;
  readonly outer?: LabelScope;
  readonly all: AllLabels;
}

// ---------------------------------------------------------------- declaring

/** Declares the labels of a card or procedure; a second one of the same name is reported. */
export function declareLabels(scope: Scope, { node, declared: owner }: Callable): AllLabels {
  const all = new Map<string, KnownLabel>();
  const add = (name: syntax.Name | undefined, border: Border): void => {
    if (name === undefined) return;
    const first = all.get(name.text)?.declared;
    if (first) reportSecond(scope, name, 'label', first);
    else all.set(name.text, { declared: scope.work.references.declare('label', name, scope.file, owner), border });
  };
  const targets = new Set(allNodes(node, 'go').map(({ label }) => label?.text));
  const addTitle = (name: syntax.Name | undefined, border: Border): void => {
    if (name === undefined) return;
    const first = all.get(name.text);
    const isTitleOnly = !targets.has(name.text);
    if (first) all.set(name.text, { ...first, isOfSeveral: true });
    else if (isTitleOnly)
      all.set(name.text, {
        declared: { sort: 'label', name: name.text, place: placeOf(scope, name) },
        border,
        isTitleOnly,
      });
    else add(name, border);
  };
  const addBody = (statements: Body, border: Border): void => {
    for (const statement of statements) {
      if (statement.type === 'step') add(statement.label, border);
      if (statement.type !== 'stage') for (const inner of blocksIn(statement)) addBody(inner.statements, inner.border);
      else {
        const own = statement.whenStopped ? 'when stopped' : border;
        if (statement.name) add(statement.name, own);
        else addTitle(titleAsName(statement.title), own);
        addBody(statement.body?.statements ?? [], own);
      }
    }
  };
  addBody(bodyOf(node), 'body');
  return all;
}

interface InnerBlock {
  readonly statements: readonly syntax.Statement[];
  readonly border: Border;
}

/** The blocks directly inside a statement. */
function blocksIn(statement: syntax.Statement): readonly InnerBlock[] {
  const block = (body: syntax.Block | undefined): InnerBlock => ({
    statements: body?.statements ?? [],
    border: 'block',
  });
  switch (statement.type) {
    case 'if': {
      const { otherwise } = statement;
      const chained: InnerBlock[] = otherwise?.type === 'if' ? [{ statements: [otherwise], border: 'block' }] : [];
      return [block(statement.body), ...chained, ...(otherwise?.type === 'block' ? [block(otherwise)] : [])];
    }
    case 'repeat':
    case 'for-each':
      return [block(statement.body)];
    case 'together':
      return statement.lanes.map((lane) => ({ statements: lane.body?.statements ?? [], border: 'lane' }));
    case 'choose':
      return statement.ways.map((way) => block(way.body));
    case 'step':
      return statement.actions.flatMap((action) => ('mend' in action && action.mend ? [block(action.mend)] : []));
    case 'admonition':
    case 'do':
    case 'keep':
    case 'sign':
    case 'go':
    case 'stop':
    case 'finish':
    case 'accept':
    case 'figure':
    case 'broken':
      return [];
  }
}

// ---------------------------------------------------------------- opening blocks

const noLabels: ReadonlyMap<string, Label> = new Map();

/** A card or procedure as it is written out once. */
export function openBody(scope: Scope, body: Body, all: AllLabels): LabelScope {
  return { here: directLabels(scope, body, all), border: 'body', all };
}

export function openBlock(
  scope: Scope & { readonly labels: LabelScope },
  statements: readonly syntax.Statement[],
  border: Border,
): LabelScope {
  const { all } = scope.labels;
  return { here: directLabels(scope, statements, all), border, outer: scope.labels, all };
}

/** The labels of these statements and of the stages among them, but not of blocks inside. */
function directLabels(scope: Scope, body: Body, all: AllLabels): ReadonlyMap<string, Label> {
  let here: Map<string, Label> | undefined;
  const add = (name: syntax.Name | undefined): void => {
    if (name === undefined || all.get(name.text)?.isTitleOnly) return;
    here ??= new Map();
    if (!here.has(name.text)) here.set(name.text, { name: name.text, place: placeOf(scope, name) });
  };
  for (const statement of body) {
    if (statement.type === 'step') add(statement.label);
    if (statement.type !== 'stage' || statement.whenStopped) continue;
    add(labelOfStage(statement));
    for (const inner of statement.body?.statements ?? []) if (inner.type === 'step') add(inner.label);
  }
  return here ?? noLabels;
}

/** The name of a stage, or for want of one its title. */
export function labelOfStage({ name, title }: syntax.Stage): syntax.Name | undefined {
  return name ?? titleAsName(title);
}

/** The label that a step or stage of this name has here; undefined inside a `when stopped` stage's head, which no jump reaches. */
export function labelHere(scope: { readonly labels: LabelScope }, name: syntax.Name | undefined): Label | undefined {
  return name && scope.labels.here.get(name.text);
}

// ---------------------------------------------------------------- jumping

/** Where a `go to` leads; undefined where there is no such label, or none that may be jumped to from here. */
export function findTarget(scope: Scope & { readonly labels: LabelScope }, name: syntax.Name): Label | undefined {
  const { all } = scope.labels;
  const known = all.get(name.text);
  if (known === undefined) {
    const meant = reportUnknown(scope, name, 'label', all.keys());
    return meant === undefined ? undefined : search(scope.labels, meant).label;
  }
  scope.work.references.use(name, scope.file, known.declared);
  const { label, leavesLane } = known.isOfSeveral ? { leavesLane: false } : search(scope.labels, name.text);
  if (label) return label;
  const reason = reasonOf(known, leavesLane);
  const place = placeOf(scope, name);
  scope.work.problems.add({
    type: 'unreachable-label',
    place,
    name: name.text,
    reason,
    declared: known.declared.place,
  });
  return undefined;
}

function search(labels: LabelScope, name: string): { readonly label?: Label; readonly leavesLane: boolean } {
  let leavesLane = false;
  for (let scope: LabelScope | undefined = labels; scope; scope = scope.outer) {
    const label = scope.here.get(name);
    if (label) return leavesLane ? { leavesLane } : { label, leavesLane };
    leavesLane ||= scope.border === 'lane';
  }
  return { leavesLane: false };
}

function reasonOf({ border, isOfSeveral }: KnownLabel, leavesLane: boolean): Barrier {
  if (isOfSeveral) return 'several titles';
  if (leavesLane) return 'out of a lane';

  if (border === 'lane') return 'into a lane';
  return border === 'when stopped' ? 'into a when-stopped stage' : 'into a block';
}
