import type { Move } from '../../flow/graph.ts';
import type { Break } from '../break.ts';
import { type Node, type Question, waysInto } from '../slicing/question.ts';
import type { Context, QuestionSort } from './sort.ts';

/** Is there a loop that no path leaves? It stands at the statement that closes the loop. The same walk notes which steps are reached at all, for `unreachable`. */
export const endless: QuestionSort<Break> = {
  makers: () => [(context) => [walkQuestion(context)]],
  examples: [
    {
      bad: `card a "A" {
  step again: "Look around."
  go to again
//^^^^^^^^^^^ endless
}`,
      good: `card a "A" {
  step again: "Look around."
  if "Is there more?" { go to again }
}`,
    },
  ],
};

/** Walks over every place: steps, ends and the moves that close loops. The rounds of a `repeat` are counted. */
function walkQuestion({ collector, noted }: Context): Question {
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
    look: ({ node, move, after }) => {
      // A check may carry the step behind it.
      if (after(node.state).length === 0) return;
      for (const step of move.steps ?? []) noted.reached.add(step);
      if (isClosing(move.happening)) closings.push({ node, move });
      if (isEnd(move.happening)) ends.add(node);
    },
    atEnd: (places) => {
      const into = waysInto(places);
      for (const node of ends) for (const { from } of into.get(node) ?? []) ends.add(from);
      for (const { node, move } of closings) {
        const { place, call } = move;
        if (!ends.has(node)) collector.add('', place, () => ({ place, path: [], blended: false }), call);
      }
    },
  };
}

function isClosing({ type }: Move['happening']): boolean {
  return type === 'forget';
}

function isEnd({ type }: Move['happening']): boolean {
  return type === 'finish' || type === 'stopped';
}
