import type { Condition, Gauge, Hazard, Item } from '../../shared/card.ts';
import type { Move } from '../flow/graph.ts';
import type { Variables, View } from './evaluate.ts';
import type { State, Variable } from './state.ts';

/** A place on a path: a point of the graph with a state, and the move by which the shortest path came there. */
export interface Node {
  readonly id: number;
  readonly point: number;
  state: State;
  readonly parent?: Node;
  /** Index of the move that led here. */
  readonly move?: number;
  readonly blended: boolean;
}

/** One move taken from one node, as a question sees it. */
export interface Look {
  readonly node: Node;
  readonly move: Move;
  readonly moveIndex: number;
  /** What the move makes of a part of the node's state. */
  readonly after: (part: State) => readonly State[];
  /** A part of the state with only this item set, before anything moves by itself. */
  readonly set: (part: State, item: Item, value: number) => State;
  readonly variables: Variables;
  readonly view: (state: State, as: View['as'], readings?: State) => View;
  /** The value of one of the question's own variables. */
  readonly own: (type: Variable['type']) => number | undefined;
}

/** What is asked of every path: it says what it needs to know, at which moves it looks, and looks. */
export interface Question {
  readonly items: readonly Item[];
  readonly gauges: readonly Gauge[];
  /** Variables of its own, beside the items and gauges. */
  readonly own: readonly Variable[];
  readonly watches: (move: Move) => boolean;
  readonly look: (look: Look) => void;
  /** The hazard whose admonition sets `shown`. */
  readonly hazard?: Hazard;
  /** The answer to `was-met`, where the question has that variable. */
  readonly wasMet?: Condition;
}
