import type { Gauge, Item } from '../../../shared/card.ts';
import type { FlowIndex } from '../slice.ts';
import type { Question } from '../question.ts';

/** One question for all the conditions that look at the same things: which of their ways can be taken at all? */
export function branchQuestions(index: FlowIndex, taken: Set<number>): Question[] {
  const groups = new Map<string, { items: Item[]; gauges: Gauge[]; moves: Set<object> }>();
  for (const move of index.flow.moves) {
    if (move.happening.type !== 'assume') continue;
    const things = index.things(move.happening.condition);
    const items = [...things.items].sort((a, b) => a.id - b.id);
    const gauges = [...things.gauges].sort((a, b) => a.id - b.id);
    const key = `${items.map((item) => item.id)} | ${gauges.map((gauge) => gauge.id)}`;
    const group = groups.get(key) ?? { items, gauges, moves: new Set() };
    group.moves.add(move);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ items, gauges, moves }) => ({
    items,
    gauges,
    own: [],
    watches: (move) => moves.has(move),
    look: (look) => {
      if (!taken.has(look.moveIndex) && look.after(look.node.state).length > 0) taken.add(look.moveIndex);
    },
  }));
}
