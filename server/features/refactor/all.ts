/** Every refactoring that fits a selection. */
import { extractLimit } from './extract-limit.ts';
import { extractProcedure } from './extract-procedure.ts';
import { inlineProcedure } from './inline-procedure.ts';
import type { RefactorContext, Refactoring } from './refactoring.ts';

const all = [extractProcedure, extractLimit, inlineProcedure];

export function refactorings(context: RefactorContext): Refactoring[] {
  return all.flatMap((refactor) => refactor(context) ?? []);
}
