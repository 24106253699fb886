/** Steps that no path reaches, loops that no path leaves. */
import { blocksOf } from '../../shared/blocks.ts';
import type { Card, Stage, Statement, Step } from '../../shared/card.ts';
import type { Flow, Move } from '../flow/graph.ts';
import { placeKey } from './collector.ts';
import type { Node, Question } from './question.ts';

/** What a walk over all places of a card has met. */
export interface Walked {
  /** Moves that some path takes. */
  readonly taken: Set<number>;
  /** The places from which each place is come to. */
  readonly into: Map<Node, Node[]>;
  readonly ends: Set<Node>;
  /** Jumps back and rounds, with the places that they leave. */
  readonly closings: { readonly node: Node; readonly move: Move }[];
}

/** Walks over every place: steps, ends and the moves that close loops. */
export function walkQuestion(walked: Walked): Question {
  return {
    items: [],
    gauges: [],
    own: [],
    watches: ({ flow, finishes, stops }) =>
      flow.moves.flatMap(({ steps, happening }, index) =>
        steps || isClosing(happening) || finishes.includes(index) || stops.includes(index) ? [index] : [],
      ),
    look: ({ node, move, moveIndex, after }) => {
      // A check may carry the step behind it, and a round may be one too many.
      if (after(node.state).length === 0) return;
      walked.taken.add(moveIndex);
      if (isClosing(move.happening)) walked.closings.push({ node, move });
      if (move.happening.type === 'finish' || move.happening.type === 'stopped') walked.ends.add(node);
    },
  };
}

function isClosing({ type }: Move['happening']): boolean {
  return type === 'forget' || type === 'again';
}

export function noteWay({ into }: Walked, from: Node, to: Node): void {
  const known = into.get(to);
  if (known) known.push(from);
  else into.set(to, [from]);
}

export function stepsReached(flow: Flow, taken: ReadonlySet<number>): { drawn: Set<string>; reached: Set<string> } {
  const keys = (steps: readonly Step[]) => new Set(steps.map((step) => placeKey(step.place)));
  const entered = [...taken].flatMap((index) => flow.moves[index]?.steps ?? []);
  return { drawn: keys(flow.steps), reached: keys(entered) };
}

/** Of several steps in a row that are not reached, the first. */
export function firstUnreached(card: Card, drawn: ReadonlySet<string>, reached: ReadonlySet<string>): Step[] {
  const first: Step[] = [];
  const listed = new Set<string>();
  let before = true;
  for (const step of stepsIn(card.body)) {
    const key = placeKey(step.place);
    if (!drawn.has(key) || listed.has(key)) continue;
    listed.add(key);
    if (before && !reached.has(key)) first.push(step);
    before = reached.has(key);
  }
  return first;
}

export function stepsIn(body: readonly (Stage | Statement)[]): Step[] {
  return body.flatMap((part) => (part.type === 'step' ? [part] : blocksOf(part).flatMap(stepsIn)));
}

/** The moves that close loops from which no path comes to an end. */
export function endlessClosings({ ends, into, closings }: Walked): Move[] {
  const ending = new Set(ends);
  for (const node of ending) for (const before of into.get(node) ?? []) ending.add(before);
  return closings.filter(({ node }) => !ending.has(node)).map(({ move }) => move);
}
