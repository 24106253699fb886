/** The safety questions of a card asked once more, where something is otherwise: of another start, or of a flow that knows less. */
import type { Card, Gauge, Item } from '../../shared/card.ts';
import type { InParts } from '../../shared/parts.ts';
import { Collector } from './collector.ts';
import { Asker, type AskOptions } from './exploring/ask.ts';
import { startOf } from './exploring/start.ts';
import type { Break } from './facts.ts';
import type { Context } from './questions/context.ts';
import type { FlowIndex } from './slicing/flow-index.ts';
import type { Question } from './slicing/question.ts';

/** The safety questions of a card, made anew for each start. */
export type QuestionMaker = (context: Context) => readonly Question[];

export interface Asking {
  readonly card: Card;
  readonly index: FlowIndex;
  readonly make: QuestionMaker;
  readonly options: AskOptions;
}

export interface SafetyAsked {
  readonly broken: ReadonlyMap<string, Break>;
  /** What each question must know. */
  readonly known: readonly { readonly items: ReadonlySet<Item>; readonly gauges: ReadonlySet<Gauge> }[];
}

export function* askSafety(
  { card, index, make, options }: Asking,
  wanted: (question: number) => boolean = () => true,
  start = startOf(card),
): InParts<SafetyAsked> {
  const collector = new Collector();
  const asker = new Asker(card, index, start, options);
  const context: Context = { card, flow: index.flow, collector, start, path: () => [], lostBy: () => undefined };
  const known: SafetyAsked['known'][number][] = [];
  for (const [number, question] of make(context).entries()) {
    if (!wanted(number)) continue;
    const { slice } = yield* asker.ask(question);
    known[number] = { items: new Set(slice.items), gauges: new Set(slice.gauges) };
    yield;
  }
  return { broken: new Map(collector.entries()), known };
}
