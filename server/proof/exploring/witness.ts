/** The way to a place, as what happens on it. */
import type { Gauge, Item } from '../../../shared/card.ts';
import type { Place } from '../../../shared/text.ts';
import type { Move, Point } from '../../flow/graph.ts';
import { eventsFromStart, mostEventsTold } from '../../flow/limits.ts';
import { seconds, type Ticks } from '../../flow/time.ts';
import type { Ending, ItemState, Occurrence, PathEvent, Unmet } from '../break.ts';
import type { Variables } from '../meaning/evaluate.ts';
import { bitsOf, type State } from '../meaning/state.ts';
import { thingsIn } from '../meaning/things.ts';
import { endsReading, passesTime } from '../meaning/transition-facts.ts';
import type { Node, Way } from '../slicing/question.ts';
import type { Slice } from '../slicing/slice.ts';

interface Told {
  readonly move: Move;
  /** Which round of its loop a path begins there; 0 where that is not counted. */
  readonly rounds: number;
  /** What may have moved by itself with it. */
  readonly moved?: readonly ItemState[];
  /** Of which gauges it has ended the last reading. */
  readonly lost?: readonly Gauge[];
  /** Where the time between them is told. */
  readonly passed?: Passed;
}

/** Time since the first of the moves, and which end of it counts. */
export interface Passed extends Ticks {
  readonly counts: keyof Ticks;
}

interface TimedEvent extends PathEvent {
  readonly passed?: Passed;
}

/** The shortest way to a place. `about`: the items whose states are told. `start` stands for what was so before the card began. */
export function pathTo(
  node: Node,
  slice: Slice,
  about: readonly Item[],
  unmet: readonly Unmet[],
  start: Place,
): PathEvent[] {
  const told: Told[] = [];
  const lost = unmet.flatMap((term) =>
    term.type === 'reading' && !term.known && !term.inPart
      ? [{ gauge: term.gauge, at: whereLost(node, slice, term.gauge) }]
      : [],
  );
  const { moves, start: first } = slice.flow;
  for (let at: Node | undefined = node; at; at = at.parent) {
    const move = at.move === undefined ? undefined : (moves[at.move] as Move);
    for (const index of slice.onwardFrom(move?.to ?? first)) told.push({ move: moves[index] as Move, rounds: 0 });
    if (!move || !at.parent) break;
    told.push({
      move,
      rounds: roundBegun(move, at.parent, slice),
      // What nothing looks at any more is forgotten, which is no move.
      moved: passesTime(move) ? movedByItself(at.parent.state, at.state, move, about, slice) : [],
      lost: lost.filter((one) => one.at === at).map(({ gauge }) => gauge),
    });
  }
  const open = unmet.filter((term) => term.type === 'item' && mayStartWrong(term, slice.startsIn(term.item)));
  return tell(told.reverse(), about, open, start);
}

/** Otherwise it has come to be so on the way. */
function mayStartWrong({ wanted }: Extract<Unmet, { type: 'item' }>, starts: number): boolean {
  return bitsOf(starts).some((state) => !wanted.includes(state));
}

/** The moves of a way to a place, with those that the slice has skipped. */
export function movesAlong(ways: readonly Way[], end: Node, slice: Slice): Told[] {
  const onward = (from: Point) =>
    slice
      .onwardFrom(from)
      .map((index) => ({ move: slice.flow.moves[index] as Move, rounds: 0 }))
      .toReversed();
  const between = ways.flatMap(({ from, move }) => [
    ...roundByRound(move, roundBegun(move, from, slice)),
    ...onward(move.to),
  ]);
  return (ways[0]?.from ?? end).parent ? between : [...onward(slice.flow.start), ...between];
}

/** Which round of its loop a move begins from a place; 0 where that is not counted. */
function roundBegun({ happening }: Move, { state }: Node, slice: Slice): number {
  const variable = happening.type === 'again' ? slice.own('rounds', happening.loop) : undefined;
  return variable === undefined ? 0 : (state[variable] ?? 0) + 1;
}

function roundByRound(move: Move, number = 0): Told[] {
  if (!move.rounds) return [{ move, rounds: number }];
  const { again, round, times } = move.rounds;
  const told = round.flatMap((one) => roundByRound(one));
  return Array.from({ length: times }, (_, index) => [{ move: again, rounds: index + 2 }, ...told]).flat();
}

/** Where on the way to a place the last reading of a gauge has ended; undefined where it was not read. */
function whereLost(node: Node, { flow }: Slice, gauge: Gauge): Node | undefined {
  let ended: Node | undefined;
  for (let at: Node | undefined = node; at?.move !== undefined; at = at.parent) {
    const { happening } = flow.moves[at.move] as Move;
    if (happening.type === 'assume' && thingsIn(happening.condition).gauges.has(gauge)) return ended;
    if (endsReading(gauge, happening)) ended = at;
  }
  return undefined;
}

