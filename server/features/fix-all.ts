/** Mends what is plainly a slip of the pen, on saving: nothing that changes what the crew does. */
import type { Finding, Fix, TextEdit } from '../../shared/finding.ts';
import type { InParts } from '../../shared/parts.ts';

/** What does not parse, and acceptances that silence nothing: their one fix leaves the meaning as it was meant. */
const slips = /^(syntax\.|accept\.unused$)/;

/** The edits of all such findings in a file that are sound where they are made alone; of two that overlap, the first. */
export function* fixAll(
  findings: readonly Finding[],
  file: string,
  soundOf: (finding: Finding) => InParts<readonly Fix[]>,
): InParts<TextEdit[]> {
  const taken: TextEdit[] = [];
  for (const finding of findings) {
    const [fix] = finding.fixes;
    if (!fix || finding.fixes.length > 1 || !slips.test(finding.code)) continue;
    const isFree = fix.edits.every((edit) => edit.place.file === file && !taken.some((other) => overlaps(edit, other)));
    if (isFree && (yield* soundOf(finding)).includes(fix)) taken.push(...fix.edits);
  }
  return taken;
}

function overlaps({ place: one }: TextEdit, { place: other }: TextEdit): boolean {
  return one.start <= other.end && other.start <= one.end;
}
