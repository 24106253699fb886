/** Conditions: each name in them bound; what has a problem of its own becomes `open`. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Condition, Gauge, Supply } from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import {
  findIn,
  findItemInState,
  findKind,
  findState,
  findThing,
  inWords,
  type LimitEntry,
  placeOf,
  reportUnknown,
  type Scope,
  scopeFor,
  type Thing,
} from './names.ts';
import { bindBound, bindDuration } from './quantities.ts';

/** A condition that is not written yet is `open` too; `at` is then its place. */
export function bindCondition(scope: Scope, node: syntax.Condition | undefined, at: Place): Condition {
  if (node === undefined) return { type: 'open', place: at };
  const place = placeOf(scope, node);
  switch (node.type) {
    case 'or':
    case 'and':
      return { type: node.type, terms: node.terms.map((term) => bindCondition(scope, term, place)), place };
    case 'not':
      return { type: 'not', term: bindCondition(scope, node.term, place), place };
    case 'group':
      return bindCondition(scope, node.inner, place);
    case 'state-term':
      return (node.quantifier ? bindQuantified(scope, node) : bindStateTerm(scope, node)) ?? { type: 'open', place };
    case 'bound-term':
      return bindReading(scope, findThing(scope, node.gauge, 'gauge'), { bound: node.bound }, place);
    case 'limit-term':
      return bindReading(scope, findThing(scope, node.gauge, 'gauge'), { limit: node.limit }, place);
    case 'reaches-term':
      return bindReaches(scope, node) ?? { type: 'open', place };
    case 'any-reaches-term':
      return bindAnyReaches(scope, node.node, place) ?? { type: 'open', place };
    case 'broken':
      return { type: 'open', place };
  }
}

/** Undefined where the time that is asked for has a problem of its own; its `lasting` is where none is asked. */
function bindLasting(scope: Scope, { lasting }: syntax.StateTerm) {
  if (lasting === undefined) return { lasting: undefined };
  const duration = bindDuration(scope, lasting.duration);
  return duration && { lasting: { form: lasting.form, duration } };
}

function bindStateTerm(scope: Scope, node: syntax.StateTerm): Condition | undefined {
  const subject = findItemInState(scope, node.subject, node.state);
  const time = bindLasting(scope, node);
  if (subject === undefined || time === undefined) return undefined;
  const { item, state } = subject;
  return { type: 'state', item, state, lasting: time.lasting, place: placeOf(scope, node) };
}

/** `any KIND STATE` holds for one item of the kind or more, `every KIND STATE` for each; of no items the first is never and the second always so. */
function bindQuantified(scope: Scope, node: syntax.StateTerm): Condition | undefined {
  const kind = findKind(scope, node.subject)?.kind;
  const time = bindLasting(scope, node);
  if (kind === undefined) return undefined;
  const state = findState(scope, kind, node.state, inWords(kind.name));
  if (state === undefined || time === undefined) return undefined;
  const place = placeOf(scope, node);
  scope.work.takenWhole.add(kind);
  const items = scope.work.names.itemsOf.get(kind) ?? [];
  const terms = items.map((item): Condition => ({ type: 'state', item, state, lasting: time.lasting, place }));
  const quantifier = node.quantifier ?? 'any';
  const written: Condition = { type: quantifier === 'any' ? 'or' : 'and', terms, place };
  return { type: 'quantified', quantifier, kind, state, written, place };
}

function bindReaches(scope: Scope, node: Extract<syntax.Condition, { type: 'reaches-term' }>): Condition | undefined {
  const thing = findThing(scope, node.supply, 'supply');
  const supply = thing?.supply;
  const index = supply && findNode(scopeFor(scope, thing), supply, node.node);
  return supply === undefined || index === undefined
    ? undefined
    : { type: 'reaches', supply, node: index, place: placeOf(scope, node) };
}

/** Whether anything feeds a node, whatever it is fed with. That nothing at all leads there is no isolation: nobody has drawn what does. */
function bindAnyReaches(scope: Scope, name: syntax.Name | undefined, place: Place): Condition | undefined {
  if (name === undefined) return undefined;
  const { references, names, problems } = scope.work;
  const local = scope.locals.get(name.text);
  if (local && (local.item?.id ?? -1) < 0) return undefined;
  const wanted = local?.item?.name ?? name.text;
  const found = [...names.nodes].flatMap(([supply, nodes]) => {
    const entry = nodes.get(wanted);
    return entry ? [{ supply, entry }] : [];
  });
  const first = found[0]?.entry.declared;
  const declared = local?.declared ?? first;
  if (declared) references.use(name, scope.file, declared);
  if (first === undefined && local?.item) {
    const { label, place: itsPlace } = local.item;
    problems.add({ type: 'on-no-supply', place: itsPlace, name: local.item.name, label, asks: place });
  } else if (first === undefined) {
    reportUnknown(scope, name, 'node', new Set([...names.nodes.values()].flatMap((nodes) => [...nodes.keys()])));
  }
  if (first === undefined) return undefined;
  for (const { supply } of found) scope.work.takenWhole.add(supply);
  const terms = found.map(({ supply, entry }): Condition => ({ type: 'reaches', supply, node: entry.index, place }));
  return terms.length === 1 ? terms[0] : { type: 'or', terms, place };
}

/** The index of a node; an item that is a node may stand there as a parameter. */
function findNode(scope: Scope, supply: Supply, name: syntax.Name | undefined): number | undefined {
  if (name === undefined) return undefined;
  const nodes = scope.work.names.nodes.get(supply);
  const local = scope.locals.get(name.text);
  if (local === undefined) return findIn(scope, nodes, name, 'node', supply.label)?.index;
  scope.work.references.use(name, scope.file, local.declared);
  const { item } = local;
  if (item && !nodes?.has(item.name))
    reportUnknown(scopeFor(scope, local), name, 'node', nodes?.keys() ?? [], supply.label);
  return item && nodes?.get(item.name)?.index;
}

// ---------------------------------------------------------------- readings

/** What a gauge is asked for: a bound that is written out, or one of its limits. */
export interface Asked {
  readonly bound?: syntax.BoundNode;
  readonly limit?: syntax.Name;
}

/** What `thing` is asked for, as a condition; `open` where the thing is unknown, or stands for no certain gauge. */
export function bindReading(scope: Scope, thing: Thing | undefined, asked: Asked, place: Place): Condition {
  const open: Condition = { type: 'open', place };
  const gauge = thing?.gauge;
  if (gauge === undefined) return open;
  if (asked.bound) {
    const bound = bindBound(scopeFor(scope, thing), asked.bound, gauge);
    return bound ? { type: 'bound', gauge, bound, place } : open;
  }
  const limit = asked.limit && findLimit(scopeFor(scope, thing), gauge, asked.limit)?.limit;
  return limit && (limit.bound || limit.by) ? { type: 'limit', gauge, limit, place } : open;
}

export function findLimit(scope: Scope, gauge: Gauge, name: syntax.Name): LimitEntry | undefined {
  return findIn(scope, scope.work.names.limits.get(gauge), name, 'limit', gauge.label);
}
