/**
 * One slip, one finding. Where a line could not be understood, what the proof says of the things named on that line follows from
 * the slip, and is not reported again until it is mended.
 */
import { all } from '../grammar/navigate.ts';
import type { Parsed } from '../grammar/syntax.ts';
import type { Finding } from '../shared/finding.ts';
import type { Found } from './findings/finding.ts';

/** Words and signs of the language on a damaged line, and the findings that may come from their being lost. */
const lostWith: readonly (readonly [RegExp, RegExp])[] = [
  [/^(?:wait|takes|run|for|within|duty)$/, /^duty\./],
  [/^(?:danger|warning|caution|note)$/, /^safety\.warning-/],
  [/^(?:go|stop|finish|if|else|repeat|check|choose)$/, /^flow\./],
  [/^(?:source|link|supply)$/, /^supply\./],
  [/^(?:leaves|assume)$/, /^safety\.left-changed$/],
  // What is not closed goes on: its end is not written yet.
  [/^\}$/, /^(?:safety\.(?:left-changed|unsafe-stop)|duty\.unbounded)$/],
];

const slips = /^(?:syntax|name|unit)\./;
const word = /[\p{L}\p{N}]+(?:-[\p{L}\p{N}]+)*/gu;

/** The words of the lines with slips, of what was passed over there, and those that would mend them. */
export function damagedWords(
  findings: readonly Finding[],
  parsed: readonly Parsed[],
  textOf: (file: string) => string,
) {
  const damaged = findings.filter((finding) => finding.level === 'error' && slips.test(finding.code));
  const onLines = damaged.map(({ place }) => linesAt(textOf(place.file), place.start, place.end));
  const mending = damaged.flatMap(({ fixes }) => fixes.flatMap(({ edits }) => edits.map((edit) => edit.newText)));
  const pieces = [...onLines, ...mending, ...parsed.flatMap(passedOver)];
  const closing = mending.filter((text) => text.trim() === '}').map((text) => text.trim());
  return new Set([...pieces.flatMap((piece) => piece.match(word) ?? []), ...closing]);
}

function passedOver({ text, file, problems }: Parsed): string[] {
  if (problems.length === 0) return [];
  return all(file, 'broken').map(({ start, end }) => text.slice(start, end));
}

export function followsFrom(damaged: ReadonlySet<string>, code: string, found: Found): boolean {
  if (damaged.size === 0) return false;
  if (found.about?.some((name) => damaged.has(name))) return true;
  return lostWith.some(([lost, following]) => following.test(code) && [...damaged].some((one) => lost.test(one)));
}

/** What is said about words that a fix would write in the place of others: they are not in the text yet. */
export function withoutRewritten({ problems }: Parsed, code: string, found: Iterable<Found> = []): Iterable<Found> {
  const edits = problems.flatMap(({ fix }) => fix?.edits ?? []).filter(({ start, end }) => start < end);
  if (edits.length === 0 || code.startsWith('syntax.')) return found;
  return [...found].filter(({ place }) => !edits.some(({ start, end }) => start <= place.start && place.start < end));
}

function linesAt(text: string, start: number, end: number): string {
  const lineEnd = text.indexOf('\n', end);
  return text.slice(text.lastIndexOf('\n', start - 1) + 1, lineEnd < 0 ? text.length : lineEnd);
}
