/** What a card needs, with what the cards that it does need besides. */
import type { Card, Do, Part, Words } from '../../shared/card.ts';
import type { Context } from './context.ts';
import { inPrintedOrder, isFor, onlyOf, type Part as Printed, partsInside } from './numbering.ts';

export interface DoneCard {
  readonly title: string;
  readonly callee: Extract<Do['callee'], { type: 'card' }>;
}

/** The cards that this card has done, each once, with those that they do. */
export function cardsDone({ input: { card, configuration } }: Context): readonly DoneCard[] {
  const found = new Map<string, DoneCard>();
  const visit = (part: Printed): void => {
    if (!isFor(onlyOf(part), configuration)) return;
    if (part.type === 'do' && part.callee.type === 'card')
      found.set(part.name, { title: part.title, callee: part.callee });
    partsInside(part).forEach(visit);
  };
  inPrintedOrder(card).forEach(visit);
  return [...found.values()];
}

export function wordsNeeded(list: 'materials' | 'references', context: Context): readonly Words[] {
  return eachOnce(needed(context).flatMap((needs) => needs[list]));
}

/** A tool is calibrated where one of the cards asks for it. */
export function toolsNeeded(context: Context): Card['tools'] {
  const tools = needed(context).flatMap((needs) => needs.tools);
  return eachOnce([...tools, ...tools.filter(({ calibrated }) => calibrated)]);
}

/** What two cards list under one name is fitted twice. */
export function partsNeeded(context: Context): readonly Part[] {
  return needed(context).flatMap(({ parts }) => parts);
}

function needed(context: Context): readonly Pick<Card, 'tools' | 'parts' | 'materials' | 'references'>[] {
  return [context.input.card, ...cardsDone(context).map(({ callee }) => callee)];
}

function eachOnce<Item extends Words>(items: readonly Item[]): readonly Item[] {
  return [...new Map(items.map((item) => [item.text, item])).values()];
}
