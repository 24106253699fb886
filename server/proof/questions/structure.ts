/** Steps that no path reaches, loops that no path leaves. */

import { blocksOf } from '../../../shared/blocks.ts';
import type { Card, Do, Stage, Statement, Step } from '../../../shared/card.ts';
import type { Flow, Move } from '../../flow/graph.ts';
import { placeKey } from '../collector.ts';
import type { Unreached } from '../facts.ts';
import { type Node, type Question, waysInto } from '../slicing/question.ts';

/** What a walk over all places of a card has met. */
export interface Walked {
  /** Moves that some path takes. */
  readonly taken: Set<number>;
  /** Jumps back from which no path comes to an end: the rounds of a `repeat` are counted. */
  readonly endless: Move[];
}

/** Walks over every place: steps, ends and the moves that close loops. */
export function walkQuestion({ taken, endless }: Walked): Question {
  const ends = new Set<Node>();
  const closings: { readonly node: Node; readonly move: Move }[] = [];
  return {
    items: [],
    gauges: [],
    monitors: [],
    watches: ({ flow }) =>
      flow.moves.flatMap(({ steps, happening }, index) =>
        steps || isClosing(happening) || isEnd(happening) ? [index] : [],
      ),
    look: ({ node, move, moveIndex, after }) => {
      // A check may carry the step behind it.
      if (after(node.state).length === 0) return;
      taken.add(moveIndex);
      if (isClosing(move.happening)) closings.push({ node, move });
      if (isEnd(move.happening)) ends.add(node);
    },
    atEnd: (places) => {
      const into = waysInto(places);
      for (const node of ends) for (const { from } of into.get(node) ?? []) ends.add(from);
      endless.push(...closings.flatMap(({ node, move }) => (ends.has(node) ? [] : [move])));
    },
  };
}

function isClosing({ type }: Move['happening']): boolean {
  return type === 'forget';
}

function isEnd({ type }: Move['happening']): boolean {
  return type === 'finish' || type === 'stopped';
}

export function stepsReached(flow: Flow, taken: ReadonlySet<number>): Step[] {
  return [...taken].flatMap((index) => flow.moves[index]?.steps ?? []);
}

/** The steps to which the card leads as it is written, whatever may be so. */
export function stepsWrittenBehind({ start, from, moves }: Flow): Step[] {
  const points = new Set([start]);
  for (const point of points) for (const move of from[point] ?? []) points.add((moves[move] as Move).to);
  return moves.flatMap((move) => (points.has(move.from) ? (move.steps ?? []) : []));
}

/** A step as a card comes to it: in its own text, or by one of the things that it does. */
interface Coming {
  readonly key: string;
  readonly step: Step;
  readonly doing?: Do;
  /** It mends what a check did not find: one that nobody needs is no slip. */
  readonly isMend: boolean;
}

export interface Drawn {
  readonly drawn: ReadonlySet<Step>;
  readonly reached: ReadonlySet<Step>;
  /** As `stepsWrittenBehind`. */
  readonly written: () => ReadonlySet<Step>;
  /** Whether each machine that the card is for was looked at. */
  readonly onAllMachines: boolean;
}

/** Of several steps in a row that are not reached, the first. What the card does is told where it does it, unless no card could come to the step. */
export function firstUnreached(card: Card, { drawn, reached, written, onAllMachines }: Drawn): Unreached[] {
  const comings = comingsIn(card.body);
  const keysOf = (steps: ReadonlySet<Step>) =>
    new Set(comings.flatMap(({ step, key }) => (steps.has(step) ? [key] : [])));
  const known = { drawn: keysOf(drawn), reached: keysOf(reached) };
  const begun = new Set(
    comings.flatMap(({ doing, key }) => (doing && known.reached.has(key) ? placeKey(doing.place) : [])),
  );
  const first = new Map<string, Unreached>();
  let before = true;
  for (const { key, step, doing, isMend } of new Map(comings.map((coming) => [coming.key, coming])).values()) {
    const isDrawn = known.drawn.has(key);
    if (!isDrawn && (doing || !onAllMachines)) continue;
    const isReached = known.reached.has(key);
    if (isMend && !isReached) continue;
    if (before && !isReached) {
      const isBegun = doing !== undefined && begun.has(placeKey(doing.place));
      const isToldAtDo = doing && (!isBegun || keysOf(written()).has(key));
      const where = isToldAtDo ? { place: doing.place, doing, isBegun } : { place: step.head, isBegun: false };
      first.set(placeKey(where.place), { ...where, step, isDrawn, path: [], blended: false });
    }
    before = isReached;
  }
  return [...first.values()];
}

function comingsIn(body: readonly (Stage | Statement)[], doing?: Do, isMend = false): Coming[] {
  return body.flatMap((part): Coming[] => {
    if (part.type !== 'step') {
      const by = part.type === 'do' ? (doing ?? part) : doing;
      return blocksOf(part).flatMap((block) => comingsIn(block, by, isMend || part.type === 'mend'));
    }
    const key = doing ? `${placeKey(doing.place)} ${placeKey(part.place)}` : placeKey(part.place);
    return [{ key, step: part, ...(doing && { doing }), isMend }];
  });
}
