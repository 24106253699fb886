/** Bounds as they are said on a card, each in the writer's unit and, rounded inward, in the reader's second one. */
import type { Bound, Gauge } from '../../../shared/card.ts';
import { type Ends, quantityWords, roundedInward, roundedNearest, type Sense } from '../../../shared/quantity.ts';
import { counterpart, type Quantity } from '../../../shared/units.ts';
import type { Speech } from '../context.ts';
import type { FixedWords } from '../language/words.ts';

type Form = Exclude<Bound['form'], 'exactly'>;

/** What is measured: of a gauge that shows a difference of temperatures the unit has no zero. */
type Measured = Pick<Gauge, 'difference'>;

/** `at least 40 psi (276 kPa)`. The gauge says whether a temperature is a difference. */
export function boundText(bound: Bound, gauge: Measured, context: Speech): string {
  const second = secondText(bound, gauge, context);
  const first = firstText(bound, context.words);
  return second === undefined ? first : `${first} (${second})`;
}

/** `25 N·m ± 2 N·m (18 lbf·ft to 19 lbf·ft)`; without a tolerance just the value. */
export function settingText(bound: Bound, context: Speech): string {
  const text = boundText(bound, {}, context);
  if (bound.exactly === undefined || bound.tolerance) return text;
  const { words } = context;
  return text.replace(
    words.grammar.exactly(quantityText(bound.exactly, words), undefined),
    quantityText(bound.exactly, words),
  );
}

function firstText(bound: Bound, words: FixedWords): string {
  if (bound.form !== 'exactly') return endsText(bound, bound.form, words);
  const tolerance = bound.tolerance && quantityText(bound.tolerance, words);
  return words.grammar.exactly(bound.exactly ? quantityText(bound.exactly, words) : '', tolerance);
}

/** Undefined where the reader has no other unit for it, or where no number is left between the rounded ends. */
function secondText(bound: Bound, gauge: Measured, { words, input }: Speech): string | undefined {
  const system = input.settings.secondUnits;
  const from = (bound.low ?? bound.high ?? bound.exactly)?.unit;
  const unit = from && system !== 'none' ? counterpart(from, system) : undefined;
  if (unit === undefined) return undefined;
  const sense = senseOf(gauge);
  if (bound.exactly && !bound.tolerance)
    return words.grammar.about(quantityText(roundedNearest(bound.exactly, unit, sense), words));
  const ends = roundedInward(bound, unit, sense);
  if (ends === undefined) return undefined;
  const only = ends.low === undefined || ends.high === undefined ? (ends.low ?? ends.high) : undefined;
  return only ? quantityText(only, words) : endsText(ends, 'range', words);
}

/** A gauge that shows a difference of two temperatures is converted without the offset of the scales. */
export function senseOf(gauge: Measured): Sense {
  return gauge.difference ? 'difference' : 'value';
}

export function quantityText(quantity: Quantity, words: FixedWords): string {
  return quantityWords(quantity).replaceAll('.', words.grammar.decimalPoint).replace(/^-/, '−');
}

function endsText({ low, high }: Ends, form: Form, words: FixedWords): string {
  const { grammar } = words;
  const text = (quantity: Quantity | undefined) => (quantity ? quantityText(quantity, words) : '');
  switch (form) {
    case 'at least':
      return grammar.atLeast(text(low));
    case 'above':
      return grammar.above(text(low));
    case 'at most':
      return grammar.atMost(text(high));
    case 'below':
      return grammar.below(text(high));
    case 'range':
      return rangeText(low, high, words);
  }
}

/** `40 to 60 psi`; where the lower end is below zero each end has its sign and its unit: `−4 % to +4 %`. */
function rangeText(low: Quantity | undefined, high: Quantity | undefined, words: FixedWords): string {
  const text = (quantity: Quantity | undefined) => (quantity ? quantityText(quantity, words) : '');
  if (low && low.value.compare(0) < 0)
    return words.grammar.range(text(low), high && high.value.compare(0) > 0 ? `+${text(high)}` : text(high));
  return words.grammar.range(low && low.unit === high?.unit ? withoutUnit(low, words) : text(low), text(high));
}

function withoutUnit(quantity: Quantity, words: FixedWords): string {
  return quantityText(quantity, words).slice(0, -quantity.unit.printed.length).trimEnd();
}
