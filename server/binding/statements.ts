/** Statements and stages, written out: blocks inside blocks, each with its labels. */
import type * as syntax from '../../grammar/syntax.ts';
import type { ForEach, If, Item, Stage, Statement } from '../../shared/card.ts';
import { bindFlow } from './actions.ts';
import { type Body, type BodyScope, takeFromLedger } from './body.ts';
import { bindDo } from './calls.ts';
import { bindCondition } from './conditions.ts';
import { findRole } from './crew.ts';
import { labelHere, labelOfStage, openBlock } from './labels.ts';
import { findIn, findThing, placeOf, type Thing } from './names.ts';
import { someItem } from './parameters.ts';
import { bindCount, bindValue } from './quantities.ts';
import type { Declared } from './references.ts';
import { bindAccept, bindSign, bindStep } from './steps.ts';
import { bindWords, filledIn } from './texts.ts';
import { bindWhich } from './variants.ts';

/** The body of a card or procedure, whose labels are open already. */
export function bindBody(scope: BodyScope, body: readonly (syntax.Stage | syntax.Statement)[]): Body {
  if (!takeFromLedger(scope, body.length)) return [];
  return body.flatMap((node) => {
    return (node.type === 'stage' ? bindStage(scope, node) : bindStatement(scope, node)) ?? [];
  });
}

/** Statements directly in a body or stage. */
function bindStatements(scope: BodyScope, statements: readonly syntax.Statement[]): readonly Statement[] {
  if (!takeFromLedger(scope, statements.length)) return [];
  return statements.flatMap((node) => bindStatement(scope, node) ?? []);
}

/** Statements in braces of their own. */
function bindBlock(
  scope: BodyScope,
  block: syntax.Block | undefined,
  border: 'block' | 'lane' | 'when stopped' = 'block',
) {
  const statements = block?.statements ?? [];
  return bindStatements({ ...scope, labels: openBlock(scope, statements, border) }, statements);
}

function bindStage(scope: BodyScope, node: syntax.Stage): Stage {
  const only = bindWhich(scope, node.only);
  const label = labelHere(scope, labelOfStage(node));
  const statements = node.body?.statements ?? [];
  return {
    type: 'stage',
    label,
    title: node.title ? filledIn(scope, node.title) : '',
    whenStopped: node.whenStopped,
    only,
    body: node.whenStopped ? bindBlock(scope, node.body, 'when stopped') : bindStatements(scope, statements),
    place: placeOf(scope, node),
  };
}

/** Undefined where it was not understood, or names nothing known; several for a step that mends what it finds. */
function bindStatement(scope: BodyScope, node: syntax.Statement): Statement | readonly Statement[] | undefined {
  switch (node.type) {
    case 'step':
      return bindStep(scope, node, bindBlock);
    case 'admonition':
      return bindAdmonition(scope, node);
    case 'if':
      return bindIf(scope, node);
    case 'repeat':
      return bindRepeat(scope, node);
    case 'together':
      return bindTogether(scope, node);
    case 'do':
      return bindDo(scope, node, bindBody);
    case 'for-each':
      return bindForEach(scope, node);
    case 'choose':
      return bindChoose(scope, node);
    case 'keep':
      return bindKeep(scope, node);
    case 'sign':
      return bindSign(scope, node);
    case 'accept':
      return bindAccept(scope, node);
    case 'figure':
      return (
        node.path && {
          type: 'figure',
          path: node.path.value,
          caption: captionOf(scope, node),
          place: placeOf(scope, node),
        }
      );
    case 'go':
    case 'stop':
    case 'finish':
      return bindFlow(scope, node);
    case 'broken':
      return undefined;
  }
}

function captionOf(scope: BodyScope, node: syntax.Figure): string {
  return node.caption ? filledIn(scope, node.caption) : '';
}

function bindAdmonition(scope: BodyScope, node: syntax.Admonition): Statement | undefined {
  const only = bindWhich(scope, node.only);
  const entry = node.hazard && findIn(scope, scope.work.names.hazards, node.hazard, 'hazard');
  const hazard = entry?.hazard;
  const texts = node.text ? [bindWords(scope, node.text)] : [];
  if (node.hazard && hazard === undefined) return undefined;
  const place = placeOf(scope, node);
  return {
    type: 'admonition',
    level: node.level,
    hazard,
    texts,
    only,
    ...(node.source && { source: node.source.value }),
    place,
  };
}

// ---------------------------------------------------------------- branches and rounds

/** What an `if`, `check` or `until` asks: a condition, or a question that its reader answers. */
function bindAsked(
  scope: BodyScope,
  node: { readonly condition?: syntax.Condition; readonly question?: syntax.Text } & syntax.SyntaxNode,
) {
  const question = bindWords(scope, node.question);
  return question ? { question } : { condition: bindCondition(scope, node.condition, placeOf(scope, node)) };
}

