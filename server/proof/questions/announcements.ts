import type { Place } from '../../../shared/text.ts';
import type { Node } from '../question.ts';

interface Way {
  readonly moveIndex: number;
  readonly to: Node;
}

/** Whether a hazard that began without its admonition comes to one later, on some path. */
export class Announcements {
  private readonly at = new Map<Node, Place>();
  private readonly ways = new Map<Node, Way[]>();

  announced(node: Node, place: Place): void {
    this.at.set(node, place);
  }

  way(from: Node, moveIndex: number, to: Node): void {
    const known = this.ways.get(from);
    if (!known) this.ways.set(from, [{ moveIndex, to }]);
    else if (!known.some((way) => way.to === to && way.moveIndex === moveIndex)) known.push({ moveIndex, to });
  }

  /** The nearest admonition after a move. */
  after(from: Node, moveIndex: number): Place | undefined {
    const begun = (this.ways.get(from) ?? []).filter((way) => way.moveIndex === moveIndex);
    const reached = new Set(begun.map(({ to }) => to));
    for (const node of reached) {
      const place = this.at.get(node);
      if (place) return place;
      for (const { to } of this.ways.get(node) ?? []) reached.add(to);
    }
    return undefined;
  }
}
