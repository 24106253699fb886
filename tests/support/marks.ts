/**
 * Cards with marks, so that a test shows what it means:
 *
 *     set wash-valve shut
 *     //             ^^^^ name.unknown
 *
 * Carets in a comment stand under a finding of that code, in the nearest line above that is no such comment; right after the
 * slashes they stand for its first word, under which there may be no room. They are as long as the finding; one caret alone marks
 * only where it starts, and a finding of several lines is marked to the end of its first. Several marks may follow on one line, and
 * several codes, with commas, may follow one mark. Mark comments stay in the text, since they are comments there too.
 *
 * `$0` is a cursor, `$[` and `$]` go round a range; these are taken out.
 */
import { LineTable, type Span } from '../../shared/text.ts';

export interface Mark {
  /** Zero-based. */
  readonly line: number;
  readonly column: number;
  readonly length: number;
  readonly code: string;
}

export interface MarkedText {
  readonly text: string;
  readonly marks: readonly Mark[];
  readonly cursors: readonly number[];
  readonly ranges: readonly Span[];
}

export function readMarks(marked: string): MarkedText {
  const { text, cursors, ranges } = takeOutCursors(marked);
  return { text, cursors, ranges, marks: readCarets(text) };
}

/** The text and its one cursor. */
export function readCursor(marked: string): { readonly text: string; readonly offset: number } {
  const { text, cursors } = readMarks(marked);
  const [offset] = cursors;
  if (offset === undefined || cursors.length > 1) throw new Error(`Expected one $0, found ${cursors.length}.`);
  return { text, offset };
}

function takeOutCursors(marked: string): Omit<MarkedText, 'marks'> {
  const cursors: number[] = [];
  const ranges: Span[] = [];
  const open: number[] = [];
  let text = '';
  for (const part of marked.split(/(\$0|\$\[|\$\])/)) {
    if (part === '$0') cursors.push(text.length);
    else if (part === '$[') open.push(text.length);
    else if (part === '$]') ranges.push({ start: open.pop() ?? 0, end: text.length });
    else text += part;
  }
  if (open.length > 0) throw new Error('A $[ has no $].');
  return { text, cursors, ranges };
}

const markComment = /^\s*\/\/\s*\^/;
const oneMark = /(\^+)\s*([a-z][\w.-]*(?:\s*,\s*[a-z][\w.-]*)*)/g;

function readCarets(text: string): Mark[] {
  const marks: Mark[] = [];
  let marked = { text: '', line: 0 };
  text.split(/\r\n|\n|\r/).forEach((lineText, line) => {
    if (!markComment.test(lineText)) {
      marked = { text: lineText, line };
      return;
    }
    for (const { 1: carets = '', 2: codes = '', index } of lineText.matchAll(oneMark)) {
      const column = lineText.slice(0, index).endsWith('//') ? marked.text.search(/\S|$/) : index;
      const place = { line: marked.line, column, length: carets.length };
      for (const code of codes.split(/\s*,\s*/)) marks.push({ ...place, code });
    }
  });
  return marks;
}

/** Where a finding stands, in the terms of a mark. */
export function markOf(finding: { readonly code: string; readonly place: Span }, lines: LineTable): Mark {
  const start = lines.positionAt(finding.place.start);
  const end = lines.positionAt(finding.place.end);
  const lastColumn = end.line === start.line ? end.column : lines.lineText(start.line).length;
  return { ...start, length: lastColumn - start.column, code: finding.code };
}

export interface Comparison {
  /** Marked, but not found. */
  readonly missed: readonly string[];
  /** Found, but not marked. */
  readonly unexpected: readonly string[];
}

/** Holds findings in one text against its marks; each finding meets one mark. */
export function compareWithMarks(
  { text, marks }: MarkedText,
  findings: readonly { readonly code: string; readonly place: Span; readonly message: string }[],
): Comparison {
  const lines = new LineTable(text);
  const open = [...marks];
  const unexpected: string[] = [];
  for (const finding of findings) {
    const found = markOf(finding, lines);
    const index = open.findIndex((mark) => meets(mark, found));
    if (index >= 0) open.splice(index, 1);
    else unexpected.push(`${describe(found)} ${finding.message}`);
  }
  return { missed: open.map(describe), unexpected };
}

function meets(mark: Mark, found: Mark): boolean {
  const sameStart = mark.code === found.code && mark.line === found.line && mark.column === found.column;
  return sameStart && (mark.length === 1 || mark.length === found.length);
}

function describe({ line, column, length, code }: Mark): string {
  return `${line + 1}:${column + 1}+${length} ${code}`;
}
