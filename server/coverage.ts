/** How much of a card the proof follows: what a clean check says of it, and what it does not. */
import type { Action, Card, Item, Step } from '../shared/card.ts';
import { conditionsAskedBy, itemsIn } from '../shared/conditions.ts';
import { getOrInsert } from '../shared/maps.ts';
import type { NotFollowed } from '../shared/not-followed.ts';
import { oncePerStructure } from '../shared/structure.ts';
import type { Place } from '../shared/text.ts';
import { actionsIn, stepsIn } from './findings/support/card.ts';
import { sentencesIn } from './findings/support/sentences.ts';
import { namedIn, recognise, type Said } from './prose/recognise.ts';
import { numberSteps } from './render/numbering.ts';

/**
 * A step counts that does something to the machine or has a text; one that only signs or writes something down does not. It is
 * followed where one of its actions sets, looks at, reads or waits for something, or asks a question: the proof goes on with
 * both answers. A text alone is not, whatever it says, nor is a torque, which changes no state.
 */
export interface Coverage {
  readonly steps: number;
  readonly followedSteps: number;
  /** The other steps, in the order of the card. */
  readonly notFollowed: readonly (NotFollowed & { readonly place: Place })[];
  /** The items of the card's equipment, and those that an action of the card names. */
  readonly items: number;
  readonly followedItems: number;
}

const known = new WeakMap<Card, Coverage>();

export function coverageOf(card: Card): Coverage {
  return getOrInsert(known, card, () => worked(card));
}

function worked(card: Card): Coverage {
  const { steps, others, numberOf, followedItems: items } = wordless(card);
  return {
    steps,
    followedSteps: steps - others.length,
    notFollowed: others.map((step) => ({
      number: numberOf(step),
      words: wordsOf(step),
      ...whyOf(step, card),
      place: step.head,
    })),
    items: card.equipment.items.length,
    followedItems: items,
  };
}

interface Wordless extends Pick<Coverage, 'steps' | 'followedItems'> {
  /** The steps that are not followed. */
  readonly others: readonly Step[];
  readonly numberOf: (step: Step) => number;
}

const wordless = oncePerStructure((card): Wordless => {
  // A procedure's step is one step, however often it is done.
  const steps = new Map<string, { readonly step: Step; readonly followed: boolean }>();
  for (const { step } of stepsIn(card.body)) {
    const followed = step.actions.some(isFollowed);
    if (followed || step.texts.length > 0 || step.actions.some(({ type }) => type === 'tighten')) {
      const key = `${step.place.file}:${step.place.start}`;
      if (followed || !steps.has(key)) steps.set(key, { step, followed });
    }
  }
  return {
    steps: steps.size,
    others: [...steps.values()].filter(({ followed }) => !followed).map(({ step }) => step),
    numberOf: numberSteps(card, undefined).numberOf,
    followedItems: followedItems(card).size,
  };
});

/** The items that an action of the card sets, runs or looks at. */
export function followedItems(card: Card): ReadonlySet<Item> {
  return new Set([...actionsIn(card.body)].flatMap((action) => (isFollowed(action) ? itemsOf(action) : [])));
}

type Counted = Pick<Coverage, 'steps' | 'followedSteps'> & {
  readonly notFollowed: readonly Pick<NotFollowed, 'sort'>[];
};

/** `the proof follows 22 of 25 steps; 2 are for people only, 1 says what it does not see` */
export function coverageWords(cards: readonly Counted[]): string {
  const sum = (of: (one: Counted) => number): number => cards.reduce((total, one) => total + of(one), 0);
  const others = (sort: NotFollowed['sort']): number =>
    sum(({ notFollowed }) => notFollowed.filter((one) => one.sort === sort).length);
  const steps = sum((one) => one.steps);
  const [people, unseen] = [others('people'), others('unseen')];
  const apart = [
    ...(people > 0 ? [`${people} ${people === 1 ? 'is' : 'are'} for people only`] : []),
    ...(unseen > 0 ? [`${unseen} ${unseen === 1 ? 'says' : 'say'} what it does not see`] : []),
  ];
  return [
    `the proof follows ${sum((one) => one.followedSteps)} of ${steps} step${steps === 1 ? '' : 's'}`,
    ...(apart.length > 0 ? [apart.join(', ')] : []),
  ].join('; ');
}

// ---------------------------------------------------------------- what is followed

type InStep = Step['actions'][number];

function isFollowed(action: InStep): action is Action {
  switch (action.type) {
    case 'set':
    case 'ensure':
    case 'read':
    case 'bring':
    case 'run':
    case 'wait':
    case 'check':
      return true;
    case 'tighten':
    case 'record':
    case 'sign':
    case 'accept':
      return false;
  }
}

function itemsOf(action: Action): Item[] {
  const own =
    action.type === 'set' || action.type === 'ensure'
      ? action.changes.map(({ item }) => item)
      : action.type === 'run'
        ? [action.item]
        : [];
  return [...own, ...conditionsAskedBy(action).flatMap(itemsIn)];
}

// ---------------------------------------------------------------- what is not

function wordsOf({ texts, actions }: Step): string {
  if (texts.length > 0) return texts.map(({ text }) => text).join(' ');
  return actions
    .flatMap((action) => (action.type === 'tighten' ? [action.what] : []))
    .map((what) => `Tighten ${'label' in what ? what.label : what.text}`)
    .join(', ');
}

function whyOf({ texts, actions }: Step, card: Card): Pick<NotFollowed, 'sort' | 'why'> {
  const accepted = actions.find((action) => action.type === 'accept' && action.code === 'prose.unsaid-action');
  if (accepted) return { sort: 'people', why: 'only words, and accepted as such: nothing more is asked for' };
  const text = { sentences: texts.flatMap((one) => sentencesIn(one.text)), language: card.language?.text ?? 'en' };
  const said = recognise(text, card.equipment);
  if (said.length > 0) return { sort: 'unseen', why: `only words, which the proof does not see: ${asActions(said)}` };
  if (actions.some(({ type }) => type === 'tighten'))
    return { sort: 'people', why: 'a torque changes no state: nothing more is asked for' };
  const [thing] = namedIn(text, card.equipment);
  const about = thing ? `words that name ${thing.label} and no state of it` : 'words for whoever does the work';
  return { sort: 'people', why: `${about}: no item is to be made up for them` };
}

function asActions(said: readonly Said[]): string {
  return `say it as ${said.map(({ actions }) => actions.join(' or ')).join('; ')}`;
}
