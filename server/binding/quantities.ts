/** Units, quantities, times and bounds: from the text to exact numbers. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Bound, Gauge, Seconds, TimeSpan } from '../../shared/card.ts';
import { type Exact, exact, isNegative } from '../../shared/exact.ts';
import type { Interval } from '../../shared/interval.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { durationWords, numberToBase, type Sense, senseOf, toBase } from '../../shared/quantity.ts';
import type { Place } from '../../shared/text.ts';
import { type Dimension, findUnit, type Quantity, type Unit } from '../../shared/units.ts';
import { findThing, placeOf, type Scope } from './names.ts';
import { nearestUnits } from './nearest.ts';
import type { BadNumber } from './problems.ts';

export function bindUnit(scope: Scope, node: syntax.UnitNode | undefined): Unit | undefined {
  if (node === undefined) return undefined;
  const unit = findUnit(node.text);
  if (unit === undefined) {
    scope.work.problems.add({
      type: 'unknown-unit',
      place: placeOf(scope, node),
      text: node.text,
      near: nearestUnits(node.text),
    });
  }
  return unit;
}

/** What a quantity has to be: a dimension, and where it is a gauge that asks for it, which. */
export interface Needed {
  readonly dimension: Dimension;
  readonly unit?: Unit;
  readonly of?: string;
}

const time: Needed = { dimension: 'time' };

/** The quantity, if its unit is one and of the needed dimension. `unitFrom` gives the unit where the quantity has none of its own. */
export function bindQuantity(
  scope: Scope,
  node: syntax.QuantityNode | undefined,
  needed: Needed,
  unitFrom?: syntax.UnitNode,
): Quantity | undefined {
  const quantity = bindValue(scope, node, unitFrom);
  if (node === undefined || quantity === undefined) return undefined;
  if (quantity.unit.dimension === needed.dimension) return quantity;
  scope.work.problems.add({
    type: 'unit-mismatch',
    place: placeOf(scope, node.name ?? node.unit ?? unitFrom ?? node),
    found: quantity.unit,
    expected: needed.dimension,
    needed: needed.unit,
    of: needed.of,
  });
  return undefined;
}

/** A quantity of whatever dimension, or the one that a name stands for. */
export function bindValue(
  scope: Scope,
  node: syntax.QuantityNode | undefined,
  unitFrom?: syntax.UnitNode,
): Quantity | undefined {
  if (node?.name) {
    const thing = findThing(scope, node.name, 'value');
    return thing?.isGuess ? undefined : thing?.value;
  }
  const unit = bindUnit(scope, node?.unit ?? unitFrom);
  return node?.number && unit && quantityOf(scope, node.number.text, unit);
}

/** One object for each number with its unit, however often it is written. Zeros at the end say how fine the number is meant. */
function quantityOf({ work }: Scope, text: string, unit: Unit): Quantity {
  return getOrInsert(work.quantities, `${text} ${unit.symbol}`, () => {
    const point = text.indexOf('.');
    const places = point >= 0 && text.endsWith('0') ? text.length - point - 1 : undefined;
    return { value: exact(text), unit, places };
  });
}

export function reportNumber(scope: Scope, span: syntax.SyntaxNode, what: BadNumber, written: string): void {
  scope.work.problems.add({ type: 'bad-number', place: placeOf(scope, span), what, written });
}

/** Its number, or the name of a value. */
function writtenIn(node: syntax.QuantityNode | undefined): string {
  return node?.number?.text ?? node?.name?.text ?? '';
}

/** A whole number of at least one. */
export function bindCount(scope: Scope, node: syntax.NumberNode | undefined, tooFew: BadNumber): number | undefined {
  if (node === undefined) return undefined;
  const value = Number(node.text);
  if (Number.isSafeInteger(value) && value >= 1) return value;
  const wrong = Number.isInteger(value) ? tooFew : 'no whole number';
  reportNumber(scope, node, value > Number.MAX_SAFE_INTEGER ? 'counts too many' : wrong, node.text);
  return undefined;
}

// ---------------------------------------------------------------- time

/** Seconds: a hundred years. The proof counts time in whole parts of the shortest, which must stay numbers. */
const longestTime = exact(100 * 366 * 24 * 3600);
const partsOfSecond = exact(1_000_000);

