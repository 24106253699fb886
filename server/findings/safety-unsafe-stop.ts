import type { Card, Hazard, Stage, Statement } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import type { FindingSort } from './finding.ts';
import { insertAfter, type TextOf } from './support/edits.ts';
import { foundOn, stateName } from './support/words.ts';

export const safetyUnsafeStop: FindingSort = {
  code: 'safety.unsafe-stop',
  level: 'warning',
  title: 'The card can stop with a hazard still there',
  help: {
    what: 'A written stop, or a check that fails without an else, ends the card while a hazard is active. Each hazard is reported once a card, at the first such place.',
    why: 'A card that just ends leaves the crew beside a running machine with no next line to read.',
    whatToDo: 'Write a stage “when stopped” that makes the machine safe: every stop goes through it.',
  },
  sources: [],
  examples: [
    {
      given: `kind cart { stopped "Stop {}", running "Start {}" }
item power-cart : cart "the power cart" normally stopped
hazard noise "noise" while power-cart running { warning "Noise can damage your hearing." }`,
      bad: `card power "Power" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning noise
  step set power-cart running
  step check "Is the cart free of smoke?"
  //   ^ safety.unsafe-stop
  step set power-cart stopped
}`,
      good: `card power "Power" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning noise
  step set power-cart running
  step check "Is the cart free of smoke?"
  step set power-cart stopped
  stage "Make safe" when stopped {
    step set power-cart stopped
  }
}`,
    },
  ],
  *inCard({ card, proof, textOf }) {
    for (const fact of proof.unsafeStops) {
      yield foundOn(
        fact,
        `After a stop here there can still be ${fact.hazard.label}. Write a stage “when stopped” that puts an end to it.`,
        { fixes: endHazard(fact.hazard, card, textOf) },
      );
    }
  },
};

/** Writes a stage for stops that brings the hazard's item back, where one item alone makes the hazard and no such stage stands there yet. */
function endHazard({ condition }: Hazard, card: Card, textOf: TextOf): Fix[] {
  if (condition.type !== 'state' || condition.item.normally === undefined || condition.item.kind.seen) return [];
  const { item } = condition;
  const last = card.body.at(-1);
  if (!last || last.place.file !== card.place.file || card.body.some(isForStops)) return [];
  const by = card.crew.length > 1 ? ` by ${card.crew[0]?.name}` : '';
  const step = `step${by} set ${item.name} ${stateName(item, item.normally as number)}`;
  const stage = `stage "Make safe" when stopped { ${step} }`;
  return [{ title: `Insert: ${stage}`, edits: [insertAfter(last.place, stage, textOf)] }];
}

function isForStops(part: Stage | Statement): boolean {
  return part.type === 'stage' && part.whenStopped;
}
