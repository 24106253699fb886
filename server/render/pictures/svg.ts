/** Pieces that the pictures are drawn with. Sizes are in the picture's own units, ten of which are the height of a letter. */
import type { Element } from 'hast';
import { s } from 'hastscript';

export const fontSize = 10;
/** Pixels for each unit, so that letters are of 8 pt. */
const scale = 8 / 0.75 / fontSize;
/** What a sheet of either size has room for between its margins, in units. */
export const sheetWidth = ((186 / 25.4) * 96) / scale;
export const lineHeight = 12.5;
/** A character of the usual sans-serif is about this wide; one of Chinese, Japanese or Korean twice that. */
const characterWidth = 5.6;

/** A picture with the words for whoever does not see it. */
export function picture(
  name: string,
  width: number,
  height: number,
  description: string,
  children: readonly Element[],
): Element {
  const viewBox = `0 0 ${Math.ceil(width)} ${Math.ceil(height)}`;
  const size = { width: Math.ceil(width * scale), height: Math.ceil(height * scale) };
  return s(
    'svg',
    {
      className: ['picture', `of-${name}`],
      role: 'img',
      ariaLabel: description,
      viewBox,
      ...size,
      textAnchor: 'middle',
    },
    [...children],
  );
}

/** Stays on one line where it fits on one. */
export const whole = (text: string): string => text.replaceAll(' ', '\u00a0');

/** Breaks a text into lines of about this many characters, at spaces where there are any. */
export function wrapped(text: string, characters: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/[^\S\u00a0]+/).flatMap((long) => pieces(long, characters))) {
    if (line !== '' && widthOf(`${line} ${word}`) > characters) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return line === '' ? lines : [...lines, line];
}

function pieces(word: string, characters: number): readonly string[] {
  if (widthOf(word) <= characters) return [word];
  const parts: string[] = [''];
  for (const character of word) {
    if (widthOf((parts.at(-1) ?? '') + character) > characters) parts.push('');
    parts[parts.length - 1] += character;
  }
  return parts;
}

function widthOf(text: string): number {
  let width = 0;
  for (const character of text)
    width += /[\u1100-\u115f\u2e80-\u9fff\uac00-\ud7a3\uf900-\ufaff\uff00-\uff60]/.test(character) ? 2 : 1;
  return width;
}

export function textWidth(lines: readonly string[]): number {
  return Math.max(0, ...lines.map(widthOf)) * characterWidth;
}

/** Lines one under another, the middle of the block at this point. */
export function textBlock(lines: readonly string[], x: number, y: number, bold = false): Element {
  const top = y - ((lines.length - 1) * lineHeight) / 2 + fontSize * 0.35;
  const at = { x: tidy(x) };
  const [first = '', ...others] = lines;
  return s('text', { ...at, y: tidy(top), ...(bold && { fontWeight: 700 }) }, [
    first,
    ...others.map((line) => s('tspan', { ...at, dy: lineHeight }, line)),
  ]);
}

/** Coordinates need no more than whole units, about a pixel each: a smaller file. */
export const tidy = Math.round;

export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The outline of an area with its middle at a point, for a path. */
export function outline({ x, y, width, height }: Area): string {
  return `M${tidy(x - width / 2)} ${tidy(y - height / 2)}h${tidy(width)}v${tidy(height)}h${tidy(-width)}z`;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** From point to point, each told from the one before, rounded to the `step`-th part of a unit. */
export function path(points: readonly Point[], step = 1): string {
  const rounded = (value: number) => Math.round(value * step) / step;
  let [at, way] = [{ x: 0, y: 0 }, ''];
  points.forEach((point, index) => {
    const to = { x: rounded(point.x), y: rounded(point.y) };
    way += `${['M', 'l'][index] ?? ' '}${rounded(to.x - at.x)} ${rounded(to.y - at.y)}`;
    at = to;
  });
  return way.replaceAll(' -', '-');
}
