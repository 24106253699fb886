import type { FileFacts, Found } from '../finding.ts';

/** The slips of one sort that the parser met; it words them itself, since it knows what it waited for. */
export function* syntaxProblems({ file, parsed }: FileFacts, code: string): Iterable<Found> {
  for (const { span, message, opened, fix, ...problem } of parsed.problems) {
    if (problem.code !== code) continue;
    yield {
      place: { file, start: span.start, end: span.end },
      message,
      path: opened
        ? [{ place: { file, start: opened.span.start, end: opened.span.end }, text: `${opened.text} was opened here` }]
        : [],
      fixes: fix
        ? [
            {
              title: fix.title,
              edits: fix.edits.map(({ start, end, newText }) => ({ place: { file, start, end }, newText })),
            },
          ]
        : [],
    };
  }
}
