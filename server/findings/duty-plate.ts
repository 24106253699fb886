import type { FindingSort } from './finding.ts';
import { problemsOf } from './support/problems.ts';

export const dutyPlate: FindingSort = {
  code: 'duty.plate',
  level: 'error',
  notUnderstood: true,
  title: 'What stands on the plate of a motor is not understood',
  help: {
    what: 'After “rated” stands a duty that is none of those known: "S1", "S2 30 min" with the rest after it, "S3 25 %" (of 10 min) or "S3 25 % 40 min", and "MG 10, 25 hp, 4-pole, 50 lb.ft2".',
    why: 'A duty that is not understood is not checked.',
    whatToDo: 'Write it in one of these forms, or say in words how long and how often the motor may run (“at most”).',
  },
  sources: [
    { title: 'IEC 60034-1: duty types S1 to S3', status: 'seen' },
    { title: 'NEMA MG 10, table 2-3: starts in an hour', status: 'seen' },
  ],
  examples: [
    {
      bad: `item hoist : motor "the hoist" normally stopped { duty running rated "S3 quarter" }
//                                                                   ^^^^^^^^^^^^ duty.plate`,
      good: `item hoist : motor "the hoist" normally stopped { duty running rated "S3 25 % 40 min" }`,
    },
  ],
  *inFile({ bound }) {
    for (const { place, text, reason } of problemsOf(bound, 'unknown-plate')) {
      const message =
        reason === 'rest'
          ? `“${text}” needs the time in which the motor is cold again. Write it after the plate: “, then rest 2 h”.`
          : `“${text}” is no duty that is known. Write "S1", "S2 30 min", "S3 25 % 10 min" or "MG 10, 25 hp, 4-pole, 50 lb.ft2", or the times themselves after “at most”.`;
      yield { place, message };
    }
  },
};