export function bindDuration(scope: Scope, node: syntax.DurationNode | undefined): Seconds | undefined {
  if (node === undefined) return undefined;
  let total: Exact | undefined;
  for (const part of node.parts) {
    const quantity = bindQuantity(scope, part, time);
    if (quantity === undefined) return undefined;
    if (isNegative(quantity.value)) {
      reportNumber(scope, node, 'negative time', writtenIn(part));
      return undefined;
    }
    total = total ? total.add(toBase(quantity)) : toBase(quantity);
  }
  if (!total || (total.compare(longestTime) <= 0 && total.mul(partsOfSecond).d === 1n)) return total;
  reportNumber(scope, node, 'time out of reach', writtenIn(node.parts[0]));
  return undefined;
}

export function bindSpan(
  scope: Scope,
  node: syntax.SpanNode | undefined,
): (TimeSpan & { readonly place: Place }) | undefined {
  const least = bindDuration(scope, node?.low);
  if (node === undefined || least === undefined) return undefined;
  const place = placeOf(scope, node);
  if (node.form === 'at least') return { least, place };
  if (node.form === 'exact') return { least, most: least, place };
  const most = bindDuration(scope, node.high);
  if (most === undefined) return undefined;
  if (most.compare(least) >= 0) return { least, most, place };
  reportNumber(scope, node, 'times in the wrong order', `${durationWords(least)} to ${durationWords(most)}`);
  return undefined;
}

// ---------------------------------------------------------------- bounds

/** Undefined where its unit or tolerance has a problem of its own. */
export function bindBound(scope: Scope, node: syntax.BoundNode, gauge: Gauge): Bound | undefined {
  const needed: Needed = { dimension: gauge.unit.dimension, unit: gauge.unit, of: gauge.label };
  return bindBoundOf(scope, node, needed, senseOf(gauge));
}

export function bindBoundOf(
  scope: Scope,
  node: syntax.BoundNode,
  needed: Needed,
  sense: Sense = 'value',
): Bound | undefined {
  const place = placeOf(scope, node);
  switch (node.form) {
    case 'range': {
      const low = bindQuantity(scope, node.low, needed, node.high?.unit);
      const high = low && bindQuantity(scope, node.high, needed);
      return low && high && { form: node.form, low, high, interval: closed(low, high, sense), place };
    }
    case 'exactly':
      return bindExactly(scope, node, needed, sense);
    default: {
      const quantity = bindQuantity(scope, node.quantity, needed);
      return quantity && oneSided(node.form, quantity, sense, place);
    }
  }
}

function oneSided(
  form: 'at least' | 'at most' | 'above' | 'below',
  quantity: Quantity,
  sense: Sense,
  place: Place,
): Bound {
  const end = { value: toBase(quantity, sense), open: form === 'above' || form === 'below' };
  return form === 'at least' || form === 'above'
    ? { form, low: quantity, interval: { low: end }, place }
    : { form, high: quantity, interval: { high: end }, place };
}

function closed(low: Quantity, high: Quantity, sense: Sense): Interval {
  return { low: { value: toBase(low, sense), open: false }, high: { value: toBase(high, sense), open: false } };
}

function bindExactly(
  scope: Scope,
  node: Extract<syntax.BoundNode, { form: 'exactly' }>,
  needed: Needed,
  sense: Sense,
): Bound | undefined {
  const exactly = bindQuantity(scope, node.quantity, needed);
  if (exactly === undefined) return undefined;
  const place = placeOf(scope, node);
  if (node.tolerance === undefined) {
    return { form: 'exactly', exactly, low: exactly, high: exactly, interval: closed(exactly, exactly, sense), place };
  }
  const tolerance = bindQuantity(scope, node.tolerance, needed, node.quantity?.unit);
  if (tolerance === undefined) return undefined;
  if (isNegative(tolerance.value)) {
    reportNumber(scope, node.tolerance, 'negative tolerance', writtenIn(node.tolerance));
    return undefined;
  }
  const { low, high } = around(exactly, tolerance);
  return { form: 'exactly', exactly, tolerance, low, high, interval: closed(low, high, sense), place };
}

/** The two ends in the unit of the value; a tolerance of temperature is a difference. */
function around({ value, unit }: Quantity, tolerance: Quantity): { low: Quantity; high: Quantity } {
  const reach: Exact = numberToBase(tolerance.value, tolerance.unit, 'difference').div(unit.factor);
  return { low: { value: value.sub(reach), unit }, high: { value: value.add(reach), unit } };
}
