/** Edits that a writer would make by hand, kept in the layout of the text round them. */
import type { Step } from '../../../shared/card.ts';
import type { TextEdit } from '../../../shared/finding.ts';
import type { Place } from '../../../shared/text.ts';

export type TextOf = (file: string) => string;

export function replace(place: Place, newText: string): TextEdit {
  return { place, newText };
}

/** The text that reads so. */
export function asText(text: string): string {
  const escaped = text.replaceAll('\\', '\\\\').replaceAll('"', '\\"').replaceAll('{', '{{');
  return `"${escaped}"`;
}

/** Takes a statement out, with its line where nothing else stands on it. */
export function remove(place: Place, textOf: TextOf): TextEdit {
  const text = textOf(place.file);
  const lineStart = startOfLine(text, place.start);
  const rest = /^[ \t]*(\r\n|\n|\r|$)/.exec(text.slice(place.end))?.[0];
  if (rest === undefined || text.slice(lineStart, place.start).trim() !== '') return { place, newText: '' };
  return { place: { file: place.file, start: lineStart, end: place.end + rest.length }, newText: '' };
}

/** Writes a statement before another: on a line of its own where the other begins a line. */
export function insertBefore(place: Place, statement: string, textOf: TextOf): TextEdit {
  const text = textOf(place.file);
  const indent = text.slice(startOfLine(text, place.start), place.start);
  const separator = indent.trim() === '' ? `${lineEndOf(text)}${indent}` : ' ';
  return { place: { ...place, end: place.start }, newText: `${statement}${separator}` };
}

/** Writes a statement after another: on a line of its own where the other ends a line, comments aside. */
export function insertAfter(place: Place, statement: string, textOf: TextOf): TextEdit {
  const text = textOf(place.file);
  const lineStart = startOfLine(text, place.start);
  const indent = /^[ \t]*/.exec(text.slice(lineStart))?.[0] ?? '';
  const rest = /^[ \t]*(?:\/\/[^\r\n]*)?(?=[\r\n]|$)/.exec(text.slice(place.end))?.[0];
  const at = place.end + (rest?.length ?? 0);
  const separator = rest === undefined ? ' ' : `${lineEndOf(text)}${indent}`;
  return { place: { file: place.file, start: at, end: at }, newText: `${separator}${statement}` };
}

/** Writes actions into a step before the one at a place, with braces round them where it has none. */
export function insertActions(
  step: Step,
  { file, start, end }: Place,
  actions: readonly string[],
  textOf: TextOf,
): TextEdit[] {
  const [first] = step.actions;
  const opening = textOf(file)
    .slice(step.head.end, first?.place.start)
    .replace(/\/\/[^\r\n]*|\/\*[\s\S]*?\*\//g, '');
  const written = actions.join(' ');
  if (opening.includes('{')) return [{ place: { file, start, end: start }, newText: `${written} ` }];
  return [
    { place: { file, start, end: start }, newText: `{ ${written} ` },
    { place: { file, start: end, end }, newText: ' }' },
  ];
}

/** Writes a part into the head of a step, before all the others. */
export function insertInHead(step: Step, part: string, textOf: TextOf): TextEdit {
  const { file, start } = step.place;
  const opening = /^step(?:\s+[^\s:"{}]+\s*:)?/u.exec(textOf(file).slice(start))?.[0] ?? 'step';
  const at = start + opening.length;
  return { place: { file, start: at, end: at }, newText: ` ${part}` };
}

/** The blanks before the first word of the line. */
export function indentAt(text: string, offset: number): string {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  return /^[ \t]*/.exec(text.slice(start, offset))?.[0] ?? '';
}

/** A piece of text whose lines began at one indent, with another. */
export function reindented(piece: string, from: string, to: string): string {
  return piece
    .split('\n')
    .map((line, index) => (index === 0 ? line : line.startsWith(from) ? to + line.slice(from.length) : line))
    .join('\n');
}

export function startOfLine(text: string, offset: number): number {
  let start = offset;
  while (start > 0 && text[start - 1] !== '\n' && text[start - 1] !== '\r') start--;
  return start;
}

/** The line end that the text uses. */
export function lineEndOf(text: string): string {
  return /\r\n|\n|\r/.exec(text)?.[0] ?? '\n';
}
