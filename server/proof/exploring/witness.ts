/** The way to a place, told in places of the card with words. */
import type { Gauge, Item } from '../../../shared/card.ts';
import type { PathPlace } from '../../../shared/finding.ts';
import { durationWords } from '../../../shared/quantity.ts';
import type { Place } from '../../../shared/text.ts';
import type { Call } from '../../flow/calls.ts';
import type { Move } from '../../flow/graph.ts';
import { seconds, type Ticks } from '../../flow/time.ts';
import type { Ending, ItemState, Unmet } from '../facts.ts';
import type { Variables } from '../meaning/evaluate.ts';
import { bitsOf, type State } from '../meaning/state.ts';
import { thingsIn } from '../meaning/things.ts';
import { endsReading } from '../meaning/transition-facts.ts';
import type { Node } from '../slicing/question.ts';
import type { Slice } from '../slicing/slice.ts';

const mostTold = 24;
/** Of these, how many from the start of a way that is longer. */
const fromStart = 4;

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

interface ToldPlace extends PathPlace {
  readonly passed?: Passed;
}

/** The shortest way to a place. `about`: the items whose states are told. `start` stands for what was so before the card began. */
export function pathTo(
  node: Node,
  slice: Slice,
  about: readonly Item[],
  unmet: readonly Unmet[],
  start: Place,
): PathPlace[] {
  const told: Told[] = [];
  const lost = unmet.flatMap((term) =>
    term.type === 'reading' && !term.known ? [{ gauge: term.gauge, at: whereLost(node, slice, term.gauge) }] : [],
  );
  const { moves, start: first } = slice.flow;
  for (let at: Node | undefined = node; at; at = at.parent) {
    const move = at.move === undefined ? undefined : (moves[at.move] as Move);
    for (const index of slice.onwardFrom(move?.to ?? first)) told.push({ move: moves[index] as Move, rounds: 0 });
    if (!move || !at.parent) break;
    const rounds = move.happening.type === 'again' ? slice.own('rounds', move.happening.loop) : undefined;
    told.push({
      move,
      rounds: rounds === undefined ? 0 : (at.parent.state[rounds] ?? 0) + 1,
      moved: movedByItself(at.parent.state, at.state, move, about, slice),
      lost: lost.filter((one) => one.at === at).map(({ gauge }) => gauge),
    });
  }
  return tell(told.reverse(), about, unmet, start);
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

/** A way told in places; a long one loses its middle, which is not even looked at: a card may have thousands of breaks with long ways. */
export function tell(
  moves: readonly Told[],
  about: readonly Item[],
  unmet: readonly Unmet[],
  start: Place,
): PathPlace[] {
  const last = toldOf([...moves].reverse(), about, mostTold).reverse();
  const told =
    last.length < mostTold ? last : [...toldOf(moves, about, fromStart), ...last.slice(fromStart - mostTold)];
  const path: ToldPlace[] = [...openSinceStart(moves, unmet, start), ...told];
  const kept = path.length <= mostTold ? path : [...path.slice(0, fromStart), ...path.slice(fromStart - mostTold)];
  return kept.map(({ passed, place, text }, index) => ({
    place,
    text: `${text}${later(kept[index - 1]?.passed, passed)}`,
  }));
}

function later(before: Passed | undefined, passed: Passed | undefined): string {
  if (!before || !passed) return '';
  const least = passed.least - before.least;
  const most = before.most === Number.POSITIVE_INFINITY ? before.most : passed.most - before.most;
  if (most === 0) return '';
  if (passed.counts === 'least' && least === 0) return ' (perhaps at once)';
  if (passed.counts === 'least') return ` (${least === most ? '' : 'at least '}${inWords(least)} later)`;
  if (most === Number.POSITIVE_INFINITY) return ' (nobody knows how long after)';
  return ` (${least === most ? '' : 'up to '}${inWords(most)} later)`;
}

const inWords = (ticks: number): string => durationWords(seconds(ticks));

/** The first places that the moves tell, at most so many. */
function toldOf(moves: readonly Told[], about: readonly Item[], most: number): ToldPlace[] {
  const told: ToldPlace[] = [];
  for (const { move, rounds, moved = [], lost = [], passed } of moves) {
    const place = tellMove(move, rounds, about);
    const byItself = moved.map((one) => ({ place: move.place, text: mayMove(one) }));
    const ended = lost.map(({ label }) => ({
      place: move.place,
      text: `what ${label} shows is no longer known from here on`,
    }));
    for (const each of [...(place ? [place] : []), ...byItself, ...ended]) {
      const text = move.call ? `${each.text}, in ${callInWords(move.call)}` : each.text;
      if (told.push({ ...each, text, passed }) === most) return told;
    }
  }
  return told;
}

/** Items that may be in another state after a move than before, though it does nothing to them. */
export function movedByItself(
  before: State,
  after: State,
  { happening }: Move,
  about: readonly Item[],
  { ofItem }: Pick<Variables, 'ofItem'>,
): ItemState[] {
  return about.flatMap((item) => {
    const variable = ofItem(item);
    const isMoved = 'item' in happening && happening.item === item;
    if (variable === undefined || isMoved || item.kind.seen || item.may.length === 0) return [];
    const newly = (after[variable] as number) & ~(before[variable] as number);
    return bitsOf(newly).map((state) => ({ item, state }));
  });
}

export function mayMove({ item, state }: ItemState): string {
  return `${item.label} may go to ${item.kind.states[state]?.name} by itself here`;
}

function tellMove(move: Move, rounds: number, about: readonly Item[]): PathPlace | undefined {
  const { happening, place, words } = move;
  if (happening.type === 'again')
    return { place, text: rounds > 1 ? `${ordinal(rounds)} time round` : 'once more round' };
  if (words) return { place, text: words };
  if ((happening.type === 'set' || happening.type === 'begin') && about.includes(happening.item)) {
    return { place, text: `${happening.item.label}: ${happening.item.kind.states[happening.state]?.name}` };
  }
  if (happening.type === 'end' && about.includes(happening.item))
    return { place, text: `${happening.item.label} goes back` };
  return undefined;
}

/** Items that no move on the way settled, and that may be in a wrong state. */
function openSinceStart(moves: readonly Told[], unmet: readonly Unmet[], start: Place): PathPlace[] {
  const touched = (item: Item) =>
    moves.some(
      ({ move: { happening } }) => (happening.type === 'set' || happening.type === 'begin') && happening.item === item,
    );
  return unmet.flatMap((term) => {
    if (term.type !== 'item' || term.item.kind.seen || touched(term.item)) return [];
    const wrong = term.possible.filter((state) => !term.wanted.includes(state));
    const names = wrong.map((state) => term.item.kind.states[state]?.name).join(' or ');
    const verb = term.possible.length > 1 ? 'may be' : 'is';
    return [{ place: start, text: `${term.item.label} ${verb} ${names} since the start` }];
  });
}

/** `the second “do spin”` */
export function callInWords({ name, number }: Call): string {
  return `the ${ordinal(number)} “do ${name}”`;
}

const ordinals = new Intl.PluralRules('en', { type: 'ordinal' });
const words = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];

export function ordinal(number: number): string {
  return (
    words[number] ??
    `${number}${
      new Map([
        ['one', 'st'],
        ['two', 'nd'],
        ['few', 'rd'],
      ]).get(ordinals.select(number)) ?? 'th'
    }`
  );
}
