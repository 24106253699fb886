/** The words with which a line is answered, the good one first. */
import type { JobLine, JobWord, WatchLine } from '../../shared/job.ts';

type Answers = readonly [good: JobWord, bad: JobWord];

const reached: Answers = ['didReach', 'didNotReach'];
const asItMustBe: Answers = ['passed', 'failed'];

export function answersTo(line: JobLine | undefined): Answers {
  switch (line?.type) {
    case 'run':
    case 'wait':
      return reached;
    case 'check':
      return line.question ? ['yes', 'no'] : asItMustBe;
    default:
      return asItMustBe;
  }
}

/** What is to stay so is well or not; what is to come about is reached or not. */
export function answersToWatch({ stays }: Pick<WatchLine, 'stays'>): Answers {
  return stays ? asItMustBe : reached;
}
