import type { Condition, Hazard } from '../../../shared/card.ts';
import type { Flow, Move, Point } from '../../flow/graph.ts';
import { brokenWhile, somewhere, unmetTerms } from '../breaks.ts';
import { placeKey } from '../collector.ts';
import type { HazardBegins, Unprotected, UnsafeStop } from '../facts.ts';
import type { Question } from '../question.ts';
import { thingsIn } from '../things.ts';
import { isShown } from '../transition-facts.ts';
import type { Context } from './context.ts';
import { actionsThatMatter, ownVariables, placeOf } from './rules.ts';

export function hazardQuestions(hazard: Hazard, context: Context): Question[] {
  const questions = [beginsQuestion(hazard, context), stopQuestion(hazard, context)];
  if (hazard.protect) questions.push(protectQuestion(hazard, hazard.protect, context));
  return questions;
}

function beginsQuestion(hazard: Hazard, context: Context): Question {
  const { items, gauges } = thingsIn(hazard.condition);
  const own = ownVariables(hazard.condition, context);
  const actions = actionsThatMatter([...items], gauges.size > 0, own);
  return {
    items: [...items],
    gauges: [...gauges],
    own: [...own, { type: 'shown' }],
    hazard,
    wasMet: hazard.condition,
    watches: (move) => (move.happening.type === 'admonish' ? isShown(hazard, move.happening) : actions(move)),
    look: (look) => {
      if (look.own('shown') === 1 || look.move.happening.type === 'admonish') return;
      if (!brokenWhile(look, hazard.condition, undefined)) return;
      const { place, statement, to } = look.move;
      context.collector.add(
        'hazards',
        `${hazard.id} ${placeKey(place)}`,
        (): HazardBegins => ({
          place,
          hazard,
          statement,
          late: laterAdmonition(context.flow, to, hazard),
          path: context.path(look, [...items], []),
          blended: look.node.blended,
        }),
      );
    },
  };
}

/** The nearest admonition for the hazard that still comes on some path. */
function laterAdmonition(flow: Flow, from: Point, hazard: Hazard): HazardBegins['late'] {
  const seen = new Set([from]);
  for (const point of seen) {
    for (const index of flow.from[point] ?? []) {
      const { happening, place, to } = flow.moves[index] as Move;
      if (happening.type === 'admonish' && isShown(hazard, happening)) return place;
      seen.add(to);
    }
  }
  return undefined;
}

function protectQuestion(hazard: Hazard, protect: Condition, context: Context): Question {
  const { items, gauges } = thingsIn(hazard.condition, protect);
  const own = ownVariables(hazard.condition, context);
  return {
    items: [...items],
    gauges: [...gauges],
    own,
    wasMet: hazard.condition,
    watches: actionsThatMatter([...items], gauges.size > 0, own),
    look: (look) => {
      const broken = brokenWhile(look, hazard.condition, protect);
      if (!broken) return;
      const { place } = look.move;
      context.collector.add('unprotected', `${hazard.id} ${placeKey(place)}`, (): Unprotected => {
        const unmet = unmetTerms(protect, broken.after, broken.before, look);
        return { place, hazard, unmet, path: context.path(look, [...items], unmet), blended: look.node.blended };
      });
    },
  };
}

function stopQuestion(hazard: Hazard, context: Context): Question {
  const { items, gauges } = thingsIn(hazard.condition);
  return {
    items: [...items],
    gauges: [...gauges],
    own: [{ type: 'stop-site' }],
    watches: ({ happening }) => happening.type === 'stopped',
    look: (look) => {
      if (
        !somewhere(look, hazard.condition, (answer) => answer === 'yes' || (look.node.blended && answer === 'unknown'))
      )
        return;
      const place = placeOf(look, context);
      context.collector.add(
        'unsafeStops',
        `${hazard.id} ${placeKey(place)}`,
        (): UnsafeStop => ({
          place,
          hazard,
          path: context.path(look, [...items], []),
          blended: look.node.blended,
        }),
      );
    },
  };
}
