import { distance } from 'fastest-levenshtein';
import { findUnit, unitSpellings } from '../../shared/units.ts';

const mostProposals = 3;

/** Letters. What is longer is no slip of the pen, and comparing it takes time by the square of its length. */
const longestSlip = 100;

/** The names that a slip of the pen could have meant: a third of the letters may differ. Best first. */
export function nearest(name: string, known: Iterable<string>): readonly string[] {
  if (name.length > longestSlip) return [];
  const most = Math.max(2, Math.floor(name.length / 3));
  const comparable = [...new Set(known)].filter(({ length }) => Math.abs(length - name.length) <= most);
  const rated = comparable.map((candidate) => ({ candidate, slips: slipsBetween(name, candidate) }));
  // Half of its letters must be there: “belt” is no slip for “test”.
  const near = rated.filter(
    ({ candidate, slips }) => slips <= most && 2 * slips < Math.max(candidate.length, name.length),
  );
  near.sort((a, b) => a.slips - b.slips || startsAlike(name, b.candidate) - startsAlike(name, a.candidate));
  return near.slice(0, mostProposals).map(({ candidate }) => candidate);
}

/** How many letters differ, capitals apart; two that are swapped are one slip. */
function slipsBetween(name: string, candidate: string): number {
  const [a, b] = [name.toLowerCase(), candidate.toLowerCase()];
  const slips = distance(a, b);
  return slips === 2 && lettersOf(a) === lettersOf(b) ? 1 : slips;
}

function lettersOf(word: string): string {
  return [...word].sort().join('');
}

function startsAlike(a: string, b: string): number {
  return Number(a.charAt(0) === b.charAt(0));
}

/** The symbols of units near to a text that is none, each unit once. */
export function nearestUnits(text: string): readonly string[] {
  const symbols = nearest(text, unitSpellings).map((spelling) => findUnit(spelling)?.symbol ?? spelling);
  return [...new Set(symbols)];
}

/** The one name that was surely meant: at most two letters off, and nearer than any other. */
export function surelyMeant(name: string, near: readonly string[]): string | undefined {
  const [best, next] = near.map((candidate) => slipsBetween(name, candidate));
  return best !== undefined && best <= 2 && (next === undefined || best < next) ? near[0] : undefined;
}
