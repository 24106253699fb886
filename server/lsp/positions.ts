/** The one border between offsets and the protocol's lines and UTF-16 columns. */
import type { Position, Range } from 'vscode-languageserver';
import { LineTable, type Span } from '../../shared/text.ts';

const tables = new WeakMap<object, LineTable>();

/** The line table of a text, made once for each object that holds one. */
export function linesOf(holder: { readonly text: string }): LineTable {
  const known = tables.get(holder) ?? new LineTable(holder.text);
  tables.set(holder, known);
  return known;
}

export function toPosition(lines: LineTable, offset: number): Position {
  const { line, column } = lines.positionAt(offset);
  return { line, character: column };
}

export function toRange(lines: LineTable, span: Span): Range {
  return { start: toPosition(lines, span.start), end: toPosition(lines, span.end) };
}

export function toOffset(lines: LineTable, position: Position): number {
  return lines.offsetAt({ line: position.line, column: position.character });
}

export function toSpan(lines: LineTable, range: Range): Span {
  return { start: toOffset(lines, range.start), end: toOffset(lines, range.end) };
}
