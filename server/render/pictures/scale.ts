/** A gauge's scale with the limit on it: seen at a glance, which side of the pointer is good. */
import type { Element } from 'hast';
import { s } from 'hastscript';
import type { Bound, Condition, Gauge } from '../../../shared/card.ts';
import { decimal, type Exact } from '../../../shared/exact.ts';
import { fromBase } from '../../../shared/quantity.ts';
import type { Speech } from '../context.ts';
import { boundText, senseOf } from '../sentences/bounds.ts';
import { picture, textBlock, tidy } from './svg.ts';

const width = 240;
const margin = 22;
const lineAt = 14;
const height = 38;

/** Undefined where the gauge's scale is not known, or the limit depends on something else. */
export function gaugeScale(gauge: Gauge, asked: Condition, context: Speech): Element | undefined {
  const bound = boundOf(asked);
  if (gauge.reads === undefined || bound === undefined) return undefined;
  const { from, to } = gauge.reads;
  const at = (value: Exact) => margin + (width - 2 * margin) * clamp(value.sub(from).div(to.sub(from)).valueOf());
  const ends = [bound.interval.low, bound.interval.high].map(
    (end) => end && fromBase(end.value, gauge.unit, senseOf(gauge)),
  );
  const [low, high] = ends;
  const left = low ? at(low) : margin;
  const right = high ? at(high) : width - margin;
  const marks = [from, to, low, high].filter((value): value is Exact => value !== undefined);
  return picture('scale', width, height, description(gauge, bound, context), [
    s('path', { className: ['scale-line'], d: `M${margin} ${lineAt}H${width - margin}` }),
    s('rect', {
      className: ['band'],
      x: tidy(left),
      y: lineAt - 5,
      width: tidy(Math.max(right - left, 2)),
      height: 10,
    }),
    ...marks.map((value) => s('path', { className: ['mark'], d: `M${tidy(at(value))} ${lineAt - 8}v16` })),
    ...labels(marks, at, gauge, context),
  ]);
}

function boundOf(asked: Condition): Bound | undefined {
  if (asked.type === 'bound') return asked.bound;
  return asked.type === 'limit' ? asked.limit.bound : undefined;
}

function clamp(part: number): number {
  return Math.min(1, Math.max(0, part));
}

/** The ends of the limit are always named, those of the scale where there is room left for them. */
function labels(marks: readonly Exact[], at: (value: Exact) => number, gauge: Gauge, { words }: Speech): Element[] {
  const taken: { from: number; to: number }[] = [];
  return [...marks].reverse().flatMap((value, index) => {
    const text =
      decimal(value).replace('.', words.grammar.decimalPoint) + (index === 0 ? ` ${gauge.unit.printed}` : '');
    const half = (text.length * 5.6) / 2 + 3;
    const x = Math.min(width - half, Math.max(half, at(value)));
    if (taken.some((other) => x - half < other.to && other.from < x + half)) return [];
    taken.push({ from: x - half, to: x + half });
    return [textBlock([text], x, lineAt + 17)];
  });
}

function description(gauge: Gauge, bound: Bound, context: Speech): string {
  const { from, to } = gauge.reads ?? {};
  const end = (value: Exact | undefined) => (value ? decimal(value) : '');
  return context.words.picture.scale(
    gauge.label,
    end(from),
    `${end(to)} ${gauge.unit.printed}`,
    boundText(bound, gauge, context),
  );
}