function bindIf(scope: BodyScope, node: syntax.If): If {
  const asked = bindAsked(scope, node);
  const headEnd = (node.condition ?? node.question)?.end ?? node.start + 'if'.length;
  const otherwise = bindOtherwise(scope, node.otherwise);
  return {
    type: 'if',
    ...asked,
    body: bindBlock(scope, node.body),
    otherwise,
    chained: node.otherwise?.type === 'if',
    head: placeOf(scope, { start: node.start, end: headEnd }),
    place: placeOf(scope, node),
  };
}

function bindOtherwise(scope: BodyScope, node: syntax.If['otherwise']): readonly Statement[] | undefined {
  if (node === undefined) return undefined;
  return node.type === 'if' ? [bindIf(scope, node)] : bindBlock(scope, node);
}

function bindRepeat(scope: BodyScope, node: syntax.Repeat): Statement {
  const until = node.until ? bindAsked(scope, node) : undefined;
  const otherwise = bindFlow(scope, node.otherwise);
  const lastOfHead = node.condition ?? node.question ?? node.times;
  const headEnd = node.body?.start ?? lastOfHead?.end ?? node.start + 'repeat'.length;
  return {
    type: 'repeat',
    times: bindCount(scope, node.times, 'repeats less than once') ?? 1,
    until,
    body: bindBlock(scope, node.body),
    otherwise,
    head: placeOf(scope, { start: node.start, end: headEnd }),
    place: placeOf(scope, node),
  };
}

function bindTogether(scope: BodyScope, node: syntax.Together): Statement {
  const lanes = node.lanes.map((lane) => {
    const role = findRole(scope, lane.role);
    return { role, body: bindBlock(scope, lane.body, 'lane'), place: placeOf(scope, lane) };
  });
  return { type: 'together', lanes, place: placeOf(scope, node) };
}

function bindChoose(scope: BodyScope, node: syntax.Choose): Statement {
  const ways = node.ways.map((way) => ({
    text: bindWords(scope, way.text) ?? { text: '', place: placeOf(scope, way) },
    body: bindBlock(scope, way.body),
    place: placeOf(scope, way),
  }));
  return { type: 'choose', ways, place: placeOf(scope, node) };
}

function bindKeep(scope: BodyScope, node: syntax.Keep): Statement {
  const place = placeOf(scope, node);
  const otherwise = bindFlow(scope, node.otherwise);
  return {
    type: 'keep',
    condition: bindCondition(scope, node.condition, place),
    otherwise,
    place,
  };
}

// ---------------------------------------------------------------- for each

function bindForEach(scope: BodyScope, node: syntax.ForEach): ForEach | undefined {
  const place = placeOf(scope, node);
  const items = node.values ? [] : itemsOf(scope, node);
  const values = node.values?.flatMap((value) => bindValue(scope, value, node.values?.at(-1)?.unit) ?? []);
  if (node.name === undefined) return undefined;
  const declared = scope.library.roundNameOf(scope, node.name);
  const inside: BodyScope = { ...scope, writtenOutAt: scope.writtenOutAt ?? place };
  const round = (thing: Thing) =>
    bindBlock({ ...inside, locals: new Map(scope.locals).set(declared.name, thing) }, node.body);
  const things = values
    ? values.map((value): Thing => ({ sort: 'value', declared, value }))
    : items.map((item): Thing => ({ sort: 'item', declared, item }));
  if (things.length === 0) round(someThing(scope, node, declared));
  return { type: 'for-each', name: declared.name, items, values, rounds: things.map(round), place };
}

/** A kind's items in the order of declaration, or the listed ones. A single name is a kind's, if there is one. */
function itemsOf(scope: BodyScope, node: syntax.ForEach): readonly Item[] {
  const kind = kindOf(scope, node);
  if (kind) {
    scope.work.references.use(kind.name, scope.file, kind.entry.declared);
    scope.work.takenWhole.add(kind.entry.kind);
    return scope.work.names.itemsOf.get(kind.entry.kind) ?? [];
  }
  return node.in.flatMap((name) => findThing(scope, name, 'item')?.item ?? []);
}

function kindOf(scope: BodyScope, node: syntax.ForEach) {
  const [name] = node.in;
  const entry = node.in.length === 1 && name ? scope.work.names.kinds.get(name.text) : undefined;
  return name && entry && !scope.locals.has(name.text) ? { name, entry } : undefined;
}

/** Where there is no item to do it for, the names in the block are looked up all the same. */
function someThing(scope: BodyScope, node: syntax.ForEach, declared: Declared): Thing {
  const kind = kindOf(scope, node)?.entry.kind;
  return kind ? { sort: 'item', declared, item: someItem(declared, kind) } : { sort: 'parameter', declared };
}
