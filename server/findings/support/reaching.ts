/** What was done before and still counts, over all the paths of a card. */

import { blocksOf } from '../../../shared/blocks.ts';
import type { Card, Change, Item, Stage, Statement, Step } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { finish } from '../../../shared/parts.ts';
import type { Call } from '../../proof/break.ts';
import type { Proof, Reach } from '../../proof/facts.ts';
import { stepsIn } from './card.ts';
import type { HandledItem } from './hands.ts';

/** What is followed of each item with which something begins: the last that has begun, until something ends it. */
export interface Followed {
  readonly begins: (handled: HandledItem) => boolean;
  readonly ends: (later: HandledItem, earlier: HandledItem) => boolean;
}

/** What has begun, and in which call if it stands in what the card does several times. */
export interface Begun extends HandledItem {
  readonly call: Call | undefined;
}

/** Something at which it is asked what has begun, and where it has not ended on some path on machines of one sort. */
export interface Later extends HandledItem {
  readonly call: Call | undefined;
  readonly earlier: readonly HandledItem[];
}

/** What comes later, in the order of the card, with what has begun before it. */
export function reaching(
  proof: Proof,
  all: readonly HandledItem[],
  followed: Followed,
  asks: (later: HandledItem, earlier: HandledItem) => boolean,
): (machines: string) => Later[] {
  const found = follow(proof, all, followed, (first) => changesOf(all.filter((one) => asks(one, first))));
  return (machines) => {
    const byPlace = new Map<Reach['at'], { readonly call: Call | undefined; readonly changes: Set<Change> }>();
    for (const { change, at, atIn: call } of found.filter((one) => one.machines === machines))
      getOrInsert(byPlace, at, () => ({ call, changes: new Set<Change>() })).changes.add(change);
    return all.flatMap((later) => {
      const { call, changes } = byPlace.get(later.change) ?? {};
      return changes ? [{ ...later, call, earlier: all.filter(({ change }) => changes.has(change)) }] : [];
    });
  };
}

/** What has begun and not ended where the card finishes. */
export function reachingFinish(proof: Proof, all: readonly HandledItem[], followed: Followed) {
  const found = follow(proof, all, followed, () => new Set()).filter(({ at }) => !at);
  return (machines: string) => begunIn(found, all, machines);
}

/** What has begun in a stage and not ended where a step of another one follows: work may stop where a stage ends. */
export function reachingOverStages(proof: Proof, { body }: Card, all: readonly HandledItem[], followed: Followed) {
  const parts = body.filter((part) => part.type !== 'stage' || !part.whenStopped);
  const entered = new Map(
    parts.flatMap((part) => [...entrances(part)].map((step) => [step, part.type === 'stage' ? part : undefined])),
  );
  const begunAt = new Map(all.map(({ change, stage }) => [change, stage]));
  const steps = new Set(entered.keys());
  const found = follow(proof, all, followed, () => steps).filter(({ change, at }) => {
    const stage = begunAt.get(change);
    return stage !== undefined && at !== undefined && entered.get(at as Step) !== stage;
  });
  return (machines: string) => begunIn(found, all, machines);
}

/** The steps by which a path comes into a stage: all others are behind one of them. */
function* entrances(part: Stage | Statement): Generator<Step> {
  const body = part.type === 'stage' ? part.body : [part];
  yield* firstSteps(body);
  for (const { step } of stepsIn(body)) if (step.label) yield step;
}

function* firstSteps(body: readonly (Stage | Statement)[]): Generator<Step> {
  for (const part of body) {
    if (part.type === 'step') {
      yield part;
      // What is for some machines is passed by on others.
      if (!part.only) return;
    }
    for (const block of blocksOf(part)) yield* firstSteps(block);
  }
}

function begunIn(found: readonly Reach[], all: readonly HandledItem[], machines: string): Begun[] {
  const calls = new Map(
    found.filter((one) => one.machines === machines).map(({ change, changeIn }) => [change, changeIn]),
  );
  return all.filter(({ change }) => calls.has(change)).map((one) => ({ ...one, call: calls.get(one.change) }));
}

function follow(
  proof: Proof,
  all: readonly HandledItem[],
  { begins, ends }: Followed,
  asks: (first: HandledItem) => ReadonlySet<Change | Step>,
): Reach[] {
  const byItem = new Map<Item, HandledItem[]>();
  for (const one of all.filter(begins)) getOrInsert(byItem, one.item, () => []).push(one);
  return [...byItem.values()].flatMap((begun) => {
    const [first] = begun as [HandledItem];
    const ended = changesOf(all.filter((one) => ends(one, first)));
    return finish(proof.reaching({ begins: changesOf(begun), ends: ended, asks: asks(first) }));
  });
}

function changesOf(some: readonly HandledItem[]): ReadonlySet<Change> {
  return new Set(some.map(({ change }) => change));
}
