/** Steps that no path reaches. */

import { blocksOf } from '../../../shared/blocks.ts';
import type { Card, Do, Stage, Statement, Step } from '../../../shared/card.ts';
import { type Break, placeKey } from '../break.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';

export interface Unreached extends Break {
  readonly step: Step;
  /** What the card does there, if the step is in it; told there. */
  readonly doing?: Do;
  /** What is done is come to, though not that step of it. */
  readonly isBegun: boolean;
  /** Some machine that the card is for has the step. */
  readonly isDrawn: boolean;
}

/** The steps to which the card leads as it is written, whatever may be so. */
export function stepsWrittenBehind({ flow, order }: FlowIndex): Step[] {
  return flow.moves.flatMap(({ from, steps = [] }) => (order[from] === -1 ? [] : steps));
}

/** A step as a card comes to it: in its own text, or by one of the things that it does. */
interface Coming {
  readonly key: string;
  readonly step: Step;
  readonly doing?: Do;
  /** It mends what a check did not find: one that nobody needs is no slip. */
  readonly isMend: boolean;
}

export interface Drawn {
  readonly drawn: ReadonlySet<Step>;
  readonly reached: ReadonlySet<Step>;
  /** Statements whose condition some path asks. */
  readonly asked: ReadonlySet<object>;
  /** As `stepsWrittenBehind`. */
  readonly written: () => ReadonlySet<Step>;
  /** Whether each machine that the card is for was looked at. */
  readonly onAllMachines: boolean;
}

/** Of several steps in a row that are not reached, the first. What the card does is told where it does it, unless no card could come to the step. */
export function firstUnreached(card: Card, { drawn, reached, asked, written, onAllMachines }: Drawn): Unreached[] {
  const comings = comingsIn(card.body);
  const keysOf = (steps: ReadonlySet<Step>) =>
    new Set(comings.flatMap(({ step, key }) => (steps.has(step) ? [key] : [])));
  const known = { drawn: keysOf(drawn), reached: keysOf(reached) };
  const begun = new Set(
    comings.flatMap(({ doing, key }) => (doing && known.reached.has(key) ? placeKey(doing.place) : [])),
  );
  const first = new Map<string, Unreached>();
  let before = true;
  const needed = comings.filter(({ key, isMend }) => !isMend || known.reached.has(key));
  for (const { key, step, doing } of new Map(needed.map((coming) => [coming.key, coming])).values()) {
    const isDrawn = known.drawn.has(key);
    if (!isDrawn && (doing || !onAllMachines)) continue;
    const isReached = known.reached.has(key);
    if (before && !isReached) {
      const isBegun = doing !== undefined && (begun.has(placeKey(doing.place)) || isAskedIn(doing.body, asked));
      const isToldAtDo = doing && (!isBegun || keysOf(written()).has(key));
      const where = isToldAtDo ? { place: doing.place, doing, isBegun } : { place: step.head, isBegun: false };
      first.set(placeKey(where.place), { ...where, step, isDrawn, path: [], blended: false });
    }
    before = isReached;
  }
  return [...first.values()];
}

function isAskedIn(body: readonly (Stage | Statement)[], asked: ReadonlySet<object>): boolean {
  return body.some((part) => asked.has(part) || blocksOf(part).some((block) => isAskedIn(block, asked)));
}

function comingsIn(body: readonly (Stage | Statement)[], doing?: Do, isMend = false): Coming[] {
  return body.flatMap((part): Coming[] => {
    if (part.type !== 'step') {
      const by = part.type === 'do' ? (doing ?? part) : doing;
      return blocksOf(part).flatMap((block) => comingsIn(block, by, isMend || part.type === 'mend'));
    }
    const key = doing ? `${placeKey(doing.place)} ${placeKey(part.place)}` : placeKey(part.place);
    return [{ key, step: part, ...(doing && { doing }), isMend }];
  });
}
