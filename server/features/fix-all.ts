/** Mends what is plainly a slip of the pen, on saving: nothing that changes what the crew does. */
import type { Finding, TextEdit } from '../../shared/finding.ts';

/** What does not parse, and acceptances that silence nothing: their one fix leaves the meaning as it was meant. */
const slips = /^(syntax\.|accept\.unused$)/;

/** The edits of all such findings in a file; of two that overlap, the first. */
export function fixAll(findings: readonly Finding[], file: string): TextEdit[] {
  const taken: TextEdit[] = [];
  for (const { code, fixes } of findings) {
    const [fix] = fixes;
    if (!fix || fixes.length > 1 || !slips.test(code)) continue;
    const isFree = fix.edits.every((edit) => edit.place.file === file && !taken.some((other) => overlaps(edit, other)));
    if (isFree) taken.push(...fix.edits);
  }
  return taken;
}

function overlaps({ place: one }: TextEdit, { place: other }: TextEdit): boolean {
  return one.start <= other.end && other.start <= one.end;
}
