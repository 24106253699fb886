/** All cards of two revisions, each held against its counterpart. */

import { standingOf } from '../pages/standing.ts';
import { type Comparable, compareCards, counterpartOf } from './compare.ts';
import type { ComparedCard } from './page.ts';

export function comparedCards(old: readonly Comparable[], now: readonly Comparable[]): readonly ComparedCard[] {
  const before = new Map(now.map((one) => [one, counterpartOf(one, old, now)]));
  const gone = old.filter((one) => ![...before.values()].includes(one));
  return [...now.map((one) => comparedCard(before.get(one), one)), ...gone.map((one) => comparedCard(one, undefined))];
}

function comparedCard(old: Comparable | undefined, now: Comparable | undefined): ComparedCard {
  const input = now?.input();
  const { number, title } = ((now ?? old) as Comparable).card;
  const revision = (one: Comparable) => one.card.revision?.text ?? '–';
  return {
    title: [number?.text, title].filter(Boolean).join(' · '),
    ...(old && { old: revision(old) }),
    ...(now && { now: revision(now) }),
    ...(input && { stands: standingOf(input) }),
    changes: old && input ? compareCards(old.input(), input) : [],
  };
}
