/** The safety questions of a card asked once more, where something is otherwise: of another start, or of a flow that knows less. */
import type { Card } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import { makersFor } from '../all-questions.ts';
import { placeKey } from '../break.ts';
import { Collector } from '../collector.ts';
import { Asker, type AskOptions } from '../exploring/ask.ts';
import { startOf } from '../exploring/start.ts';
import { nothingNoted } from '../found.ts';
import type { Things } from '../meaning/things.ts';
import type { Because } from '../questions/sort.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';

export interface Asking {
  readonly card: Card;
  readonly index: FlowIndex;
  readonly options: AskOptions;
}

export interface SafetyAsked {
  /** What was trusted in where something goes wrong, by what goes wrong where. */
  readonly broken: ReadonlyMap<string, Because>;
  /** What each question must know, by its name. */
  readonly known: ReadonlyMap<string, Things>;
}

export function* askSafety(
  { card, index, options }: Asking,
  isWanted: (question: string) => boolean = () => true,
  start = startOf(card),
): InParts<SafetyAsked> {
  const { flow } = index;
  const asker = new Asker(card, index, options, start);
  const broken = new Map<string, Because>();
  const known = new Map<string, Things>();
  for (const { name, list, sort, make } of makersFor(card, flow)) {
    if (!sort.reason) continue;
    const collector = new Collector();
    const context = { card, flow, collector, noted: nothingNoted(), start, path: () => [], lostBy: () => undefined };
    for (const [number, question] of make(context).entries()) {
      const questionName = `${name} ${number}`;
      if (!isWanted(questionName)) continue;
      const { slice } = yield* asker.ask(question);
      known.set(questionName, { items: new Set(slice.items), gauges: new Set(slice.gauges) });
      yield;
    }
    for (const { about, fact } of collector.found)
      broken.set(`${list} ${about} ${placeKey(fact.place)}`, sort.reason(fact));
  }
  return { broken, known };
}
