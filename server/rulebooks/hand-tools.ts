import text from './hand-tools.card';
import type { Rulebook } from './rulebook.ts';

export const handTools: Rulebook = {
  name: 'std:hand-tools',
  text,
  about:
    'Torques: each with its tolerance, with a calibrated tool, in passes whose values rise to the torque that is wanted. The words for a torque, a pattern, a table of values, a part with its batch and a tool that is calibrated are those of the language; a table has one row for each position. The number of a calibrated tool, and the day on which it is due, are written down before the work; the work copy holds the day against that of the work, then and whenever the tool is used, and tells of a tool that was not written down. Common practice, without a published source.',
  good: `use "std:hand-tools"

card close-lid "Close the lid" {
  number   "L-1"
  revision "A" on 2026-03-02
  crew     fitter "Fitter"
  tools    "Torque wrench 5 to 50 N·m" calibrated

  for each pass in 10, 18, 25 N.m {
    step tighten "the eight lid bolts" to pass +/- 1 N.m in "a star pattern"
  }
}
`,
  findings: ['torque.passes', 'torque.tolerance', 'torque.tool', 'name.duplicate'],
};
