import type { Condition, Hazard } from '../../../shared/card.ts';
import type { Break, Unmet } from '../break.ts';
import { holdingWhereOpen } from '../meaning/open-parts.ts';
import type { Question } from '../slicing/question.ts';
import { unmetTerms } from './breaks.ts';
import type { Context, QuestionSort } from './sort.ts';
import { whileQuestion } from './while.ts';

export interface Unprotected extends Break {
  readonly hazard: Hazard;
  readonly unmet: readonly Unmet[];
}

/** Is what protects from a hazard in place while it is there? */
export const unprotected: QuestionSort<Unprotected> = {
  makers: ({ equipment }) =>
    equipment.hazards.flatMap((hazard) => {
      const { protect } = hazard;
      return protect ? (context) => [protectQuestion(hazard, holdingWhereOpen(protect), context)] : [];
    }),
  reason: ({ hazard }) => ({ because: hazard.label, from: 'hazard' }),
  examples: [
    {
      given: `kind cart { stopped "Stop {}", running "Start {}" }
item power-cart : cart "the power cart" normally stopped
kind guard { off "Take {} off", on "Put {} on" }
item fence : guard "the fence" normally off
hazard fan "the fan" while power-cart running { warning "The fan can cut you." protect fence on }`,
      bad: `card a "A" {
  warning fan
  step set power-cart running
  //   ^^^^^^^^^^^^^^^^^^^^^^ unprotected
  step set power-cart stopped
}`,
      good: `card a "A" {
  warning fan
  step set fence on
  step set power-cart running
  step set power-cart stopped
  step set fence off
}`,
    },
  ],
};

function protectQuestion(hazard: Hazard, protect: Condition, context: Context<Unprotected>): Question {
  return whileQuestion(hazard.condition, protect, context, (look, broken) => {
    const { place } = look.move;
    context.collector.add(
      hazard.id,
      place,
      (): Unprotected => {
        const unmet = unmetTerms(protect, broken.view, look);
        return { place, hazard, unmet, path: context.path(look, look.items, unmet), blended: look.node.blended };
      },
      look.move.call,
    );
  });
}
