/** What need not be asked, because it follows from readings that still stand. */
import type { Job, JobCondition, JobLine, MoveIndex, Unit } from '../../shared/job.ts';
import type { Happening, OfKeep } from './entries.ts';
import { type Answer, answerOf, type Entered } from './known.ts';
import { type Judged, knownAt, type LineState, noEntry, type Walk } from './state.ts';
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
  for (const keep of here.keeps) {
    const found = followingKeep({ job, walk, speech }, { move, keep });
    if (found) return found;
  }
  for (const [line, content] of here.lines.entries()) {
    const state = walk.lines.get(move)?.get(line) ?? noEntry;
    for (const { condition, watch, isUseless, judged } of askedBy(content, state)) {
      const answer = answered(condition, line);
      if (answer === undefined || isUseless(answer.holds) || judged.passed === answer.holds) continue;
      const told = { move, line, passed: answer.holds, from: fromText(job, answer, speech) };
      return watch === undefined ? { type: 'check', ...told } : { type: 'watch', ...told, watch };
    }
  }
  return undefined;
}

interface Asked {
  readonly condition: JobCondition;
  readonly watch?: number;
  /** An answer that tells nothing here. */
  readonly isUseless: (holds: boolean) => boolean;
  readonly judged: Judged;
}

/** What a line asks as things stand. */
function askedBy(line: JobLine, state: LineState): readonly Asked[] {
  const own = (isUseless: Asked['isUseless']) =>
    'condition' in line && line.condition ? [{ condition: line.condition, isUseless, judged: state }] : [];
  switch (line.type) {
    case 'check':
      return own(() => false);
    case 'wait':
      // What is not so yet has to be waited for.
      return own((holds) => !holds || state.began !== undefined);
    case 'run': {
      if (state.began === undefined) return [];
      if (state.ended !== undefined) return own(() => state.passed !== undefined);
      return line.watches.flatMap(({ condition, stays }, watch) => {
        const judged = state.watches[watch] ?? {};
        // What is to stay so all the time is watched, whatever was read before; what somebody saw counts.
        const isUseless = (holds: boolean) => (stays === true && holds) || judged.passed !== undefined;
        return condition ? [{ condition, watch, isUseless, judged }] : [];
      });
    }
    default:
      return [];
  }
}

/** What readings that still stand, from before a unit or from its own lines, say of what is to be kept while it is done. */
export function keepAnswer(
  { job, walk, speech }: { readonly job: Job; readonly walk: Walk; readonly speech: Speech },
  { move, keep }: OfKeep,
): { readonly passed: boolean; readonly from: string } | undefined {
  const unit = job.moves[move];
  const condition = job.keeps[keep]?.condition;
  if (unit?.type !== 'unit' || condition === undefined) return undefined;
  const answers = [unit.lines.length, 0].flatMap((line) => answerOf(condition, knownAt(walk, move, line)) ?? []);
  const answer = answers.find(({ holds }) => !holds) ?? answers[0];
  return answer && { passed: answer.holds, from: fromText(job, answer, speech) };
}

/** Only what is not so, or no longer so, is written down; what two people have answered for is not asked again. */
function followingKeep(desk: Parameters<typeof keepAnswer>[0], at: OfKeep): Happening | undefined {
  const answer = keepAnswer(desk, at);
  const judged = desk.walk.keeps.get(at.move)?.[at.keep];
  const isTold = answer?.passed === (judged?.passed ?? true) && (answer.passed || answer.from === judged?.from);
  const isAnsweredFor = desk.walk.wentOn.some(({ keep, from }) => keep === at.keep && from === answer?.from);
  if (answer === undefined || isTold || isAnsweredFor || (judged?.passed === false && judged.from === undefined))
    return undefined;
  return { type: 'keep', ...at, ...answer };
}

function fromText(job: Job, { from }: Answer, speech: Speech): string {
  return from.map((entered) => enteredText(job, entered, speech)).join('; ');
}

/** `Step 7, 10:42:05: 25.5 V` */
export function enteredText(job: Job, { move, at, text, gauge }: Entered, { say, timeOfDay }: Speech): string {
  const value = `${job.gauges[gauge]?.label ?? ''} ${text}`.trim();
  return say('from', { where: unitName(job, move), time: timeOfDay(at), value });
}

/** `Step 12, Fitter`; a signature names who signs already. */
export const withWho = ({ name, who }: Unit) => (who === '' || name.includes(who) ? name : `${name}, ${who}`);

export function unitName(job: Job, move: MoveIndex): string {
  const unit = job.moves[move];
  return unit?.type === 'unit' ? unit.name : '';
}
