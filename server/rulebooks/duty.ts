import text from './duty.card';
import type { Rulebook } from './rulebook.ts';

export const duty: Rulebook = {
  name: 'std:duty',
  text,
  about:
    'How long and how often a motor may run, from its plate: S1, S2 and S3 of IEC 60034-1, and the starts in an hour of NEMA MG 10, table 2-3. After S2 stands the time in which the motor is cold again, which the plate does not say. S3 is one run and one rest in each cycle; a cycle that is not given is 10 min (from memory). S4 to S10 are not known.',
  good: `item hoist : motor "the hoist"  normally stopped {
  duty running rated "S3 25 % 40 min"
}

card lift "Lift the gate" {
  number   "H-1"
  revision "A" on 2026-03-02
  crew     fitter "Fitter"

  step by fitter  run hoist running for 10 min
  step by fitter  wait 30 min
  step by fitter  run hoist running for 10 min
}
`,
  findings: ['duty.plate', 'duty.too-long', 'duty.short-rest', 'duty.too-often'],
};
