/** Runs and rests in words, and the waits and lengths that mend them. */
import type { Card, Run, Seconds } from '../../../shared/card.ts';
import type { Fix } from '../../../shared/finding.ts';
import { durationWords } from '../../../shared/quantity.ts';
import type { DutyBreak } from '../../proof/time/duty-breaks.ts';
import type { CardFacts } from '../finding.ts';
import { stateName } from './card.ts';
import { replace, type TextOf } from './edits.ts';
import { doBefore } from './mends.ts';
import { actionAt, stepAt } from './where.ts';

/** What goes wrong with duties of one sort. */
export function* dutyBreaks({ proof }: CardFacts, sort: DutyBreak['sort']): Iterable<DutyBreak> {
  for (const fact of proof.duties) if (fact.sort === sort) yield fact;
}

/** `the left starter cranking` */
export function runWords({ item, duty }: DutyBreak): string {
  return `${item.label} ${stateName(item, duty.state)}`;
}

/** Writes the wait that is missing before the run; of what the card does several times, before the one that lacks it. */
export function addWait(facts: CardFacts, { missing, place, calls = [] }: DutyBreak): Fix[] {
  const [call, ...others] = calls;
  const fix =
    missing && doBefore(call && others.length === 0 ? call.place : place, [`wait ${durationWords(missing)}`], facts);
  return fix ? [fix] : [];
}

/** Shortens the run that is too long, where one action says how long it is. */
export function shorten(fact: DutyBreak, card: Card, textOf: TextOf): Fix[] {
  const step = stepAt(card, fact.place);
  const run = step && actionAt(step, fact.place);
  return run?.type === 'run' ? shortenTo(fact.limit, run, textOf) : [];
}

/** Shortens a run to what it may last at most, where its length stands there as one duration, or from one to another. */
export function shortenTo(limit: Seconds, { length }: Run, textOf: TextOf): Fix[] {
  // What else is in its place is for the writer to weigh.
  const pattern = length?.most?.equals(length.least) === false ? /^\d.*\bto\s+\d/ : /^\d/;
  if (!length || !pattern.test(textOf(length.place.file).slice(length.place.start, length.place.end))) return [];
  const most = durationWords(limit);
  const written = length.least.compare(limit) < 0 ? `${durationWords(length.least)} to ${most}` : most;
  return [{ title: `Shorten this run to ${most}`, edits: [replace(length.place, written)] }];
}
