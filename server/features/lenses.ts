/** What stands over a declaration: how long a card takes, for how many machines it differs, what was found; who uses a file. */
import type { Card } from '../../shared/card.ts';
import type { Finding } from '../../shared/finding.ts';
import type { InParts } from '../../shared/parts.ts';
import { durationWords } from '../../shared/quantity.ts';
import type { Release } from '../../shared/release.ts';
import type { Settings } from '../../shared/settings.ts';
import { holds, type Span } from '../../shared/text.ts';
import { coverageOf, coverageWords } from '../coverage.ts';
import type { CardTime } from '../proof/time/card-time.ts';
import type { Snapshot } from '../snapshot.ts';
import type { Workspace } from '../workspace.ts';
import { standing } from './review.ts';

export interface Lens {
  readonly span: Span;
  readonly title: string;
  /** What a click does, by the name of our command. */
  readonly command?: 'preview' | 'compare' | 'notFollowed';
  /** The card that the command is about. */
  readonly card?: string;
}

export interface LensContext {
  readonly findings: readonly Finding[];
  /** The newest snapshots of all files. */
  readonly everywhere: readonly Snapshot[];
  readonly settings: Settings;
  readonly workspace: Workspace;
  /** All that are known. */
  readonly releases: readonly Release[];
}

export function* lenses(snapshot: Snapshot, context: LensContext): InParts<Lens[]> {
  const found = usedLens(snapshot, context);
  for (const card of snapshot.bound.cards) {
    found.push(yield* cardLens(card, snapshot, context), ...coverageLens(card));
    const released = standing(card, { ...context, snapshot }, context.releases);
    if (released !== undefined) found.push({ span: card.place, title: released, command: 'compare' });
  }
  return found;
}

function* cardLens(card: Card, snapshot: Snapshot, { findings, settings }: LensContext): InParts<Lens> {
  const proof = yield* snapshot.proofInParts(card, settings);
  const { time, configurations } = proof;
  // What is found in a procedure is found in each card that does it.
  const others = snapshot.bound.cards.filter((other) => other !== card);
  const own = findings.filter(({ place }) => !others.some(({ extent }) => holds(extent, place)));
  const parts = [
    ...timeWords(time),
    ...(configurations.length > 1 ? [`${configurations.length} configurations`] : []),
    countWords(own.length, 'finding'),
  ];
  return { span: card.place, title: parts.join(' · '), command: 'preview' };
}

/** A click lists the steps that are not followed, where there are any. */
function coverageLens(card: Card): Lens[] {
  if (card.body.length === 0) return [];
  const coverage = coverageOf(card);
  const words = coverageWords([coverage]);
  const { length } = coverage.notFollowed;
  if (length === 0) return [{ span: card.place, title: words }];
  const title = `${words} (list ${length === 1 ? 'it' : 'them'})`;
  return [{ span: card.place, title, command: 'notFollowed', card: card.name }];
}

/** Nothing where the card says nothing of times. */
function timeWords({ least, most }: CardTime): string[] {
  if (most === undefined) return least.equals(0) ? [] : [`at least ${durationWords(least)}`];
  return [least.equals(most) ? durationWords(least) : `${durationWords(least)} to ${durationWords(most)}`];
}

/** Over a file of equipment, how many cards use it. */
function usedLens({ file, parsed }: Snapshot, { everywhere }: LensContext): Lens[] {
  const [first] = parsed.file.declarations;
  const users = everywhere.filter((other) => other.file !== file && other.uses.includes(file));
  const cards = users.flatMap(({ bound }) => bound.cards).length;
  return first && cards > 0
    ? [{ span: { start: first.start, end: first.start }, title: `used in ${countWords(cards, 'card')}` }]
    : [];
}

function countWords(count: number, thing: string): string {
  if (count === 0) return `no ${thing}s`;
  return count === 1 ? `1 ${thing}` : `${count} ${thing}s`;
}
