/** Binds small files written in a test, and holds what is found against the marks in them. */
import { expect } from 'vitest';
import { parse } from '../../../grammar/parse.ts';
import { type Bound, bind, type Problem } from '../../../server/binding/bind.ts';
import { compareWithMarks, readMarks } from '../../support/marks.ts';

/** By path. The last one is the file that is bound. */
export type Texts = Readonly<Record<string, string>>;

export function bindTexts(texts: Texts): Bound {
  const path = Object.keys(texts).at(-1) ?? '';
  return bind(path, (wanted) => {
    const text = texts[wanted];
    return text === undefined ? undefined : parse(text);
  });
}

/** One file by itself. */
export function bindText(text: string): Bound {
  return bindTexts({ 'a.card': text });
}

/** Marks name sorts of problems: `//^^^ unknown-name`. Every file must have exactly the problems that are marked in it; what is unused does not count. */
export function expectMarked(texts: string | Texts): Bound {
  return expectMarkedOf(texts, (problem) => problem.type !== 'unused');
}

/** As `expectMarked`, for what is unused alone. */
export function expectUnused(texts: string | Texts): Bound {
  return expectMarkedOf(texts, (problem) => problem.type === 'unused');
}

function expectMarkedOf(texts: string | Texts, counts: (problem: Problem) => boolean): Bound {
  const files = typeof texts === 'string' ? { 'a.card': texts } : texts;
  const bound = bindTexts(files);
  for (const [path, text] of Object.entries(files)) {
    const found = bound.problems.filter((problem) => problem.place.file === path && counts(problem)).map(asFinding);
    expect({ path, ...compareWithMarks(readMarks(text), found) }).toEqual({ path, missed: [], unexpected: [] });
  }
  return bound;
}

function asFinding(problem: Problem) {
  return { code: problem.type, place: problem.place, message: 'name' in problem ? problem.name : '' };
}

/** The only problem of this sort. */
export function only<Type extends Problem['type']>(bound: Bound, type: Type): Extract<Problem, { type: Type }> {
  const found = bound.problems.filter((problem): problem is Extract<Problem, { type: Type }> => problem.type === type);
  expect(found).toHaveLength(1);
  return found[0] as Extract<Problem, { type: Type }>;
}
