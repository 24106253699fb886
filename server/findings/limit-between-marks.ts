import { boundWords, quantityWords } from '../../shared/quantity.ts';
import type { FindingSort } from './finding.ts';
import { faultsIn } from './support/faults.ts';

export const limitBetweenMarks: FindingSort = {
  code: 'limit.between-marks',
  level: 'warning',
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
      bad: `gauge pressure "wash pressure" in psi { reads 0 to 100 by 2 }
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure at least 41 psi
  //                 ^^^^^^^^^^^^^^^ limit.between-marks
}`,
      good: `gauge pressure "wash pressure" in psi { reads 0 to 100 by 2 }
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure at least 42 psi
}`,
    },
  ],
  ...faultsIn('between-marks', ({ gauge, bound }) => {
    const marks = gauge.reads?.by ? `every ${quantityWords({ value: gauge.reads.by, unit: gauge.unit })}` : 'elsewhere';
    return {
      message: `${boundWords(bound)} lies between two marks: ${gauge.label} is marked ${marks}. Take the next mark on the safe side.`,
    };
  }),
};
