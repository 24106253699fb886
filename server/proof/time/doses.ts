import type { Item } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import { type Collector, placeKey } from '../collector.ts';
import { movesAlong, tell } from '../exploring/witness.ts';
import type { Dose } from '../facts.ts';
import { thingsIn } from '../meaning/things.ts';
import type { Slice } from '../slicing/slice.ts';
import { largestDose } from './dose.ts';
import { placesInTime, type TimingInput } from './places.ts';
import { laneOfRole } from './timing.ts';

/** Reports each role's largest dose above 100 %; gives the number of states explored. */
export function* proveDoses(input: TimingInput, collector: Collector, note: (slice: Slice) => void): InParts<number> {
  const { card } = input;
  const hazards = card.equipment.hazards.filter((hazard) => hazard.noise);
  if (hazards.length === 0) return 0;
  const things = thingsIn(...hazards.flatMap((hazard) => [hazard.condition, hazard.protect]));
  const items: Item[] = [...things.items];
  let explored = 0;
  for (const role of card.crew) {
    const { slice, places } = yield* placesInTime(input, { items, gauges: [...things.gauges], monitors: [] }, (lanes) =>
      laneOfRole(lanes, role),
    );
    explored += places.nodes.length;
    note(slice);
    const largest = yield* largestDose(role, hazards, places, slice, input.noiseCriterion);
    if (!largest || largest.percent <= 100) continue;
    collector.add(
      'doses',
      `${role.name} ${placeKey(card.place)}`,
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
  return explored;
}
