/** The safety questions of a card asked once more, where something is otherwise: of another start, or of a flow that knows less. */
import type { Card, Gauge, Item } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import { allQuestions } from '../all-questions.ts';
import type { Break } from '../break.ts';
import { Collector } from '../collector.ts';
import { Asker, type AskOptions } from '../exploring/ask.ts';
import { startOf } from '../exploring/start.ts';
import { nothingNoted } from '../found.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';

export interface Asking {
  readonly card: Card;
  readonly index: FlowIndex;
  readonly options: AskOptions;
}

export interface SafetyAsked {
  readonly broken: ReadonlyMap<string, Break>;
  /** What each question must know. */
  readonly known: readonly { readonly items: ReadonlySet<Item>; readonly gauges: ReadonlySet<Gauge> }[];
}

/** `wanted` is given their numbers, in the order in which the proof of a card asks them. */
export function* askSafety(
  { card, index, options }: Asking,
  wanted: (question: number) => boolean = () => true,
  start = startOf(card),
): InParts<SafetyAsked> {
  const { flow } = index;
  const asker = new Asker(card, index, start, options);
  const broken = new Map<string, Break>();
  const known: SafetyAsked['known'][number][] = [];
  let number = 0;
  for (const [list, { isSafety, parts }] of allQuestions) {
    const collector = new Collector();
    const context = { card, flow, collector, noted: nothingNoted(), start, path: () => [], lostBy: () => undefined };
    for (const question of (isSafety && parts?.(card, flow).flatMap((part) => part(context))) || []) {
      if (wanted(number)) {
        const { slice } = yield* asker.ask(question);
        known[number] = { items: new Set(slice.items), gauges: new Set(slice.gauges) };
        yield;
      }
      number++;
    }
    for (const [key, { fact }] of collector.found) broken.set(`${list} ${key}`, fact);
  }
  return { broken, known };
}
