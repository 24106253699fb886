/** A card says of each place at which a procedure is done what it says where each place has a procedure of its own. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Break, Call } from '../../server/proof/break.ts';
import type { Proof } from '../../server/proof/facts.ts';
import type { Card, Do, Stage, Statement } from '../../shared/card.ts';
import { finish } from '../../shared/parts.ts';
import type { Place } from '../../shared/text.ts';
import { changesIn } from '../support/said-of.ts';
import { bodiesOf } from './conditions.ts';
import { proofOf } from './engine.ts';
import { printApart, printRecipe } from './print-card.ts';
import { callsRecipe } from './recipe.ts';

const seed = Number(process.env.SEED ?? 20261202);
const cards = Number(process.env.CARDS ?? 150);

/** What is done at one place, from there outwards; the card itself has none. */
type Chain = readonly Do[];

function chainsOf(card: Card): readonly Chain[] {
  const within = (part: Stage | Statement, around: Chain): Chain[] => {
    const inside = part.type === 'do' ? [part, ...around] : around;
    const deeper = bodiesOf(part)
      .flat()
      .flatMap((inner) => within(inner, inside));
    return part.type === 'do' ? [inside, ...deeper] : deeper;
  };
  const all: Chain[] = [[], ...card.body.flatMap((part) => within(part, []))];
  // A block for each of several things is bound once for each.
  return [...new Map(all.map((chain) => [chain.map(({ place }) => place.start).join(), chain])).values()];
}

/** Whether something told of these calls is told of this chain. */
function isTold(chain: Chain, calls: readonly Call[] | undefined): boolean {
  return !calls || calls.some((call) => isIn(chain, call));
}

function isIn(chain: Chain, { name, place, outer }: Call): boolean {
  const index = chain.findIndex((each) => each.name === name && each.place.start === place.start);
  return index >= 0 && (!outer || isIn(chain.slice(index + 1), outer));
}

interface Text {
  readonly card: Card;
  readonly text: string;
  readonly proof: Proof;
  readonly chains: readonly Chain[];
}

function read(text: string): Text {
  const { card, proof } = proofOf(text);
  return { text, card, proof, chains: chainsOf(card) };
}

/** What goes wrong, in each chain by number, at a place of what is done there. */
function saidOf(read: Text): readonly string[] {
  const { proof } = read;
  const facts: readonly (readonly [string, Break])[] = [
    ...proof.rules.map((fact) => [`rule ${fact.rule.name}`, fact] as const),
    ...proof.hazards.map((fact) => [`hazard ${fact.hazard.name}`, fact] as const),
    ...proof.unprotected.map((fact) => [`unprotected ${fact.hazard.name}`, fact] as const),
    ...proof.leftChanged.map((fact) => [`left ${fact.item.name}`, fact] as const),
    ...proof.notAssumed.map((fact) => [`assumed ${fact.item.name}`, fact] as const),
    ...proof.endless.map((fact) => ['endless', fact] as const),
    ...proof.duties.map((fact) => [`duty ${fact.item.name}`, fact] as const),
  ];
  const said = facts.flatMap(([about, { place, calls }]) => placesIn(read, place, calls).map((at) => `${about} ${at}`));
  return [...new Set([...said, ...reachingIn(read)])].sort();
}

/** A place of the text in each chain in which it is told of. */
function placesIn({ text, chains }: Text, place: Place, calls: readonly Call[] | undefined): readonly string[] {
  return chains.flatMap((chain, number) =>
    nameAt(text, place) === chain[0]?.name && isTold(chain, calls) ? [`in ${number} at ${offsetIn(text, place)}`] : [],
  );
}

/** Which changes of an item reach which others, or the end. */
function reachingIn(read: Text): readonly string[] {
  const changes = changesIn(read.card);
  return read.card.equipment.items.flatMap((item) => {
    const ofItem = new Set(changes.filter((change) => change.item === item));
    const reaches = finish(read.proof.reaching({ begins: ofItem, ends: ofItem, asks: ofItem }));
    return reaches.map(({ change, changeIn, at, atIn }) => {
      const from = placesIn(read, change.place, changeIn && [changeIn]);
      const to = at ? placesIn(read, at.place, atIn && [atIn]) : ['the end'];
      return `${item.name} ${from.join(' and ')} reaches ${to.join(' and ')}`;
    });
  });
}

/** The start of the procedure or card in which a place is. */
function startAt(text: string, place: Place): number {
  return Math.max(
    ...[...text.matchAll(/^(procedure|card) /gm)].map(({ index }) => index).filter((at) => at <= place.start),
  );
}

function nameAt(text: string, place: Place): string | undefined {
  return /^(?:procedure|card) (drill-\d+)/.exec(text.slice(startAt(text, place)))?.[1];
}

function offsetIn(text: string, place: Place): string {
  const start = startAt(text, place);
  return `${place.start - start} to ${place.end - start}`;
}

test(`on cards of seed ${seed} the calls that are named are those of which it is told`, () => {
  let compared = 0;
  for (const recipe of fc.sample(callsRecipe, { numRuns: cards, seed })) {
    const together = read(printRecipe(recipe));
    const apart = saidOf(read(printApart(recipe)));
    compared += apart.length;
    expect(saidOf(together), together.text).toEqual(apart);
  }
  expect(compared).toBeGreaterThan(cards / 2);
});
