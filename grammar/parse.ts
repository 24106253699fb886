import { parser } from './parser.ts';
import type { File, Parsed } from './syntax.ts';
import { lex } from './tokens.ts';

/** Reads a text. Never throws: gives a tree and its problems, always both. */
export function parse(text: string): Parsed {
  const { tokens, comments } = lex(text);
  const { file, problems } = parser.parse(text, tokens);
  return {
    text,
    file: file as File,
    comments: comments.map((c) => ({ text: c.image, start: c.startOffset, end: c.startOffset + c.image.length })),
    problems,
  };
}
