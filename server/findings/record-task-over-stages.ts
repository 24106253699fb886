import type { FindingSort } from './finding.ts';
import { handledItems } from './support/hands.ts';
import { type FoundInCall, foundOnMachines } from './support/machines.ts';
import { type Begun, type Followed, reachingOverStages } from './support/reaching.ts';

export const recordTaskOverStages: FindingSort = {
  code: 'record.task-over-stages',
  level: 'warning',
  reads: ['proof'],
  title: 'A critical task is open where a stage ends',
  help: {
    what: 'A critical task (“std:record”) is done in one stage, and a path goes on to another one before it is inspected.',
    why: 'Work may stop where a stage ends: another shift goes on, and finds a task that looks done and that nobody has inspected.',
    whatToDo: 'Inspect the task in the stage in which it is done, or draw the stages otherwise.',
  },
  sources: [
    {
      title: 'UK 145.A.45(e) and its guidance: stages are the points at which work can be interrupted',
      status: 'seen',
    },
  ],
  examples: [
    {
      given: 'use "std:record"\nitem pin : critical-task "the locking pin"',
      bad: `card lock "Lock" {
  number "1" revision "A" on 2026-03-02 crew fitter "Fitter", mate "Mate"
  references "Manual of the lock, 4-1"
  stage "Fit the pin" {
    step by fitter set pin done
    //                 ^^^^^^^^ record.task-over-stages
  }
  stage "Look at it" {
    step by mate set pin inspected
  }
}`,
      good: `card lock "Lock" {
  number "1" revision "A" on 2026-03-02 crew fitter "Fitter", mate "Mate"
  references "Manual of the lock, 4-1"
  stage "Fit the pin" {
    step by fitter set pin done
    step by mate set pin inspected
  }
}`,
    },
  ],
  inCard({ card, proof }) {
    const all = [...handledItems(card, 'std:record')];
    const over = reachingOverStages(proof, card, all, tasks);
    return foundOnMachines(card, (_, machines) => over(machines).map(told));
  },
};

const tasks: Followed = {
  begins: ({ kind, becomes }) => kind === 'critical-task' && becomes === 'done',
  ends: ({ item, becomes }, done) => item === done.item && becomes !== 'done',
};

function told({ item, place, call }: Begun): FoundInCall {
  return {
    place,
    call,
    message: `The stage ends with ${item.label} done and not inspected, and work may stop there. Inspect it before the stage ends.`,
    source: 'UK 145.A.45(e)',
  };
}
