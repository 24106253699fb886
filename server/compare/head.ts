/** What is otherwise in the head of a card. Its revision is: that is what a new revision is. */
import type { AssumedState, Card, Part } from '../../shared/card.ts';
import type { Context } from '../render/context.ts';
import { itemStateText } from '../render/sentences/conditions.ts';
import { whichText } from '../render/sentences/machines.ts';
import type { Change } from './change.ts';
import type { Contexts } from './steps.ts';

type Lists = Readonly<Record<string, readonly string[]>>;

export function headChanges({ old, now }: Contexts): Change[] {
  const [before, after] = [old, now].map((context) => listsOf(context.input.card, context)) as [Lists, Lists];
  const { place } = now.input.card;
  return Object.keys(after).flatMap((name) => {
    const [was, is] = [before[name] ?? [], after[name] ?? []];
    const told = [...listed(without(is, was), 'new'), ...listed(without(was, is), 'gone')];
    return told.length === 0 ? [] : [{ sort: 'head' as const, text: `${name}: ${told.join(', ')}.`, now: place }];
  });
}

function listsOf(card: Card, context: Context): Lists {
  const texts = (words: readonly { readonly text: string }[]) => words.map(({ text }) => text);
  const states = (list: readonly AssumedState[]) =>
    list.map(({ item, state }) => itemStateText(item, [state], context));
  return {
    Title: [card.title],
    Number: card.number ? [card.number.text] : [],
    Purpose: card.purpose === undefined ? [] : [card.purpose],
    Machines: card.applies ? [whichText(card.applies, context.words)] : [],
    Crew: card.crew.map(({ label, qualified }) => [label, qualified].filter(Boolean).join(', ')),
    Tools: card.tools.map(({ text, calibrated }) => (calibrated ? `${text}, calibrated` : text)),
    Parts: card.parts.map(partWords),
    Materials: texts(card.materials),
    References: texts(card.references),
    'Assumed at the start': states(card.assumes),
    'Left at the end': states(card.leaves),
  };
}

function partWords({ text, number, quantity, batch, expires }: Part): string {
  return [text, number, quantity && `${quantity} pieces`, batch && 'batch', expires && 'expiry date']
    .filter(Boolean)
    .join(', ');
}

function without(these: readonly string[], those: readonly string[]): string[] {
  return these.filter((text) => !those.includes(text));
}

function listed(texts: readonly string[], word: 'new' | 'gone'): string[] {
  if (texts.length === 0) return [];
  return [`${texts.map((text) => `“${text}”`).join(', ')} ${texts.length === 1 ? 'is' : 'are'} ${word}`];
}
