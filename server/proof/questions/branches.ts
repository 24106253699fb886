import type { Gauge, Item } from '../../../shared/card.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';
import type { Node, Question } from '../slicing/question.ts';

/** Conditional moves that some path takes, and those that some path comes to and cannot take. */
export interface Ways {
  readonly taken: Set<number>;
  readonly refused: Set<number>;
}

/**
 * One question for all the conditions that look at the same things: which of their ways can be taken at all? Readings come
 * first: they are mostly open both ways, and what is open need not be looked at by the questions that follow.
 */
export function branchQuestions(index: FlowIndex, { taken, refused }: Ways): Question[] {
  const groups = new Map<string, { items: Item[]; gauges: Gauge[]; moves: number[] }>();
  for (const moveIndex of index.asking) {
    const things = index.thingsAt(moveIndex);
    const items = [...things.items].sort((a, b) => a.id - b.id);
    const gauges = [...things.gauges].sort((a, b) => a.id - b.id);
    const key = `${items.map((item) => item.id)} | ${gauges.map((gauge) => gauge.id)}`;
    const group = groups.get(key) ?? { items, gauges, moves: [] };
    group.moves.push(moveIndex);
    groups.set(key, group);
  }
  return [...groups.values()]
    .sort((a, b) => a.items.length - b.items.length)
    .map(({ items, gauges, moves }) => ({
      items,
      gauges,
      monitors: [],
      watches: () => moves,
      look: ({ node, moveIndex, after }) => {
        if (after(node.state).length > 0) taken.add(moveIndex);
        else refused.add(moveIndex);
      },
    }));
}

/** Tells later questions which ways are open in every state; blended states would call too many so. */
export function noteFreeMoves(
  index: FlowIndex,
  question: Question,
  { taken, refused }: Ways,
  nodes: readonly Node[],
): void {
  if (nodes.some((node) => node.blended)) return;
  for (const move of question.watches(index)) {
    if (taken.has(move) && !refused.has(move)) index.free.add(move);
  }
}
