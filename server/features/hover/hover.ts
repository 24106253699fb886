/** What the pointer is told: what a name stands for, what it may be here over all paths, and a quantity in a second unit. */
import { innermost, pathAt } from '../../../grammar/navigate.ts';
import type { ItemState, QuantityNode, StateTerm } from '../../../grammar/syntax.ts';
import type { Item } from '../../../shared/card.ts';
import { exact } from '../../../shared/exact.ts';
import type { InParts } from '../../../shared/parts.ts';
import { quantityWords, roundedNearest } from '../../../shared/quantity.ts';
import type { Settings } from '../../../shared/settings.ts';
import type { Span } from '../../../shared/text.ts';
import { counterpart, findUnit } from '../../../shared/units.ts';
import { findSort } from '../../findings/all.ts';
import { alternatives } from '../../findings/support/words.ts';
import type { Snapshot } from '../../snapshot.ts';
import { bold, paragraphs, plain } from '../markdown.ts';
import { nameAt } from '../names.ts';
import { cardAt, stepAt } from '../steps.ts';
import { thingOf } from '../things.ts';
import { describe } from './describe.ts';

export interface Hover {
  readonly span: Span;
  readonly markdown: string;
}

export function* hoverAt(snapshot: Snapshot, offset: number, settings: Settings): InParts<Hover | undefined> {
  const path = pathAt(snapshot.parsed.file, offset);
  const quantity = innermost(path, 'quantity');
  if (quantity) return hoverQuantity(quantity, settings);
  const accept = innermost(path, 'accept');
  if (accept?.code && accept.code.start <= offset && offset <= accept.code.end) return hoverCode(accept.code);

  const named = nameAt(snapshot.bound.references, snapshot.file, offset);
  const thing = named && thingOf(named.declared, snapshot.bound);
  if (!named || !thing) return undefined;
  if (thing.sort === 'item') {
    const here = yield* statesHere(snapshot, thing.item, offset, settings);
    return { span: named.place, markdown: paragraphs(describe(thing, settings), here) };
  }
  if (thing.sort === 'state') {
    const item = itemOf(innermost(path, 'item-state', 'state-term'), snapshot);
    if (item) return { span: named.place, markdown: stateOfItem(item, thing.state) };
  }
  return { span: named.place, markdown: describe(thing, settings) };
}

function* statesHere(snapshot: Snapshot, item: Item, offset: number, settings: Settings): InParts<string | undefined> {
  const card = cardAt(snapshot, offset);
  const step = card && stepAt(card, snapshot.file, offset);
  if (!card || !step) return undefined;
  const proof = yield* snapshot.proofInParts(card, settings);
  const [possible] = yield* proof.statesAt(step.place, [item]);
  if (!possible || possible.states.length === 0) return undefined;
  const states = possible.states.map((state) => bold(item.kind.states[state]?.name ?? ''));
  return `Before this step, over all paths: ${alternatives(states)}`;
}

function itemOf(node: ItemState | StateTerm | undefined, { bound }: Snapshot): Item | undefined {
  const name = node?.type === 'item-state' ? node.item : node?.quantifier ? undefined : node?.subject;
  return name && bound.equipment.items.find((item) => item.name === name.text);
}

/** How the card prints it: `Open the left wash valve.` */
function stateOfItem(item: Item, index: number): string {
  const state = item.kind.states[index];
  const words = state?.wording?.replace('{}', item.label);
  return paragraphs(`${bold(item.label)} ${plain(state?.name ?? '')}`, words && `Prints as “${plain(words)}.”`);
}

function hoverQuantity({ number, unit, start, end }: QuantityNode, { secondUnits }: Settings): Hover | undefined {
  const known = unit && findUnit(unit.text);
  const other = known && secondUnits !== 'none' ? counterpart(known, secondUnits) : undefined;
  if (!known || !number || !other) return undefined;
  const value = { value: exact(number.text), unit: known };
  return {
    span: { start, end },
    markdown: `${plain(quantityWords(value))} is about ${bold(quantityWords(roundedNearest(value, other)))}`,
  };
}

function hoverCode({ text, start, end }: Span & { readonly text: string }): Hover | undefined {
  const sort = findSort(text);
  return (
    sort && { span: { start, end }, markdown: paragraphs(bold(sort.code), plain(sort.title), plain(sort.help.why)) }
  );
}
