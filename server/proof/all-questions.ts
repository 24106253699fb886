/** All sorts of questions, by the names of their lists in a proof. */
import type { Card } from '../../shared/card.ts';
import type { Flow } from '../flow/graph.ts';
import type { Break } from './break.ts';
import { endless } from './questions/endless.ts';
import { hazards } from './questions/hazard-begins.ts';
import { notAssumed } from './questions/not-assumed.ts';
import { notFed } from './questions/not-fed.ts';
import { leftChanged } from './questions/put-back.ts';
import { rules } from './questions/rules.ts';
import type { Maker, QuestionSort } from './questions/sort.ts';
import { unprotected } from './questions/unprotected.ts';
import { unsafeStops } from './questions/unsafe-stop.ts';
import { doses } from './time/doses.ts';
import { duties } from './time/duty-breaks.ts';

const all = {
  rules,
  hazards,
  unprotected,
  unsafeStops,
  notFed,
  leftChanged,
  notAssumed,
  duties,
  doses,
  endless,
};

type FactOf<Sort> = Sort extends QuestionSort<infer Fact> ? Fact : never;

/** What they find, each in its list. */
export type QuestionFacts = { readonly [List in keyof typeof all]: readonly FactOf<(typeof all)[List]>[] };

export const allQuestions = Object.entries<QuestionSort<Break>>(all);

/** What makes some of the questions of a card, and the name by which it is known when they are asked once more. */
export interface NamedMaker {
  readonly name: string;
  readonly list: string;
  readonly sort: QuestionSort<Break>;
  readonly make: Maker<Break>;
}

export function makersFor(card: Card, flow: Flow): NamedMaker[] {
  return allQuestions.flatMap(([list, sort]) =>
    (sort.makers?.(card, flow) ?? []).map((make, number) => ({ name: `${list} ${number}`, list, sort, make })),
  );
}
