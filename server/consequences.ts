/**
 * One slip, one finding. Where a line could not be understood, what the proof says of the things named on that line follows from
 * the slip, and is not reported again until it is mended.
 */
import { all } from '../grammar/navigate.ts';
import type { Parsed } from '../grammar/syntax.ts';
import type { Card } from '../shared/card.ts';
import type { Finding } from '../shared/finding.ts';
import type { Place } from '../shared/text.ts';
import type { Found } from './findings/finding.ts';
import { statementsIn } from './findings/support/card.ts';
import { startOfLine } from './findings/support/edits.ts';

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

/** A file with what was read in it. */
interface Source {
  readonly file: string;
  readonly parsed: Parsed;
}

/**
 * The words of the lines with slips, of what was passed over there, and those that would mend them: what a card may have lost. Slips in other cards, and in
 * procedures that it does not do, are no loss to it.
 */
export function damagedWords(
  card: Card,
  findings: readonly Finding[],
  sources: readonly Source[],
  textOf: (file: string) => string,
) {
  const damaged = findings.filter(({ level, code }) => level === 'error' && slips.test(code));
  const broken = sources.flatMap(passedOver);
  if (damaged.length + broken.length === 0) return new Set<string>();
  const others = sources.flatMap((source) => othersIn(source, card));
  const concerns = ({ place }: { readonly place: Place }) =>
    !others.some(({ file, start, end }) => file === place.file && start <= place.start && place.start < end);
  const concerning = damaged.filter(concerns);
  const onLines = concerning.map(({ place }) => linesAt(textOf(place.file), place.start, place.end));
  const mending = concerning.flatMap(({ fixes }) => fixes.flatMap(({ edits }) => edits.map((edit) => edit.newText)));
  const pieces = [...onLines, ...mending, ...broken.filter(concerns).map(({ text }) => text)];
  const closing = mending.filter((text) => text.trim() === '}').map((text) => text.trim());
  return new Set([...pieces.flatMap((piece) => piece.match(word) ?? []), ...closing]);
}

function passedOver({ file, parsed }: Source): { readonly place: Place; readonly text: string }[] {
  const { text, problems } = parsed;
  if (problems.length === 0) return [];
  return all(parsed.file, 'broken').map(({ start, end }) => ({
    place: { file, start, end },
    text: text.slice(start, end),
  }));
}

/** Cards and procedures of which nothing is done in this one. */
function othersIn({ file, parsed }: Source, card: Card): Place[] {
  const done = new Set([...statementsIn(card.body)].flatMap((one) => (one.type === 'do' ? one.name : [])));
  return parsed.file.declarations.flatMap((declared) => {
    if (declared.type !== 'card' && declared.type !== 'procedure') return [];
    const { name, start, end } = declared;
    const isOwn = file === card.place.file && start <= card.place.start && card.place.start < end;
    return isOwn || !name || done.has(name.text) ? [] : [{ file, start, end }];
  });
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
  const rest = text.slice(end).search(/[\r\n]/);
  return text.slice(startOfLine(text, start), rest < 0 ? text.length : end + rest);
}
