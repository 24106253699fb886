import type { Place } from '../../../shared/text.ts';
import type { Node, Places } from '../slicing/question.ts';

/** A move from a place, by which a hazard begins without its admonition. */
export interface Beginning {
  readonly node: Node;
  readonly moveIndex: number;
}

/**
 * The nearest admonition that a hazard comes to later on some path, where it began without one.
 * @param shownAt where the admonition stands
 * @param isThere whether the hazard is there at a node
 */
export function admonitionAfter(
  beginnings: readonly Beginning[],
  shownAt: ReadonlyMap<Node, Place>,
  ways: Places['ways'],
  isThere: (node: Node) => boolean,
): Place | undefined {
  const begun = beginnings.flatMap(({ node, moveIndex }) =>
    (ways[node.id] ?? []).filter((way) => way.moveIndex === moveIndex && isThere(way.to)),
  );
  const reached = new Set(begun.map(({ to }) => to));
  for (const node of reached) {
    const place = shownAt.get(node);
    if (place) return place;
    for (const { to } of ways[node.id] ?? []) reached.add(to);
  }
  return undefined;
}
