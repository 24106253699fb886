import type { Hazard } from '../../../shared/card.ts';
import type { Break } from '../break.ts';
import { thingsIn } from '../meaning/things.ts';
import type { Question } from '../slicing/question.ts';
import { somewhere } from './breaks.ts';
import { lastStopSite, siteOfStop } from './monitors.ts';
import type { Context, QuestionSort } from './sort.ts';

export interface UnsafeStop extends Break {
  readonly hazard: Hazard;
}

/** Is a hazard still there when the card stops? */
export const unsafeStops: QuestionSort<UnsafeStop> = {
  makers: ({ equipment }) => equipment.hazards.map((hazard) => (context) => [stopQuestion(hazard, context)]),
  reason: ({ hazard }) => ({ because: hazard.label, from: 'hazard' }),
  examples: [
    {
      given: `kind cart { stopped "Stop {}", running "Start {}" }
item power-cart : cart "the power cart" normally stopped
hazard noise "noise" while power-cart running { warning "Noise can damage your hearing." }`,
      bad: `card a "A" {
  warning noise
  step set power-cart running
  step check "Is the cart free of smoke?"
  //   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ unsafeStops
  step set power-cart stopped
}`,
      good: `card a "A" {
  step check "Is the cart free of smoke?"
  warning noise
  step set power-cart running
  step set power-cart stopped
}`,
    },
  ],
};

function stopQuestion(hazard: Hazard, context: Context<UnsafeStop>): Question {
  const { items, gauges } = thingsIn(hazard.condition);
  return {
    items: [...items],
    gauges: [...gauges],
    monitors: [lastStopSite],
    watches: (index) => index.at('stopped'),
    look: (look) => {
      if (
        !somewhere(look, hazard.condition, (answer) => answer === 'yes' || (look.node.blended && answer === 'unknown'))
      )
        return;
      const { place, call } = siteOfStop(look, context.flow) ?? look.move;
      context.collector.add(
        hazard.id,
        place,
        (): UnsafeStop => ({
          place,
          hazard,
          path: context.path(look, [...items], []),
          blended: look.node.blended,
        }),
        call,
      );
    },
  };
}
