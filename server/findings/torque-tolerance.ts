import type { FindingSort } from './finding.ts';
import { actionsIn } from './support/card.ts';

export const torqueTolerance: FindingSort = {
  code: 'torque.tolerance',
  level: 'warning',
  title: 'A torque without a tolerance',
  help: {
    what: 'A card that uses “std:hand-tools” tightens something to one exact torque.',
    why: 'No wrench shows one value twice. Whoever reads 24.6 N·m must know whether that is right.',
    whatToDo: 'Write how far it may be off (“to 25 N.m +/- 2 N.m”), or from where to where (“to 23 N.m to 27 N.m”).',
  },
  sources: [],
  examples: [
    {
      given: 'use "std:hand-tools"',
      bad: `card lid "Lid" {
  number "1" revision "A" crew fitter "Fitter"
  tools "Torque wrench 5 to 50 N·m" calibrated
  step tighten "the lid bolts" to 25 N.m
  //                              ^^^^^^ torque.tolerance
}`,
      good: `card lid "Lid" {
  number "1" revision "A" crew fitter "Fitter"
  tools "Torque wrench 5 to 50 N·m" calibrated
  step tighten "the lid bolts" to 25 N.m +/- 2 N.m
}`,
    },
  ],
  *inFile({ bound }) {
    if (!bound.files.includes('std:hand-tools')) return;
    const torques = bound.cards
      .flatMap(({ body }) => [...actionsIn(body)])
      .flatMap((action) => (action.type === 'tighten' && action.torque ? [action.torque] : []));
    // Each once, whatever the number of rounds it is written out for.
    for (const { place } of new Map(
      torques.filter(({ form, tolerance }) => form === 'exactly' && !tolerance).map((one) => [one.place.start, one]),
    ).values())
      yield { place, message: 'How far may this torque be off? Write it behind the value: “+/- 2 N.m”.' };
  },
};
