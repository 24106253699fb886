/** How a card stands by its own findings, in marks that a reviewer sees first. */
import type { Element } from 'hast';
import { h } from 'hastscript';
import type { Finding, Level } from '../../shared/finding.ts';

export interface Standing {
  readonly errors: number;
  readonly warnings: number;
  readonly accepted: number;
  /** Checks that the settings switch off or lower. */
  readonly lowered: number;
}

interface Found {
  readonly findings: readonly Finding[];
  readonly accepted: readonly unknown[];
  readonly lowered?: readonly string[];
}

export interface Mark {
  readonly word: string;
  readonly look: 'bad' | 'care' | 'good' | 'plain';
}

export const looks: Readonly<Record<Level, Mark['look']>> = { error: 'bad', warning: 'care', hint: 'plain' };

export function standingOf({ findings, accepted, lowered = [] }: Found): Standing {
  const count = (level: Level) => findings.filter((finding) => finding.level === level).length;
  return { errors: count('error'), warnings: count('warning'), accepted: accepted.length, lowered: lowered.length };
}

/** The worst first; what is accepted stands last, as a reviewer judges its reasons. */
export function standingMarks({ errors, warnings, accepted, lowered }: Standing): readonly Mark[] {
  const against: Mark[] = [
    ...(errors > 0 ? [{ word: counted(errors, 'error'), look: 'bad' } as const] : []),
    ...(lowered > 0 ? [{ word: 'checks lowered', look: 'bad' } as const] : []),
    ...(warnings > 0 ? [{ word: counted(warnings, 'warning'), look: 'care' } as const] : []),
  ];
  const told: readonly Mark[] = against.length > 0 ? against : [{ word: 'clean', look: 'good' }];
  return accepted > 0 ? [...told, { word: `${accepted} accepted`, look: 'care' }] : told;
}

/** In a word, and in colour beside it. */
export function mark({ word, look }: Mark): Element {
  return h('span', { className: ['mark', look] }, word);
}

export function counted(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`;
}
