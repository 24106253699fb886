/** What is otherwise in the head of a card. Its revision is: that is what a new revision is. */
import type { AssumedState, Part } from '../../shared/card.ts';
import type { Context } from '../render/context.ts';
import { itemStateText } from '../render/sentences/conditions.ts';
import { whichText } from '../render/sentences/machines.ts';
import type { Change } from './change.ts';
import type { Contexts } from './steps.ts';

type Lists = ReadonlyMap<string, readonly string[]>;

export function headChanges({ old, now }: Contexts): Change[] {
  const [before, after] = [listsOf(old), listsOf(now)];
  const { place } = now.input.card;
  const { listedNew, listedGone, quoted } = now.words.change;
  const listed = (texts: readonly string[], say: typeof listedNew) =>
    texts.length === 0 ? [] : [say(texts.map(quoted).join(', '), texts.length)];
  return [...after].flatMap(([name, is]) => {
    const was = before.get(name) ?? [];
    const told = [...listed(without(is, was), listedNew), ...listed(without(was, is), listedGone)];
    return told.length === 0 ? [] : [{ sort: 'head' as const, text: `${name}: ${told.join(', ')}.`, now: place }];
  });
}

function listsOf(context: Context): Lists {
  const { card } = context.input;
  const { change, front } = context.words;
  const texts = (words: readonly { readonly text: string }[]) => words.map(({ text }) => text);
  const states = (list: readonly AssumedState[]) =>
    list.map(({ item, state }) => itemStateText(item, [state], context));
  return new Map([
    [change.title, [card.title]],
    [change.number, card.number ? [card.number.text] : []],
    [front.purpose, card.purpose === undefined ? [] : [card.purpose]],
    [front.appliesTo, card.applies ? [whichText(card.applies, context.words)] : []],
    [front.crew, card.crew.map(({ label, qualified }) => [label, qualified].filter(Boolean).join(', '))],
    [front.tools, card.tools.map(({ text, calibrated }) => (calibrated ? `${text}, ${change.calibrated}` : text))],
    [front.parts, card.parts.map((part) => partWords(part, context))],
    [front.materials, texts(card.materials)],
    [front.references, texts(card.references)],
    [change.assumed, states(card.assumes)],
    [change.left, states(card.leaves)],
  ]);
}

function partWords({ text: { text }, number, quantity, batch, expires }: Part, { words: { step } }: Context): string {
  return [quantity && `${quantity} ×`, text, number && `(${number})`, batch && step.batch, expires && step.expires]
    .filter(Boolean)
    .join(' ');
}

function without(these: readonly string[], those: readonly string[]): string[] {
  return these.filter((text) => !those.includes(text));
}
