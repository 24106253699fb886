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
  return s('svg', { className: ['picture', `of-${name}`], role: 'img', ariaLabel: description, viewBox, ...size }, [
    ...children,
  ]);
}

/** Breaks a text into lines of about this many characters, at spaces where there are any. */
export function wrapped(text: string, characters: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).flatMap((long) => pieces(long, characters))) {
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

/** Lines one under another, the middle of the block at `y`. */
export function textBlock(
  lines: readonly string[],
  x: number,
  y: number,
  anchor: 'start' | 'middle' | 'end' = 'middle',
  bold = false,
): Element {
  const top = y - ((lines.length - 1) * lineHeight) / 2 + fontSize * 0.35;
  const spans = lines.map((line, index) => s('tspan', { x: tidy(x), y: tidy(top + index * lineHeight) }, line));
  return s('text', { textAnchor: anchor, ...(bold && { fontWeight: 700 }) }, spans);
}

/** Coordinates need no more than a tenth: a smaller file. */
export function tidy(value: number): number {
  return Math.round(value * 10) / 10;
}

export function path(points: readonly { readonly x: number; readonly y: number }[]): string {
  return points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${tidy(x)} ${tidy(y)}`).join('');
}
