/** How long an item must rest before it may run again, by wall time in milliseconds. */
import type { JobDuty } from '../../shared/job.ts';

/** One run; without `to` it goes on. */
export interface Use {
  readonly from: number;
  readonly to?: number;
}

/** The time from which the next run may begin: that of the duty that asks for most; undefined where nothing is in the way at any time. */
export function restUntil(duties: readonly JobDuty[], uses: readonly Use[]): number | undefined {
  const times = duties.map((duty) => untilOf(duty, uses)).filter((time): time is number => time !== undefined);
  return times.length === 0 ? undefined : Math.max(...times);
}

/** The longest that a run may last; undefined where no duty says. */
export function longestRun(duties: readonly JobDuty[]): number | undefined {
  const limits = duties.flatMap((duty) => (duty.type === 'longest' ? [duty.limit] : []));
  return limits.length === 0 ? undefined : Math.min(...limits);
}

function untilOf(duty: JobDuty, uses: readonly Use[]): number | undefined {
  const last = uses[uses.length - 1];
  if (last === undefined) return undefined;
  switch (duty.type) {
    case 'longest':
      return duty.rest === undefined || last.to === undefined ? undefined : last.to + duty.rest;
    case 'times-then-rest':
      return last.to === undefined || runsSinceRest(duty.rest, uses) < duty.times ? undefined : last.to + duty.rest;
    case 'times-in-window': {
      const first = uses[uses.length - duty.times];
      return first === undefined ? undefined : first.from + duty.window;
    }
  }
}

/** Runs after the last rest that was as long as this. */
function runsSinceRest(rest: number, uses: readonly Use[]): number {
  let count = 0;
  uses.forEach((use, index) => {
    const before = uses[index - 1];
    const rested = before?.to !== undefined && use.from - before.to >= rest;
    count = rested ? 1 : count + 1;
  });
  return count;
}
