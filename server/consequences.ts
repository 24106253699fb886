/**
 * One slip, one finding. Where a line could not be understood, what the proof says of the things named on that line follows from
 * the slip, and is not reported again until it is mended.
 */
import type { Finding } from '../shared/finding.ts';
import type { Found } from './findings/finding.ts';

/** Words of the language on a damaged line, and the findings that may come from its being lost. */
const lostWith: readonly (readonly [RegExp, RegExp])[] = [
  [/^(?:wait|takes|run|for|within|duty)$/, /^duty\./],
  [/^(?:danger|warning|caution|note)$/, /^safety\.warning-/],
  [/^(?:go|stop|finish|if|else|repeat|check|choose)$/, /^flow\./],
  [/^(?:source|link|supply)$/, /^supply\./],
  [/^(?:leaves|assume)$/, /^safety\.left-changed$/],
];

const slips = /^(?:syntax|name|unit)\./;
const word = /[\p{L}\p{N}]+(?:-[\p{L}\p{N}]+)*/gu;

/** The words of the lines with slips, and those that would mend them. */
export function damagedWords(findings: readonly Finding[], textOf: (file: string) => string): ReadonlySet<string> {
  const damaged = findings.filter((finding) => finding.level === 'error' && slips.test(finding.code));
  const pieces = damaged.flatMap((finding) => [
    linesAt(textOf(finding.place.file), finding.place.start, finding.place.end),
    ...finding.fixes.flatMap((fix) => fix.edits.map((edit) => edit.newText)),
  ]);
  return new Set(pieces.flatMap((piece) => piece.match(word) ?? []));
}

export function followsFrom(damaged: ReadonlySet<string>, code: string, found: Found): boolean {
  if (damaged.size === 0) return false;
  if (found.about?.some((name) => damaged.has(name))) return true;
  return lostWith.some(([lost, following]) => following.test(code) && [...damaged].some((one) => lost.test(one)));
}

function linesAt(text: string, start: number, end: number): string {
  const lineEnd = text.indexOf('\n', end);
  return text.slice(text.lastIndexOf('\n', start - 1) + 1, lineEnd < 0 ? text.length : lineEnd);
}
