import type { Gauge } from '../../shared/card.ts';
import { boundWords, quantityWords } from '../../shared/quantity.ts';
import type { FindingSort } from './finding.ts';
import { faultsIn } from './support/faults.ts';

export const limitOffScale: FindingSort = {
  code: 'limit.off-scale',
  level: 'error',
  reads: ['bounds'],
  notUnderstood: true,
  title: 'A bound that the gauge cannot show',
  help: {
    what: 'An end of a bound lies outside what the gauge “reads”.',
    why: 'Nobody can read it there: the figure or the unit is wrong, or it is another gauge.',
    whatToDo: 'Correct the figure or the unit, or the scale of the gauge.',
  },
  sources: [],
  examples: [
    {
      given: `gauge pressure "wash pressure" in psi { reads 0 to 100 by 2 }`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure at most 600 psi
  //                 ^^^^^^^^^^^^^^^ limit.off-scale
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure at most 60 psi
}`,
    },
  ],
  ...faultsIn('off-scale', ({ gauge, bound }) => ({
    message: `${gauge.label} ${boundWords(bound)} cannot be read: the gauge shows ${scaleWords(gauge)}. Correct the figure or its unit.`,
  })),
};

function scaleWords({ reads, unit }: Gauge): string {
  return reads ? `${quantityWords({ value: reads.from, unit })} to ${quantityWords({ value: reads.to, unit })}` : '';
}
