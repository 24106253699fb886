/** What can be folded: whatever is written in braces over several lines, and comments. */
import { walk } from '../../grammar/navigate.ts';
import type { Parsed } from '../../grammar/syntax.ts';
import type { Span } from '../../shared/text.ts';

export interface Fold extends Span {
  readonly sort: 'block' | 'comment' | 'uses';
}

export function folds({ file, comments, text }: Parsed): Fold[] {
  const found: Fold[] = [];
  walk(file, (node) => {
    if (node.type === 'file' || node.type === 'block' || node.type === 'text') return;
    if (text[node.end - 1] === '}' && spansLines(node, text))
      found.push({ sort: 'block', start: node.start, end: node.end });
  });
  const uses = file.declarations.filter(({ type }) => type === 'use');
  const [first] = uses;
  const last = uses.at(-1);
  if (first && last && first !== last) found.push({ sort: 'uses', start: first.start, end: last.end });
  return [...found, ...commentFolds(comments, text)];
}

/** A comment of several lines, or line comments in a row with nothing between them. */
function commentFolds(comments: readonly Span[], text: string): Fold[] {
  const joined: Span[] = [];
  for (const comment of comments) {
    const last = joined.at(-1);
    const follows =
      last &&
      text.startsWith('//', comment.start) &&
      /^[ \t]*(\r\n|\n|\r)[ \t]*$/.test(text.slice(last.end, comment.start));
    if (last && follows) joined[joined.length - 1] = { start: last.start, end: comment.end };
    else joined.push({ start: comment.start, end: comment.end });
  }
  return joined.filter((comment) => spansLines(comment, text)).map((comment) => ({ sort: 'comment', ...comment }));
}

function spansLines({ start, end }: Span, text: string): boolean {
  return /[\r\n]/.test(text.slice(start, end));
}
