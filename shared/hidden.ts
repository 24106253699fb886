/**
 * Characters that nobody sees: control characters, signs that turn or embed the direction of writing, blanks without a
 * width, separators of lines inside a line. What they hide from a reader they do to a terminal, a file name or a page.
 */
import { matchesOf } from './text.ts';

/**
 * The property of Unicode for what is ignored where it is shown, without what writing needs: soft hyphens, variants of a
 * sign, and joiners and marks of direction after a sign that joins or is written from right to left.
 */
const hidden =
  /[\p{Cc}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}](?<!\p{M}|[\t\n\r\u00ad])(?<![\p{M}\p{Script=Arabic}\p{Script=Hebrew}\p{Extended_Pictographic}\p{Emoji_Modifier}][\u061c\u200c-\u200f])/gu;

export function hasHidden(text: string): boolean {
  return text.search(hidden) >= 0;
}

export function withoutHidden(text: string): string {
  return text.replaceAll(hidden, '');
}

/** With the numbers of hidden characters in their places, as in `valve[U+202E]`, for whoever is to see that they are there. */
export function hiddenShown(text: string): string {
  return text.replaceAll(hidden, (character) => `[${codeOf(character)}]`);
}

/** JSON with the same meaning, in which hidden characters are escaped. */
export function hiddenEscaped(json: string): string {
  return json.replaceAll(hidden, (character) =>
    [...Array(character.length).keys()].map((index) => `\\u${hex(character.charCodeAt(index))}`).join(''),
  );
}

/** Each unbroken row of hidden characters, with where it begins. */
export function hiddenIn(text: string): { readonly start: number; readonly end: number; readonly codes: string }[] {
  const rows: { start: number; end: number; codes: string }[] = [];
  for (const { 0: character, index } of matchesOf(hidden, text)) {
    const last = rows.at(-1);
    if (last?.end === index) {
      last.end += character.length;
      last.codes += ` ${codeOf(character)}`;
    } else rows.push({ start: index, end: index + character.length, codes: codeOf(character) });
  }
  return rows;
}

function codeOf(character: string): string {
  return `U+${hex(character.codePointAt(0) ?? 0)}`;
}

function hex(code: number): string {
  return code.toString(16).toUpperCase().padStart(4, '0');
}
