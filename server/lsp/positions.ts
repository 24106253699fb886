/** The one border between offsets and the protocol's lines and UTF-16 columns. */
import type { Position, Range } from 'vscode-languageserver';
import type { LineTable, Span } from '../../shared/text.ts';

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
