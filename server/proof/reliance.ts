/** Which starting states the card relies on and never checks: take one away, and see whether something goes wrong. */
import type { Card, Item } from '../../shared/card.ts';
import type { InParts } from '../../shared/parts.ts';
import { Collector } from './collector.ts';
import type { AskOptions } from './exploring/ask.ts';
import { Asker } from './exploring/ask.ts';
import { startOf } from './exploring/start.ts';
import type { Break, HazardBegins, NotFed, Reliance, RuleBreak, Unprotected } from './facts.ts';
import { allStates, bitsOf, isSingle } from './meaning/state.ts';
import type { Context } from './questions/context.ts';
import type { FlowIndex } from './slicing/flow-index.ts';
import type { Question } from './slicing/question.ts';

/** The safety questions of a card, made anew for each start. */
export type QuestionMaker = (context: Context) => readonly Question[];

export function* relianceOn(
  card: Card,
  index: FlowIndex,
  make: QuestionMaker,
  hanging: readonly ReadonlySet<Item>[],
  options: AskOptions,
): InParts<Reliance[]> {
  const start = startOf(card);
  const usual = yield* outcome(card, index, make, start, options, () => true);
  const reliances: Reliance[] = [];
  for (const item of card.equipment.items) {
    if (item.kind.seen || !isSingle(start(item)) || card.assumes.some((assumed) => assumed.item === item)) continue;
    const matters = hanging.map((items) => items.has(item));
    if (!matters.includes(true)) continue;
    const open = (one: Item) => (one === item ? allStates(one) : start(one));
    const broken = yield* outcome(card, index, make, open, options, (question) => matters[question] === true);
    const fresh = [...broken].find(([key]) => !usual.has(key));
    if (fresh) reliances.push({ item, state: bitsOf(start(item))[0] as number, ...reasonOf(fresh[1]), assumed: false });
  }
  return reliances;
}

function* outcome(
  card: Card,
  index: FlowIndex,
  make: QuestionMaker,
  start: (item: Item) => number,
  options: AskOptions,
  wanted: (question: number) => boolean,
): InParts<Map<string, Break>> {
  const collector = new Collector();
  const asker = new Asker(card, index, start, options);
  const context: Context = { card, flow: index.flow, collector, start, path: () => [], lostBy: () => undefined };
  for (const [number, question] of make(context).entries()) {
    if (!wanted(number)) continue;
    yield* asker.ask(question);
    yield;
  }
  return new Map(collector.entries());
}

function reasonOf(fact: Break): Pick<Reliance, 'because' | 'from'> {
  const { rule, hazard, supply } = fact as Partial<RuleBreak & HazardBegins & Unprotected & NotFed>;
  if (rule) return { because: rule.title, from: 'rule' };
  if (hazard) return { because: hazard.label, from: 'hazard' };
  return supply ? { because: supply.label, from: 'supply' } : {};
}
