/** Makes a procedure of the selected statements, so that other cards can do the same. */
import { innermost, type Node, pathAt, walk } from '../../../grammar/navigate.ts';
import type { Stage, Statement } from '../../../grammar/syntax.ts';
import type { Span } from '../../../shared/text.ts';
import { freeName } from '../../binding/references.ts';
import { indentAt, lineEndOf, reindented } from '../../findings/support/edits.ts';
import type { Snapshot } from '../../snapshot.ts';
import { dependsOnItsPlace, labelsIn, type RefactorContext, type Refactoring } from './refactoring.ts';

export function extractProcedure({ snapshot, selection }: RefactorContext): Refactoring | undefined {
  const { text, file, parsed } = snapshot;
  if (selection.end === selection.start) return undefined;
  const path = pathAt(parsed.file, selection.start);
  const outer = innermost(path, 'card', 'procedure');
  const selected = trimmed(text, selection);
  if (parsed.problems.some(({ span }) => span.start <= selected.end && selected.start <= span.end)) return undefined;
  const chosen = statementsIn(path, selected);
  const [first] = chosen;
  const last = chosen.at(-1);
  if (!outer || !first || !last || !canMove(chosen, outer, snapshot)) return undefined;

  const name = freeName('new-procedure', snapshot.bound.references);
  const whole = { start: first.start, end: last.end };
  const body = reindented(text.slice(whole.start, whole.end), indentAt(text, whole.start), '  ');
  const procedure = [`procedure ${name}() "New procedure" {`, `  ${body}`, '}', '', ''].join(lineEndOf(text));
  return {
    title: 'Make a procedure of these steps',
    kind: 'extract',
    edits: [
      { place: { file, start: outer.start, end: outer.start }, newText: procedure },
      { place: { file, ...whole }, newText: `do ${name}` },
    ],
  };
}

/** The statements that lie wholly in the selection and beside each other, where it cuts none in two. */
function statementsIn(path: readonly Node[], selection: Span): (Stage | Statement)[] {
  const row = path.findLast(
    (node) =>
      (node.type === 'block' || node.type === 'card') && node.start <= selection.start && selection.end <= node.end,
  );
  const all = row?.type === 'block' ? row.statements : row?.type === 'card' ? row.body : [];
  const touched = all.filter((one) => one.start < selection.end && selection.start < one.end);
  const isWhole = touched.every((one) => selection.start <= one.start && one.end <= selection.end);
  return isWhole && touched.every((one) => one.type !== 'stage') ? [...touched] : [];
}

function trimmed(text: string, { start, end }: Span): Span {
  const selected = text.slice(start, end);
  const before = selected.length - selected.trimStart().length;
  return { start: start + before, end: start + before + selected.trim().length };
}

/** No jump crosses its edge, it speaks of nothing that only its surroundings know, and nothing in it means the card itself. */
function canMove(chosen: readonly (Stage | Statement)[], outer: Node, { bound, file }: Snapshot): boolean {
  if (dependsOnItsPlace(chosen)) return false;
  const inside = labelsIn(chosen);
  if ([...inside.used].some((label) => !inside.declared.has(label))) return false;
  let isJumpedInto = false;
  walk(outer, (node) => {
    const isChosen = chosen.some((one) => one.start <= node.start && node.end <= one.end);
    if (node.type === 'go' && !isChosen && node.label && inside.declared.has(node.label.text)) isJumpedInto = true;
  });
  const start = (chosen[0] as Statement).start;
  const end = (chosen.at(-1) as Statement).end;
  const usesParameter = bound.references.uses.some(
    ({ place, declared }) =>
      declared.sort === 'parameter' &&
      place.file === file &&
      start <= place.start &&
      place.end <= end &&
      declared.place.start < start,
  );
  return !isJumpedInto && !usesParameter;
}
