import { distance } from 'fastest-levenshtein';
import { unitSpellings } from '../../shared/units.ts';

const mostProposals = 3;

/** The names that a slip of the pen could have meant: a third of the letters may differ. Best first. */
export function nearest(name: string, known: Iterable<string>): readonly string[] {
  const wanted = name.toLowerCase();
  const most = Math.max(2, Math.floor(name.length / 3));
  const rated = [...new Set(known)].map((candidate) => ({
    candidate,
    slips: distance(wanted, candidate.toLowerCase()),
  }));
  const near = rated.filter(({ candidate, slips }) => slips <= most && slips < candidate.length);
  near.sort((a, b) => a.slips - b.slips || a.candidate.localeCompare(b.candidate));
  return near.slice(0, mostProposals).map(({ candidate }) => candidate);
}

/** Spellings of units near to a text that is none. */
export function nearestUnits(text: string): readonly string[] {
  return nearest(text, unitSpellings);
}

/** The one name that was surely meant: at most two letters off, and nearer than any other. */
export function surelyMeant(name: string, near: readonly string[]): string | undefined {
  const slips = near.map((candidate) => distance(name.toLowerCase(), candidate.toLowerCase()));
  const [best, next] = slips;
  return best !== undefined && best <= 2 && (next === undefined || best < next) ? near[0] : undefined;
}
