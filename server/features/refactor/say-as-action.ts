/** Says the text of a step as an action, where the equipment would print the same words for one. */
import { innermost, pathAt } from '../../../grammar/navigate.ts';
import { proposeAction } from '../propose-action.ts';
import type { RefactorContext, Refactoring } from './refactoring.ts';

export function sayAsAction({ snapshot, selection }: RefactorContext): Refactoring | undefined {
  const path = pathAt(snapshot.parsed.file, selection.start);
  const step = innermost(path, 'step');
  const text = innermost(path, 'text');
  if (!step || !text || !step.parts.includes(text) || step.actions.length > 0) return undefined;
  const action = proposeAction(text.value, snapshot.bound.equipment.items);
  if (!action) return undefined;
  const place = { file: snapshot.file, start: text.start, end: text.end };
  return { title: `Say it as: ${action}`, kind: 'rewrite', edits: [{ place, newText: action }] };
}
