/** A stretch of one text, in UTF-16 offsets; `end` is the offset after the last character. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A span in a named file. Inside Cardwright everything speaks of places; lines and columns exist only at the borders. */
export interface Place extends Span {
  readonly file: string;
}

export function isSamePlace(one: Place, other: Place): boolean {
  return one.file === other.file && one.start === other.start && one.end === other.end;
}

export function holds(outer: Place, inner: Place): boolean {
  return outer.file === inner.file && outer.start <= inner.start && inner.end <= outer.end;
}

/**
 * Every match of a global expression. `matchAll` would make a copy of it, which the runtime compiles anew whenever it has forgotten
 * the one before.
 */
export function matchesOf(expression: RegExp, text: string): RegExpExecArray[] {
  const matches: RegExpExecArray[] = [];
  expression.lastIndex = 0;
  for (let match = expression.exec(text); match; match = expression.exec(text)) {
    matches.push(match);
    if (match[0] === '') expression.lastIndex += (text.codePointAt(match.index) ?? 0) > 0xffff ? 2 : 1;
  }
  return matches;
}

/** Zero-based line and zero-based UTF-16 column. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** Where each line of a text begins. LF, CRLF and a lone CR end a line. */
export class LineTable {
  private readonly starts: readonly number[];

  constructor(private readonly text: string) {
    const starts = [0];
    for (const lineEnd of text.matchAll(/\r\n|\n|\r/g)) starts.push(lineEnd.index + lineEnd[0].length);
    this.starts = starts;
  }

  get lineCount(): number {
    return this.starts.length;
  }

  /** The position of an offset; an offset outside the text is moved to its nearest end. */
  positionAt(offset: number): Position {
    const wanted = Math.min(Math.max(offset, 0), this.text.length);
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.starts[middle] as number) <= wanted) low = middle;
      else high = middle - 1;
    }
    return { line: low, column: wanted - (this.starts[low] as number) };
  }

  /** The offset of a position; a column past the end of its line is moved to that end, a line past the text to its end. */
  offsetAt(position: Position): number {
    if (position.line < 0) return 0;
    const start = this.starts[position.line];
    if (start === undefined) return this.text.length;
    return Math.min(start + Math.max(position.column, 0), this.endOfLine(position.line));
  }

  /** The text of a line without its line end. */
  lineText(line: number): string {
    const start = this.starts[line];
    return start === undefined ? '' : this.text.slice(start, this.endOfLine(line));
  }

  private endOfLine(line: number): number {
    let end = this.starts[line + 1] ?? this.text.length;
    while (end > (this.starts[line] as number) && /[\r\n]/.test(this.text[end - 1] as string)) end--;
    return end;
  }
}

export function contains(span: Span, offset: number): boolean {
  return span.start <= offset && offset <= span.end;
}

/** With a capital as its first letter. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** With a small first letter. */
export function lowered(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

/** A text as an expression that finds exactly it. */
export function literally(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\/]/g, '\\$&');
}

/** The order of texts by their code units, whatever language the machine speaks. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}

/** The shortest stretch in which two texts differ: where it begins in both, and how long it is in each. */
export function differenceBetween(before: string, now: string) {
  const shorter = Math.min(before.length, now.length);
  const start = longestSame(shorter, (from, to) => before.slice(from, to) === now.slice(from, to));
  const fromEnd = (text: string, from: number, to: number) => text.slice(text.length - to, text.length - from);
  const same = longestSame(shorter - start, (from, to) => fromEnd(before, from, to) === fromEnd(now, from, to));
  return { start, removed: before.length - same - start, added: now.length - same - start };
}

/** How far two texts are the same; whole stretches are compared, and the one in which they differ is halved. */
function longestSame(most: number, isSame: (from: number, to: number) => boolean): number {
  let same = 0;
  for (let length = most; length > 0; ) {
    const to = Math.min(same + length, most);
    if (isSame(same, to)) same = to;
    else if (length === 1) break;
    length = Math.min(Math.ceil(length / 2), most - same);
  }
  return same;
}
