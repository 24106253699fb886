/** What is made sure of before the first step and after the last one, a box each: the same on paper and in the work copy. */
import type { Item } from '../../shared/card.ts';
import type { Context } from './context.ts';
import type { ItemAtEnd, StartingFact } from './input.ts';
import { partsNeeded, toolsNeeded, wordsNeeded } from './needs.ts';
import { stateSentence } from './sentences/conditions.ts';
import { capitalised, ended } from './sentences/labels.ts';
import { durationText } from './sentences/times.ts';

export interface Checked {
  readonly text: string;
  readonly reason?: string;
  /** The card relies on it: nobody goes on without it. */
  readonly firm: boolean;
  /** It is only asked where the work has set this. */
  readonly ifSet?: Item;
  /** What is known once it is so. */
  readonly state?: { readonly item: Item; readonly state: number };
}

export function beforeYouStart(context: Context): readonly Checked[] {
  const { input, words } = context;
  const isNeeded = [toolsNeeded(context), partsNeeded(context), wordsNeeded('materials', context)].some(
    (needed) => needed.length > 0,
  );
  const facts = input.beforeYouStart.map((fact): Checked => {
    const reason = reasonOf(fact, context);
    const [state, ...others] = fact.type === 'state' ? fact.states : [];
    return {
      text: startingText(fact, context),
      firm: true,
      ...(reason !== undefined && { reason }),
      ...(fact.type === 'state' && state !== undefined && others.length === 0 && { state: { item: fact.item, state } }),
    };
  });
  return [...(isNeeded ? [{ text: words.front.atHand, firm: false }] : []), ...facts];
}

export function putBackAtEnd(context: Context): readonly Checked[] {
  return context.input.atEnd.filter(({ putBack }) => putBack).map((one) => checkedAtEnd(one, context));
}

export function leftAtEnd(context: Context): readonly Checked[] {
  return context.input.atEnd.filter(({ putBack }) => !putBack).map((one) => checkedAtEnd(one, context));
}

export function alteredAtStops(context: Context): readonly Checked[] {
  return (context.input.atStops ?? []).map(({ item, states }) => ({
    text: stateSentence(item, states, context),
    firm: false,
  }));
}

function checkedAtEnd({ item, states, because }: ItemAtEnd, context: Context): Checked {
  return {
    text: stateSentence(item, states, context),
    firm: false,
    ifSet: item,
    ...(because !== undefined && { reason: whyText(because, context) }),
  };
}

function startingText(fact: StartingFact, context: Context): string {
  const { words } = context;
  switch (fact.type) {
    case 'words':
      return ended(fact.text);
    case 'rested':
      return capitalised(words.front.rested(fact.item.label, durationText(fact.rest, words)), words.tag);
    case 'state':
      return stateSentence(fact.item, fact.states, context);
  }
}

function reasonOf(fact: StartingFact, context: Context): string | undefined {
  if (fact.type !== 'state' || fact.because === undefined) return undefined;
  const { because, from } = fact;
  return whyText(from ? context.words.front.whyFrom[from](because) : because, context);
}

const whyText = (why: string, { words }: Context) => `${words.front.why}: ${ended(why)}`;
