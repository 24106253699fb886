/** The way to a place, told in places of the card with words. */
import type { Item } from '../../shared/card.ts';
import type { PathPlace } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';
import type { Move } from '../flow/graph.ts';
import type { Unmet } from './facts.ts';
import type { Node } from './question.ts';
import type { Slice } from './slice.ts';

const mostTold = 24;

/** `about`: the items whose states the path is told for. `start` stands for what was so before the card began. */
export function pathTo(node: Node, slice: Slice, about: readonly Item[], unmet: readonly Unmet[], start: Place): PathPlace[] {
  const told = movesTo(node).flatMap(({ move, rounds }) => tellMove(slice.flow.moves[move] as Move, rounds, about));
  const path = [...openSinceStart(node, slice, unmet, start), ...told];
  return path.length <= mostTold ? path : [...path.slice(0, 4), ...path.slice(path.length - mostTold + 4)];

  function movesTo(last: Node): { move: number; rounds: number }[] {
    const moves: { move: number; rounds: number }[] = [];
    for (let at: Node | undefined = last; at?.move !== undefined; at = at.parent) {
      const { happening } = slice.flow.moves[at.move] as Move;
      const variable = happening.type === 'again' ? slice.own('rounds', happening.loop) : undefined;
      moves.push({ move: at.move, rounds: variable === undefined ? 0 : (at.parent?.state[variable] ?? 0) + 1 });
    }
    return moves.reverse();
  }
}

function tellMove(move: Move, rounds: number, about: readonly Item[]): PathPlace[] {
  const { happening, place, words } = move;
  if (happening.type === 'again') return [{ place, text: rounds > 1 ? `${ordinal(rounds)} time round` : 'once more round' }];
  if (words) return [{ place, text: words }];
  if ((happening.type === 'set' || happening.type === 'begin') && about.includes(happening.item)) {
    return [{ place, text: `${happening.item.label}: ${happening.item.kind.states[happening.state]?.name}` }];
  }
  if (happening.type === 'end' && about.includes(happening.item)) return [{ place, text: `${happening.item.label} goes back` }];
  return [];
}

/** Items that no move on the way settled, and that may be in a wrong state. */
function openSinceStart(node: Node, slice: Slice, unmet: readonly Unmet[], start: Place): PathPlace[] {
  const touched = new Set<Item>();
  for (let at: Node | undefined = node; at?.move !== undefined; at = at.parent) {
    const { happening } = (slice.flow.moves[at.move] as Move);
    if (happening.type === 'set' || happening.type === 'begin') touched.add(happening.item);
  }
  return unmet.flatMap((term) => {
    if (term.type !== 'item' || touched.has(term.item) || term.item.kind.seen) return [];
    const wrong = term.possible.filter((state) => !term.wanted.includes(state));
    const names = wrong.map((state) => term.item.kind.states[state]?.name).join(' or ');
    const verb = term.possible.length > 1 ? 'may be' : 'is';
    return [{ place: start, text: `${term.item.label} ${verb} ${names} since the start` }];
  });
}

const words = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];

export function ordinal(number: number): string {
  return words[number] ?? `${number}${['th', 'st', 'nd', 'rd'][number % 100 > 10 && number % 100 < 14 ? 0 : Math.min(number % 10, 4) % 4]}`;
}

