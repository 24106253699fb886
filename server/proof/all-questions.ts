/** All sorts of questions, by the names of their lists in a proof. */
import type { Break } from './break.ts';
import { endless } from './questions/endless.ts';
import { hazards } from './questions/hazard-begins.ts';
import { notAssumed } from './questions/not-assumed.ts';
import { notFed } from './questions/not-fed.ts';
import { leftChanged } from './questions/put-back.ts';
import { rules } from './questions/rules.ts';
import type { QuestionSort } from './questions/sort.ts';
import { unprotected } from './questions/unprotected.ts';
import { unsafeStops } from './questions/unsafe-stop.ts';
import { doses } from './time/doses.ts';
import { duties } from './time/duty-breaks.ts';

const all = { rules, hazards, unprotected, unsafeStops, notFed, leftChanged, notAssumed, duties, doses, endless };

type FactOf<Sort> = Sort extends QuestionSort<infer Fact> ? Fact : never;

/** What they find, each in its list. */
export type QuestionFacts = { readonly [List in keyof typeof all]: readonly FactOf<(typeof all)[List]>[] };

export const allQuestions = Object.entries<QuestionSort<Break>>(all);
