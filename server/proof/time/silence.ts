/** What of a card is silent to a question of time: it matters only for the time that it takes. */
import type { Move } from '../../flow/graph.ts';
import { share, type Things } from '../meaning/things.ts';
import { drifts } from '../meaning/transition-facts.ts';
import type { KnownWays } from '../questions/known-ways.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';
import type { Question } from '../slicing/question.ts';

/** Whether a move changes nothing that the question, or what decides where its paths go, looks at. */
export function silentMoves(
  index: FlowIndex,
  ways: KnownWays,
  question: Pick<Question, 'items' | 'gauges'>,
): (move: Move) => boolean {
  const heard = thingsHeard(index, ways, question);
  const mayChange = heard.gauges.size > 0 || [...heard.items].some(drifts);
  const isTimed = index.stays.some(({ item }) => heard.items.has(item));
  return ({ happening, time }) => {
    if (isTimed && time.most > 0) return false;
    switch (happening.type) {
      case 'pass':
      case 'admonish':
        return true;
      case 'set':
      case 'begin':
      case 'end':
        return !mayChange && !heard.items.has(happening.item);
      case 'moment':
      case 'meanwhile':
        return !mayChange;
      case 'call':
        return !happening.assumes.some(({ item }) => heard.items.has(item));
      case 'assume':
        return !share(index.things(happening.condition), heard);
      default:
        return false;
    }
  };
}

/** What the question looks at, what the ways hang on that are not open to every path, and what that hangs on in turn. */
function thingsHeard(index: FlowIndex, ways: KnownWays, question: Pick<Question, 'items' | 'gauges'>): Things {
  const heard: Things = { items: new Set(question.items), gauges: new Set(question.gauges) };
  const asked: Things[] = [];
  for (const at of index.at('assume')) {
    const move = index.flow.moves[at] as Move;
    if (ways.isClosed(move)) continue;
    if (ways.isFree(move)) asked.push(index.thingsAt(at));
    else addAll(heard, index.thingsAt(at));
  }
  const size = () => heard.items.size + heard.gauges.size;
  for (let before = -1; before !== size(); ) {
    before = size();
    for (const things of asked) if (share(things, heard)) addAll(heard, things);
    for (const item of heard.items) for (const { when } of item.may) if (when) addAll(heard, index.things(when));
  }
  return heard;
}

function addAll(heard: Things, { items, gauges }: Things): void {
  for (const item of items) heard.items.add(item);
  for (const gauge of gauges) heard.gauges.add(gauge);
}
