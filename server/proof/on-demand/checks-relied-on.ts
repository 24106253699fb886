/** Which checks the card relies on: let one of them tell nothing, and see whether a rule, a hazard or a need then goes wrong. */
import type { Condition } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { Flow, Move } from '../../flow/graph.ts';
import { conditionsOf } from '../exploring/ask.ts';
import { share, type Things } from '../meaning/things.ts';
import { FlowIndex } from '../slicing/flow-index.ts';
import { type Asking, askSafety } from './safety-asked.ts';

export function* checksReliedOn(asking: Asking): InParts<Set<Condition>> {
  const { card, index } = asking;
  const reliedOn = new Set<Condition>();
  const usual = yield* askSafety(asking);
  for (const condition of checked(index.flow)) {
    const hangs = (question: string) => share(index.things(condition), usual.known.get(question) as Things);
    if (![...usual.known.keys()].some(hangs)) continue;
    const blind = new FlowIndex(blindTo(condition, index.flow), conditionsOf(card));
    for (const move of index.free) blind.free.add(move);
    yield;
    const { broken } = yield* askSafety({ ...asking, index: blind }, hangs);
    if ([...broken.keys()].some((key) => !usual.broken.has(key))) reliedOn.add(condition);
  }
  return reliedOn;
}

/** What a `check`, a reading, something awaited or a `keep` asks. */
function checked({ moves }: Flow): ReadonlySet<Condition> {
  return new Set(
    moves.flatMap(({ happening, branch }) =>
      happening.type === 'assume' && happening.holds && branch?.form === 'check' ? [happening.condition] : [],
    ),
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
