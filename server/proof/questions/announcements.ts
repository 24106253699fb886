import { getOrInsert } from '../../../shared/maps.ts';
import type { Place } from '../../../shared/text.ts';
import type { Node } from '../slicing/question.ts';

/** A move from a place, by which a hazard begins without its admonition. */
interface Beginning {
  readonly from: Node;
  readonly moveIndex: number;
}

interface Way {
  readonly moveIndex: number;
  readonly to: Node;
  /** The hazard is there after it. */
  readonly there: boolean;
}

/** Whether a hazard that began without its admonition comes to one later, on some path. */
export class Announcements {
  private readonly at = new Map<Node, Place>();
  private readonly ways = new Map<Node, Way[]>();
  private readonly beginnings = new Map<string, Beginning[]>();

  announced(node: Node, place: Place): void {
    this.at.set(node, place);
  }

  /** A writer sees one beginning where many paths have theirs: those with one key. */
  begins(key: string, beginning: Beginning): void {
    getOrInsert(this.beginnings, key, () => []).push(beginning);
  }

  way(from: Node, way: Way): void {
    const known = getOrInsert(this.ways, from, () => []);
    if (!known.some(({ to, moveIndex }) => to === way.to && moveIndex === way.moveIndex)) known.push(way);
  }

  /** The nearest admonition after a beginning with this key. */
  after(key: string): Place | undefined {
    const begun = (this.beginnings.get(key) ?? []).flatMap(({ from, moveIndex }) =>
      (this.ways.get(from) ?? []).filter((way) => way.there && way.moveIndex === moveIndex),
    );
    const reached = new Set(begun.map(({ to }) => to));
    for (const node of reached) {
      const place = this.at.get(node);
      if (place) return place;
      for (const { to } of this.ways.get(node) ?? []) reached.add(to);
    }
    return undefined;
  }
}
