/** Where the longer tokens end. Plain loops over characters, so that a line of any length costs only its length. */

const letter = /\p{L}/u;
const nameCharacter = /[\p{L}\p{M}\p{Nd}]/u;

/** Where a name may begin, for the lexer's table of first characters: beyond Latin-1 that table knows only stretches of 255, of which one is enough. */
export const letterStarts: number[] = firstCharacters();

function firstCharacters(): number[] {
  const starts: number[] = [];
  for (let code = 0; code < 0x100; code++) if (letter.test(String.fromCharCode(code))) starts.push(code);
  for (let code = 0x100; code < 0x10000; code += 0x80) starts.push(code);
  return starts;
}

function isAsciiNameCharacter(code: number): boolean {
  return (code >= 97 && code <= 122) || (code >= 48 && code <= 57) || (code >= 65 && code <= 90);
}

/** The length of the name character at `index`, 0 where there is none, 2 for a letter outside the first plane. */
function nameCharacterLength(text: string, index: number, wanted: RegExp): number {
  const code = text.codePointAt(index);
  if (code === undefined || code < 128 || !wanted.test(String.fromCodePoint(code))) return 0;
  return code > 0xffff ? 2 : 1;
}

/** The end of the name that begins at `start`: a letter, then letters, digits and single inner hyphens. */
export function endOfName(text: string, start: number): number {
  let end = start;
  const first = text.charCodeAt(start);
  if (isAsciiNameCharacter(first)) {
    if (first <= 57) return start;
    end++;
  } else {
    end += nameCharacterLength(text, start, letter);
    if (end === start) return start;
  }
  for (;;) {
    const length = isAsciiNameCharacter(text.charCodeAt(end)) ? 1 : nameCharacterLength(text, end, nameCharacter);
    if (length > 0) end += length;
    else if (text[end] === '-' && continuesName(text, end + 1)) end++;
    else return end;
  }
}

function continuesName(text: string, index: number): boolean {
  return isAsciiNameCharacter(text.charCodeAt(index)) || nameCharacterLength(text, index, nameCharacter) > 0;
}

function isLineEnd(character: string | undefined): boolean {
  return character === undefined || character === '\n' || character === '\r';
}

/** Quotation marks of word processors: a text in them is read, and its quotes are reported. */
const curlyQuotes = '“”„';

/** Whether the text is written between quotation marks that the language does not use. */
export function isCurlyText(image: string): boolean {
  return curlyQuotes.includes(image.charAt(0));
}

/**
 * The end of the text whose opening quote stands at `start`. A text that is not closed on its line ends before the brace
 * or comma that ends the line, so that what stands around it is still understood.
 */
export function endOfText(text: string, start: number): number {
  const first = text.charAt(start);
  if (first === '' || !(first === '"' || curlyQuotes.includes(first))) return start;
  let index = start + 1;
  while (!isLineEnd(text[index])) {
    if (text[index] === '"' || (first !== '"' && curlyQuotes.includes(text[index] as string))) return index + 1;
    index += text[index] === '\\' && !isLineEnd(text[index + 1]) ? 2 : 1;
  }
  let end = index;
  while (end > start + 1 && ' \t{},'.includes(text[end - 1] as string)) end--;
  return end;
}

export function isClosedText(image: string): boolean {
  const last = image.charAt(image.length - 1);
  if (image.length < 2 || !(last === '"' || (isCurlyText(image) && curlyQuotes.includes(last)))) return false;
  let backslashes = 0;
  while (image[image.length - 2 - backslashes] === '\\') backslashes++;
  return backslashes % 2 === 0;
}

export function endOfLineComment(text: string, start: number): number {
  if (!text.startsWith('//', start)) return start;
  let end = start + 2;
  while (!isLineEnd(text[end])) end++;
  return end;
}

/** From where on the last text read has no end of a comment, so that many open comments cost one search. */
let withoutEnd = { text: '', from: 0 };

/** A block comment that is never closed reaches to the end of its line. */
export function endOfBlockComment(text: string, start: number): number {
  if (!text.startsWith('/*', start)) return start;
  const isKnown = text === withoutEnd.text && start >= withoutEnd.from;
  const close = isKnown ? -1 : text.indexOf('*/', start + 2);
  if (close >= 0) return close + 2;
  if (!isKnown) withoutEnd = { text, from: start };
  let end = start + 2;
  while (!isLineEnd(text[end])) end++;
  return end;
}

/** Whether nothing but blanks stands before this offset on its line. */
export function isFirstOnLine(text: string, offset: number): boolean {
  return lineIndent(text, offset) !== undefined;
}

/** The blanks before the thing at `offset` where it is the first on its line. */
export function lineIndent(text: string, offset: number): string | undefined {
  let before = offset - 1;
  while (text[before] === ' ' || text[before] === '\t') before--;
  return before < 0 || isLineEnd(text[before]) || text[before] === '\ufeff'
    ? text.slice(before + 1, offset)
    : undefined;
}
