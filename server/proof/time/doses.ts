import type { Item, Role } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { Break } from '../break.ts';
import { movesAlong, tell } from '../exploring/witness.ts';
import { thingsIn } from '../meaning/things.ts';
import type { QuestionSort, TimedContext } from '../questions/sort.ts';
import { laneOfRole } from './card-time.ts';
import { largestDose } from './dose.ts';
import { placesInTime } from './places.ts';

export interface Dose extends Break {
  readonly role: Role;
  /** Percent of the permissible dose of 29 CFR 1910.95. */
  readonly percent: number;
  /** Some time is unknown and counts as none. */
  readonly atLeast: boolean;
}

/** Does somebody get more noise than is permissible? */
export const doses: QuestionSort<Dose> = {
  timed: proveDoses,
  examples: [
    {
      given: `kind cart { stopped "Stop {}", running "Start {}" }
item power-cart : cart "the power cart" normally stopped
hazard noise "noise" while power-cart running { level 110 dBA warning "Noise can damage your hearing." }`,
      bad: `card a "A" {
//   ^ doses
  crew one "One"
  warning noise
  step set power-cart running
  step takes 1 h "Wait."
  step set power-cart stopped
}`,
      good: `card a "A" {
  crew one "One"
  warning noise
  step set power-cart running
  step takes 10 min "Wait."
  step set power-cart stopped
}`,
    },
  ],
};

/** The largest dose of each role. */
function* proveDoses(context: TimedContext<Dose>): InParts<void> {
  const { card } = context;
  const hazards = card.equipment.hazards.filter((hazard) => hazard.noise);
  if (hazards.length === 0) return;
  const things = thingsIn(...hazards.flatMap((hazard) => [hazard.condition, hazard.protect]));
  const items: Item[] = [...things.items];
  for (const role of card.crew) {
    const { slice, places } = yield* placesInTime(
      context,
      { items, gauges: [...things.gauges], monitors: [] },
      (lanes) => laneOfRole(lanes, role),
    );
    const largest = yield* largestDose(hazards, places, slice, context.noiseCriterion);
    if (!largest || largest.percent <= 100) continue;
    context.collector.add(
      role.name,
      card.place,
      (): Dose => ({
        place: card.place,
        role,
        percent: largest.percent,
        atLeast: largest.atLeast,
        path: tell(movesAlong(largest.ways, largest.node, slice), items, [], card.place),
        blended: largest.node.blended,
      }),
    );
  }
}
