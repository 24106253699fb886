import type { Gauge, Item } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import type { Move, Track } from '../../flow/graph.ts';
import { mostPlacesTold } from '../../flow/limits.ts';
import type { Ticks } from '../../flow/time.ts';
import type { Answer } from '../meaning/answer.ts';
import type { Variables, View } from '../meaning/evaluate.ts';
import type { State } from '../meaning/state.ts';
import type { FlowIndex } from './flow-index.ts';
import type { Monitor, MonitorName } from './monitor.ts';

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

/** A move taken from one node to another. */
export interface Way {
  readonly from: Node;
  /** The states at the node with which it is taken, where times hang on them. */
  readonly part: State;
  readonly move: Move;
  readonly moveIndex: number;
  readonly to: Node;
  /** How long an item has been in a state, as a mask, after it, by the clock of a lane; only where the card asks for that. */
  readonly stayOf?: (track: Track, item: Item, state: number) => Ticks | undefined;
}

/** All that paths come to. */
export interface Places {
  readonly nodes: readonly Node[];
  /** For each node the ways onward, where they are kept. */
  readonly ways: readonly (readonly Way[])[];
}

/** The ways that lead to each node. */
export function waysInto({ ways }: Places): ReadonlyMap<Node, readonly Way[]> {
  const into = new Map<Node, Way[]>();
  for (const way of ways.flat()) getOrInsert(into, way.to, () => []).push(way);
  return into;
}

/** From the start to a node, by the way that was best for each node. */
export function waysTo(node: Node, by: readonly (Way | undefined)[]): Way[] {
  const ways: Way[] = [];
  const seen = new Set([node]);
  for (let way = by[node.id]; way && !seen.has(way.from) && ways.length < mostPlacesTold; way = by[way.from.id]) {
    seen.add(way.from);
    ways.push(way);
  }
  return ways.reverse();
}

/** A move that a question watches, from one node and before it is taken: it cannot be where `after` gives nothing. */
export interface Look {
  readonly node: Node;
  readonly move: Move;
  /** The items of the question. */
  readonly items: readonly Item[];
  readonly moveIndex: number;
  /** What the move makes of a part of the node's state. */
  readonly after: (part: State) => readonly State[];
  /** The state right after what happens, before anything moves by itself. */
  readonly happened: (part: State) => readonly State[];
  /** What may become of a state by itself; what is only seen is taken to stay. */
  readonly moved: (part: State) => readonly State[];
  /** An answer about the state right after; what it asks to look at is looked up where the state before has it. */
  readonly seenBefore: (answer: Answer) => Answer;
  /** A part of the state with only this item set. */
  readonly set: (part: State, item: Item, value: number) => State;
  readonly variables: Variables;
  /** `as`: see `ReadingsAs`. */
  readonly view: (state: State, as: View['as'], readings?: State) => View;
  /** As it was when standing questions were last asked: at the last action or passing of time. */
  readonly viewAtLastAsk: (state: State, as: View['as'], readings?: State) => View;
  /** A state that the move has made of the state `before`. */
  readonly viewAfter: (state: State, as: View['as'], before: State) => View;
  /** The value of one of the question's monitors before the move. */
  readonly monitor: (monitor: MonitorName) => number | undefined;
}

/** What is asked of every path: it says what it needs to know, at which moves it looks, and looks. */
export interface Question {
  readonly items: readonly Item[];
  readonly gauges: readonly Gauge[];
  readonly monitors: readonly Monitor[];
  /** The moves that it looks at, as indices. */
  readonly watches: (index: FlowIndex) => readonly number[];
  readonly look: (look: Look) => void;
  /** Told of all places and ways; `valueAt` gives the value of one of its monitors at a node from which something is still looked at. */
  readonly atEnd?: (
    places: Places,
    variables: Variables,
    valueAt: (node: Node, monitor: MonitorName) => number | undefined,
  ) => void;
  /** What is to be kept of a state at the start and after a move that passes time, before the readings of `before` are forgotten. */
  readonly settle?: (settling: Settling) => readonly State[];
}

/** A state that a move has led to. */
export interface Settling {
  readonly before: State;
  readonly after: State;
  /** Nothing has happened yet: both are the state in which the card begins. */
  readonly isStart: boolean;
  readonly variables: Variables;
  readonly view: Look['view'];
  /** The variable of one of the question's monitors. */
  readonly ofMonitor: (monitor: MonitorName) => number | undefined;
}
