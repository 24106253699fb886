/** The path of a finding in words: what happens at each of its places. */

import type { PathPlace } from '../../../shared/finding.ts';
import { lazily } from '../../../shared/lazily.ts';
import { durationWords } from '../../../shared/quantity.ts';
import type { Call, Occurrence, PathEvent, Reason } from '../../proof/break.ts';
import { stateName } from './card.ts';

export function pathInWords(path: readonly PathEvent[]): PathPlace[] {
  return path.map(({ place, happens, call, after }) => {
    const where = call ? `, in ${callInWords(call)}` : '';
    return { place, text: `${occurrenceInWords(happens)}${where}${after ? afterInWords(after) : ''}` };
  });
}

function occurrenceInWords(happens: Occurrence): string {
  switch (happens.type) {
    case 'set':
      return `${happens.item.label}: ${stateName(happens.item, happens.state)}`;
    case 'goes-back':
      return `${happens.item.label} goes back`;
    case 'may-move':
      return `${happens.item.label} may go to ${stateName(happens.item, happens.state)} by itself here`;
    case 'reading-ends':
      return `what ${happens.gauge.label} shows is no longer known from here on`;
    case 'since-start': {
      const states = happens.wrong.map((state) => stateName(happens.item, state)).join(' or ');
      return `${happens.item.label} ${happens.isSure ? 'is' : 'may be'} ${states} since the start`;
    }
    default:
      return reasonInWords(happens);
  }
}

const fails = {
  check: 'the check fails',
  reading: 'the reading fails',
  bring: 'it cannot be brought there',
  run: 'the run does not bring it about in time',
  wait: 'the wait is in vain',
  keep: 'what is to be kept no longer holds',
};

export function reasonInWords(reason: Reason): string {
  switch (reason.type) {
    case 'fails':
      return fails[reason.what];
    case 'watch-fails':
      return `what is watched on ${reason.gauge.label} fails`;
    case 'condition':
      return reason.holds ? 'the condition holds' : 'the condition does not hold';
    case 'answer':
      return `“${reason.question?.text ?? ''}”: ${reason.answer}`;
    case 'until':
      return `what the rounds are for: ${reason.answer}`;
    case 'choice':
      return `“${reason.way.text}”`;
    case 'round':
      return reason.number > 1 ? `${ordinal(reason.number)} time round` : 'once more round';
    case 'jump':
      return reason.back ? `back to ${reason.to}` : `on to ${reason.to}`;
    case 'stop':
      return 'the card stops';
  }
}

function afterInWords({ counts, least, most }: NonNullable<PathEvent['after']>): string {
  const isExact = most?.equals(least);
  if (counts === 'most')
    return most ? ` (${isExact ? '' : 'up to '}${durationWords(most)} later)` : ' (nobody knows how long after)';
  return least.compare(0) === 0
    ? ' (perhaps at once)'
    : ` (${isExact ? '' : 'at least '}${durationWords(least)} later)`;
}

/** `the second “do spin”` */
export function callInWords({ name, number, outer }: Call): string {
  return `the ${ordinal(number)} “do ${name}”${outer ? ` in ${callInWords(outer)}` : ''}`;
}

const ordinals = lazily(() => new Intl.PluralRules('en', { type: 'ordinal' }));
const words = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];
const endings: Readonly<Record<string, string>> = { one: 'st', two: 'nd', few: 'rd' };

export function ordinal(number: number): string {
  return words[number] ?? `${number}${endings[ordinals().select(number)] ?? 'th'}`;
}