/** What has ended the last reading of a gauge on the way to a place; undefined where it was not read. */
export function lostBy(node: Node, slice: Slice, gauge: Gauge): Ending | undefined {
  const at = whereLost(node, slice, gauge);
  if (at?.move === undefined) return undefined;
  const { happening, steps } = slice.flow.moves[at.move] as Move;
  const followed = steps?.flatMap(({ texts }) => texts)[0];
  return { happening, ...(followed && { followed }) };
}

/** A way told in events; a long one loses its middle, which is not even looked at: a card may have thousands of breaks with long ways. */
export function tell(
  moves: readonly Told[],
  about: readonly Item[],
  unmet: readonly Unmet[],
  start: Place,
): PathEvent[] {
  const open: TimedEvent[] = openSinceStart(moves, unmet, start);
  const last = [...open, ...toldOf(moves, about, mostEventsTold, 'last')];
  const first = () => [...open, ...toldOf(moves, about, eventsFromStart, 'first')].slice(0, eventsFromStart);
  const path = last.length < mostEventsTold ? last : [...first(), ...last.slice(eventsFromStart - mostEventsTold)];
  return path.map(({ passed, ...event }, index) => ({ ...event, ...timeSince(path[index - 1]?.passed, passed) }));
}

/** Nothing where no time has passed. */
function timeSince(before: Passed | undefined, passed: Passed | undefined): Pick<PathEvent, 'after'> {
  if (!before || !passed) return {};
  const { counts } = passed;
  const least = seconds(passed.least - before.least);
  if (before.most === Number.POSITIVE_INFINITY || passed.most === Number.POSITIVE_INFINITY)
    return { after: { counts, least } };
  const most = passed.most - before.most;
  return most === 0 ? {} : { after: { counts, least, most: seconds(most) } };
}

/** The first or the last events of the moves, at most so many. */
function toldOf(moves: readonly Told[], about: readonly Item[], most: number, which: 'first' | 'last'): TimedEvent[] {
  const isLast = which === 'last';
  const told: TimedEvent[] = [];
  for (const move of isLast ? moves.toReversed() : moves) {
    const events = eventsOf(move, about);
    for (const event of isLast ? events.reverse() : events) told.push(event);
    if (told.length >= most) break;
  }
  return isLast ? told.slice(0, most).reverse() : told.slice(0, most);
}

function eventsOf({ move, rounds, moved = [], lost = [], passed }: Told, about: readonly Item[]): TimedEvent[] {
  const { place, call } = move;
  const happens: Occurrence[] = [
    ...occurrenceOf(move, rounds, about),
    ...moved.map((one): Occurrence => ({ type: 'may-move', ...one })),
    ...lost.map((gauge): Occurrence => ({ type: 'reading-ends', gauge })),
  ];
  return happens.map((each) => ({ place, happens: each, ...(call && { call }), passed }));
}

/** Items that may be in another state after a move than what it makes of them. */
export function movedByItself(
  before: State,
  after: State,
  { happening }: Move,
  about: readonly Item[],
  { ofItem }: Pick<Variables, 'ofItem'>,
): ItemState[] {
  return about.flatMap((item) => {
    const variable = ofItem(item);
    if (variable === undefined || item.kind.seen || item.may.length === 0) return [];
    const isMoved = 'item' in happening && happening.item === item;
    if (isMoved && happening.type === 'end') return [];
    const was = isMoved ? 1 << happening.state : (before[variable] as number);
    const newly = (after[variable] as number) & ~was;
    return bitsOf(newly).map((state) => ({ item, state }));
  });
}

function occurrenceOf({ happening, reason }: Move, rounds: number, about: readonly Item[]): Occurrence[] {
  if (happening.type === 'again') return [{ type: 'round', number: rounds }];
  if (reason) return [reason];
  if ((happening.type === 'set' || happening.type === 'begin') && about.includes(happening.item))
    return [{ type: 'set', item: happening.item, state: happening.state }];
  return happening.type === 'end' && about.includes(happening.item)
    ? [{ type: 'goes-back', item: happening.item }]
    : [];
}

/** Items that no move on the way settled, and that may be in a wrong state. */
function openSinceStart(moves: readonly Told[], unmet: readonly Unmet[], start: Place): PathEvent[] {
  const touched = (item: Item) =>
    moves.some(
      ({ move: { happening } }) => (happening.type === 'set' || happening.type === 'begin') && happening.item === item,
    );
  return unmet.flatMap((term) => {
    if (term.type !== 'item' || term.item.kind.seen || touched(term.item)) return [];
    const { item, wanted, possible } = term;
    const wrong = possible.filter((state) => !wanted.includes(state));
    return [{ place: start, happens: { type: 'since-start', item, wrong, isSure: possible.length < 2 } }];
  });
}
