import type { Gauge } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import { boundWords, quantityWords } from '../../shared/quantity.ts';
import type { Quantity } from '../../shared/units.ts';
import type { FindingSort } from './finding.ts';
import { replace } from './support/edits.ts';
import { faultsIn } from './support/faults.ts';
import type { MeasuredBound } from './support/limits.ts';

export const limitBetweenMarks: FindingSort = {
  code: 'limit.between-marks',
  level: 'warning',
  reads: ['bounds'],
  title: 'A bound between two marks of the gauge',
  help: {
    what: 'An end of a bound, in the unit of the gauge, lies on none of its marks.',
    why: 'The reader must guess where the needle should stand.',
    whatToDo: 'Take the next mark on the safe side: up for a least value, down for a greatest.',
  },
  sources: [
    {
      title: "DOE-STD-1029-92, Writer's Guide for Technical Procedures: units and precision as on the gauge",
      status: 'from memory',
    },
  ],
  examples: [
    {
      given: `gauge pressure "wash pressure" in psi { reads 0 to 100 by 2 }`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure at least 41 psi
  //                 ^^^^^^^^^^^^^^^ limit.between-marks
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure at least 42 psi
}`,
    },
  ],
  ...faultsIn('between-marks', (measured) => ({
    message: `${boundWords(measured.bound)} lies between two marks: ${marksWords(measured.gauge)}. Take the next mark on the safe side.`,
    fixes: onMarks(measured),
  })),
};

function marksWords({ label, reads, unit }: Gauge): string {
  return `${label} shows marks every ${reads?.by ? quantityWords({ value: reads.by, unit }) : ''}`;
}

/** A least value goes up to the next mark, a greatest down. */
function onMarks({ gauge, bound }: MeasuredBound): Fix[] {
  if (bound.form === 'exactly') return [];
  const low = bound.low && onMark(bound.low, gauge, 'up');
  const high = bound.high && onMark(bound.high, gauge, 'down');
  const moved = boundWords({ ...bound, ...(low && { low }), ...(high && { high }) }, 'symbol');
  return [{ title: `Change to ${moved}`, edits: [replace(bound.place, moved)] }];
}

function onMark(end: Quantity, { reads, unit }: Gauge, to: 'up' | 'down'): Quantity {
  if (!reads?.by || end.unit !== unit) return end;
  const steps = end.value.sub(reads.from).div(reads.by);
  const whole = to === 'up' ? steps.ceil() : steps.floor();
  return { value: whole.mul(reads.by).add(reads.from), unit };
}
