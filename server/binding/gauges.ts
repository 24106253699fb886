/** Gauges and their limits. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Bound, Gauge, Item, Limit } from '../../shared/card.ts';
import { exact } from '../../shared/exact.ts';
import type { Found } from './declare.ts';
import { reportSecond } from './duplicates.ts';
import {
  type Building,
  findItem,
  findThing,
  inWords,
  type LimitEntry,
  placeOf,
  type Scope,
  type Work,
} from './names.ts';
import { Once } from './once.ts';
import { bindBound, bindUnit, reportNumber } from './quantities.ts';

type GaugeInMaking = Omit<Building<Gauge>, 'limits'> & { limits: Limit[] };

interface Made {
  readonly gauge: GaugeInMaking;
  readonly found: Found<syntax.Gauge>;
}

/** Gauges with their differences first, so that limits know whether they are differences of temperature. */
export function bindGauges(work: Work, found: readonly Found<syntax.Gauge>[]): readonly Gauge[] {
  const made: Made[] = [];
  for (const each of found) {
    const gauge = bindGauge(each, made.length);
    work.names.things.set(each.declared.name, { sort: 'gauge', declared: each.declared, gauge });
    if (gauge) made.push({ gauge, found: each });
  }
  for (const each of made) addDifference(each);
  for (const each of made) addParts(each);
  return made.map(({ gauge }) => gauge);
}

/** Undefined where it has no known unit: no bound can then be measured. */
function bindGauge({ scope, node, declared }: Found<syntax.Gauge>, id: number): GaugeInMaking | undefined {
  const unit = bindUnit(scope, node.unit);
  if (unit === undefined) return undefined;
  const label = node.label?.value ?? inWords(declared.name);
  return { id, name: declared.name, label, unit, at: node.at?.value, limits: [], place: declared.place };
}

// ---------------------------------------------------------------- differences

function addDifference({ gauge, found: { scope, node } }: Made): void {
  if (node.difference === undefined) return;
  const { left, sign, right } = node.difference;
  const leftGauge = findOperand(scope, gauge, left);
  const rightGauge = right && findOperand(scope, gauge, right);
  if (!leftGauge || !rightGauge) return;
  if (dependsOn(leftGauge, gauge) || dependsOn(rightGauge, gauge)) {
    const through = [gauge.name, dependsOn(leftGauge, gauge) ? leftGauge.name : rightGauge.name, gauge.name];
    scope.work.problems.add({ type: 'recursion', place: gauge.place, name: gauge.name, sort: 'gauge', through });
    return;
  }
  gauge.difference = { left: leftGauge, sign, right: rightGauge };
}

function findOperand(scope: Scope, gauge: Gauge, name: syntax.Name): Gauge | undefined {
  const operand = findThing(scope, name, 'gauge')?.gauge;
  if (operand === undefined || operand.unit.dimension === gauge.unit.dimension) return operand;
  scope.work.problems.add({
    type: 'unit-mismatch',
    place: placeOf(scope, name),
    found: operand.unit,
    expected: gauge.unit.dimension,
    needed: gauge.unit,
    of: gauge.label,
  });
  return undefined;
}

function dependsOn(gauge: Gauge, other: Gauge): boolean {
  if (gauge === other) return true;
  return (
    gauge.difference !== undefined &&
    (dependsOn(gauge.difference.left, other) || dependsOn(gauge.difference.right, other))
  );
}

// ---------------------------------------------------------------- scale, limits, what moves it

function addParts({ gauge, found }: Made): void {
  const { scope, node } = found;
  const once = new Once(scope);
  const limits = new Map<string, LimitEntry>();
  scope.work.names.limits.set(gauge, limits);
  for (const part of node.parts) {
    if (part.type === 'limit') addLimit(found, gauge, limits, part);
    else if (part.type === 'reads' && once.take('reads', part)) gauge.reads = bindReads(scope, part);
    else if (part.type === 'moved' && once.take('moved by', part)) gauge.movedBy = movers(scope, part.by);
  }
}

function movers(scope: Scope, names: readonly syntax.Name[]): Item[] {
  return names.map((name) => findItem(scope, name)).filter((item) => item !== undefined);
}

function bindReads(scope: Scope, node: syntax.Reads): Gauge['reads'] {
  if (node.from === undefined || node.to === undefined) return undefined;
  const from = exact(node.from.text);
  const to = exact(node.to.text);
  const by = node.by && exact(node.by.text);
  if (from.compare(to) >= 0) {
    reportNumber(scope, node.to, 'scale in the wrong order', node.to.text);
    return undefined;
  }
  const hasMarks = by !== undefined && by.compare(0) > 0;
  if (node.by && !hasMarks) reportNumber(scope, node.by, 'marks not above zero', node.by.text);
  return { from, to, by: hasMarks ? by : undefined, place: placeOf(scope, node) };
}

function addLimit(
  found: Found<syntax.Gauge>,
  gauge: GaugeInMaking,
  limits: Map<string, LimitEntry>,
  node: syntax.Limit,
): void {
  const { scope, declared } = found;
  if (node.name === undefined) return;
  const first = limits.get(node.name.text)?.declared;
  if (first) {
    reportSecond(scope, node.name, 'limit', first);
    return;
  }
  const bound = node.bound && bindBound(scope, node.bound, gauge);
  const by = bindRows(scope, gauge, node);
  const limit: Limit = {
    name: node.name.text,
    gauge,
    place: placeOf(scope, node.name),
    bound,
    by,
    ...(node.source && { source: node.source.value }),
  };
  gauge.limits.push(limit);
  limits.set(limit.name, { declared: scope.work.references.declare('limit', node.name, scope.file, declared), limit });
}

/** Undefined where a row has a problem of its own: nothing is then known of the others together. */
function bindRows(scope: Scope, gauge: Gauge, node: syntax.Limit): Limit['by'] {
  const selector = node.byGauge && findThing(scope, node.byGauge, 'gauge')?.gauge;
  if (selector === undefined) return undefined;
  const rows: { when: Bound; bound: Bound }[] = [];
  for (const row of node.rows) {
    const when = bindBound(scope, row.when, selector);
    const bound = row.bound && bindBound(scope, row.bound, gauge);
    if (when && bound) rows.push({ when, bound });
  }
  return rows.length === node.rows.length && rows.length > 0 ? { gauge: selector, rows } : undefined;
}
