/** The words with which a line is answered, the good one first. */
import type { JobLine, JobWord } from '../../shared/job.ts';

export function answersTo(line: JobLine | undefined): readonly [JobWord, JobWord] {
  switch (line?.type) {
    case 'run':
    case 'wait':
      return ['didReach', 'didNotReach'];
    case 'check':
      return line.question ? ['yes', 'no'] : ['passed', 'failed'];
    default:
      return ['passed', 'failed'];
  }
}
