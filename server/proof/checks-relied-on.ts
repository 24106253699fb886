/** Which checks the card relies on: let one of them tell nothing, and see whether a rule, a hazard or a need then goes wrong. */
import type { Card, Condition, Gauge, Item } from '../../shared/card.ts';
import type { InParts } from '../../shared/parts.ts';
import type { Flow, Move } from '../flow/graph.ts';
import { Collector } from './collector.ts';
import { Asker, type AskOptions, conditionsOf } from './exploring/ask.ts';
import { startOf } from './exploring/start.ts';
import type { Context } from './questions/context.ts';
import type { QuestionMaker } from './reliance.ts';
import { FlowIndex } from './slicing/flow-index.ts';

interface Outcome {
  readonly broken: ReadonlySet<string>;
  /** What each question must know. */
  readonly known: readonly { readonly items: ReadonlySet<Item>; readonly gauges: ReadonlySet<Gauge> }[];
}

export function* checksReliedOn(
  card: Card,
  index: FlowIndex,
  make: QuestionMaker,
  options: AskOptions,
): InParts<Set<Condition>> {
  const reliedOn = new Set<Condition>();
  const usual = yield* outcome(card, index, make, options, () => true);
  for (const condition of checked(index.flow)) {
    const { items, gauges } = index.things(condition);
    const hangs = usual.known.map(
      (known) =>
        [...items].some((item) => known.items.has(item)) || [...gauges].some((gauge) => known.gauges.has(gauge)),
    );
    if (!hangs.includes(true)) continue;
    const blind = new FlowIndex(blindTo(condition, index.flow), conditionsOf(card));
    for (const move of index.free) blind.free.add(move);
    yield;
    const { broken } = yield* outcome(card, blind, make, options, (question) => hangs[question] === true);
    if ([...broken].some((key) => !usual.broken.has(key))) reliedOn.add(condition);
  }
  return reliedOn;
}

/** What a `check`, a reading, something awaited or a `keep` asks. */
function checked({ moves }: Flow): ReadonlySet<Condition> {
  const isCheck = ({ branch, atOnce }: Move) => (branch ? branch.form === 'check' : atOnce === true);
  return new Set(
    moves.flatMap((move) => {
      const { happening } = move;
      const asks = happening.type === 'assume' && happening.holds && !happening.inPassing && isCheck(move);
      return asks ? [happening.condition] : [];
    }),
  );
}

/** Whoever goes on past the check knows nothing from it. */
function blindTo(condition: Condition, flow: Flow): Flow {
  const moves = flow.moves.map((move): Move => {
    const { happening } = move;
    const isIt = happening.type === 'assume' && happening.holds && happening.condition === condition;
    return isIt ? { ...move, happening: { type: 'pass' } } : move;
  });
  return { ...flow, moves };
}

function* outcome(
  card: Card,
  index: FlowIndex,
  make: QuestionMaker,
  options: AskOptions,
  wanted: (question: number) => boolean,
): InParts<Outcome> {
  const collector = new Collector();
  const start = startOf(card);
  const asker = new Asker(card, index, start, options);
  const context: Context = { card, flow: index.flow, collector, start, path: () => [], lostBy: () => undefined };
  const known: Outcome['known'][number][] = [];
  for (const [number, question] of make(context).entries()) {
    if (!wanted(number)) continue;
    const { slice } = yield* asker.ask(question);
    known[number] = { items: new Set(slice.items), gauges: new Set(slice.gauges) };
    yield;
  }
  return { broken: new Set([...collector.entries()].map(([key]) => key)), known };
}
