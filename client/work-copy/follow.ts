/** What need not be asked, because it follows from readings that still stand. */
import type { Job, JobCondition, MoveIndex } from '../../shared/job.ts';
import type { Happening } from './entries.ts';
import { type Answer, answerOf, type Entered } from './known.ts';
import { knownAt, noEntry, type Walk } from './state.ts';
import type { Speech } from './words.ts';

/** The next answer that gives itself. */
export function following(job: Job, walk: Walk, speech: Speech): Happening | undefined {
  for (const move of new Set([...walk.next, ...walk.opened])) {
    const found = followingAt(job, walk, move, speech);
    if (found) return found;
  }
  return undefined;
}

function followingAt(job: Job, walk: Walk, move: MoveIndex, speech: Speech): Happening | undefined {
  const here = job.moves[move];
  const answered = (condition: JobCondition, line: number) => answerOf(condition, knownAt(walk, move, line));
  if (here?.type === 'ask') {
    const answer = here.condition && answered(here.condition, 0);
    return answer && { type: 'answer', move, yes: answer.holds, from: fromText(job, answer, speech) };
  }
  if (here?.type !== 'unit') return undefined;
  for (const [line, content] of here.lines.entries()) {
    if ((content.type !== 'check' && content.type !== 'wait') || content.condition === undefined) continue;
    const state = walk.lines.get(move)?.get(line) ?? noEntry;
    const answer = answered(content.condition, line);
    // What is not so yet has to be waited for.
    const isUseless = content.type === 'wait' && (answer?.holds !== true || state.began !== undefined);
    if (answer === undefined || isUseless || state.passed === answer.holds) continue;
    return { type: 'check', move, line, passed: answer.holds, from: fromText(job, answer, speech) };
  }
  return undefined;
}

function fromText(job: Job, { from }: Answer, speech: Speech): string {
  return from.map((entered) => enteredText(job, entered, speech)).join('; ');
}

/** `Step 7, 10:42:05: 25.5 V` */
export function enteredText(job: Job, { move, at, text, gauge }: Entered, { say, timeOfDay }: Speech): string {
  const value = `${job.gauges[gauge]?.label ?? ''} ${text}`.trim();
  return say('from', { where: unitName(job, move), time: timeOfDay(at), value });
}

export function unitName(job: Job, move: MoveIndex): string {
  const unit = job.moves[move];
  return unit?.type === 'unit' ? unit.name : '';
}
