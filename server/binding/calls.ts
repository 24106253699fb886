/** `do`: a procedure or card written out with its arguments, the roles of the card that does it, and labels of its own. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Do } from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import type { Body, BodyScope } from './body.ts';
import { bindNeeds, bindRevision } from './fields.ts';
import { openBody } from './labels.ts';
import { bodyOf, type Callable, findIn, placeOf, reportUnknown, type Scope, type Thing, thingNamed } from './names.ts';
import { type Parameter, unsettled } from './parameters.ts';
import { titleOf } from './texts.ts';

type BindBody = (scope: BodyScope, body: readonly (syntax.Stage | syntax.Statement)[]) => Body;

/** Undefined where it names nothing known, or would come back to itself. */
export function bindDo(scope: BodyScope, node: syntax.Do, bindBody: BindBody): Do | undefined {
  const callable = node.name && findIn(scope, scope.work.names.callables, node.name, 'procedure');
  const given = node.arguments.map((name) => bindArgument(scope, name));
  if (node.name === undefined || callable === undefined) return undefined;
  if (scope.library.refused.has(node) || scope.doing.includes(callable)) return undefined;
  const locals = bindArguments(scope, node, callable, given);
  const place = placeOf(scope, node);
  const done = scope.crew.done ?? { name: callable.declared.name, place: placeOf(scope, node.name) };
  const inside: Scope = { work: scope.work, file: callable.file, locals };
  const body = bodyOf(callable.node);
  const inner: BodyScope = {
    ...scope,
    ...inside,
    crew: { ...scope.crew, done },
    labels: openBody(inside, body, scope.library.labelsOf(callable)),
    writtenOutAt: scope.writtenOutAt ?? place,
    doing: [...scope.doing, callable],
  };
  return {
    type: 'do',
    name: callable.declared.name,
    title: titleOf(inside, callable),
    callee: calleeOf(inside, callable.node),
    arguments: [...locals].flatMap(([name, { item, gauge }]) => {
      const thing = item ?? gauge;
      return thing ? [{ name, thing }] : [];
    }),
    body: scope.writesOut ? bindBody(inner, body) : [],
    place,
  };
}

function calleeOf(scope: Scope, node: syntax.Procedure | syntax.Card): Do['callee'] {
  if (node.type === 'procedure') return { type: 'procedure' };
  const number = node.fields.flatMap((field) =>
    field.type === 'number-field' && field.text ? [field.text.value] : [],
  )[0];
  const field = node.fields.find((one) => one.type === 'revision');
  const revision = field?.type === 'revision' ? bindRevision(scope, field) : undefined;
  return { type: 'card', number, ...(revision && { revision }), ...bindNeeds(scope, node.fields) };
}

// ---------------------------------------------------------------- arguments

function bindArgument(scope: Scope, name: syntax.Name): Thing | undefined {
  const thing = thingNamed(scope, name.text);
  if (thing) scope.work.references.use(name, scope.file, thing.declared);
  else reportUnknown(scope, name, 'item', [...scope.locals.keys(), ...scope.work.names.things.keys()]);
  return thing;
}

/** What each parameter stands for; one whose argument is missing or does not fit stands for nothing certain. */
function bindArguments(
  scope: BodyScope,
  node: syntax.Do,
  callable: Callable,
  given: readonly (Thing | undefined)[],
): ReadonlyMap<string, Thing> {
  const parameters = scope.library.parametersOf(callable);
  if (parameters.length !== given.length) reportCount(scope, node, callable, parameters);
  const locals = new Map<string, Thing>();
  for (const [index, parameter] of parameters.entries()) {
    const argument = node.arguments[index];
    const thing = given[index];
    const fits = argument && thing && argumentFits(scope, argument, thing, parameter);
    locals.set(
      parameter.declared.name,
      fits ? standIn(parameter, thing, placeOf(scope, argument)) : unsettled(parameter),
    );
  }
  return locals;
}

/** Inside, the argument goes by the parameter's name. */
function standIn(parameter: Parameter, { item, gauge, sort, argument }: Thing, place: Place): Thing {
  const { declared } = parameter;
  return { sort, declared, item, gauge, argument: argument ?? place };
}

function reportCount(scope: Scope, node: syntax.Do, callable: Callable, parameters: readonly Parameter[]): void {
  const { name } = callable.declared;
  const expected = parameters.map(({ declared }) => declared.name);
  const place = placeOf(scope, node);
  scope.work.problems.add({ type: 'argument-count', place, name, expected, found: node.arguments.length });
}

function argumentFits(scope: Scope, argument: syntax.Name, thing: Thing, parameter: Parameter): boolean {
  if (parameter.sort === 'parameter' || thing.sort === 'parameter') return true;
  const kind = parameter.item?.kind;
  const isOfKind = thing.item === undefined || kind === undefined || thing.item.kind === kind;
  if (thing.sort === parameter.sort && isOfKind) return true;
  scope.work.problems.add({
    type: 'argument-kind',
    place: placeOf(scope, argument),
    name: argument.text,
    parameter: parameter.declared.name,
    expected: kind?.name ?? parameter.sort,
    found: thing.item?.kind.name ?? thing.sort,
  });
  return false;
}
