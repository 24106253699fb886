import type { Condition, Hazard } from '../../../shared/card.ts';
import type { Place } from '../../../shared/text.ts';
import type { Move } from '../../flow/graph.ts';
import { brokenWhile, somewhere, unmetTerms } from '../breaks.ts';
import { placeKey } from '../collector.ts';
import { partsWhere } from '../evaluate.ts';
import type { HazardBegins, Unprotected, UnsafeStop } from '../facts.ts';
import type { Question, Settling } from '../question.ts';
import { type State, withValue } from '../state.ts';
import { thingsIn } from '../things.ts';
import { isShown } from '../transition-facts.ts';
import type { Context } from './context.ts';
import { actionsThatMatter, keepMet, ownVariables, placeOf } from './rules.ts';

export function hazardQuestions(hazard: Hazard, context: Context): Question[] {
  const questions = [beginsQuestion(hazard, context), stopQuestion(hazard, context)];
  if (hazard.protect) questions.push(protectQuestion(hazard, hazard.protect, context));
  return questions;
}

/** Beginnings beyond so many are not told apart: whether their admonition comes late is then not looked at. */
const mostBeginnings = 30;

function beginsQuestion(hazard: Hazard, context: Context): Question {
  const { items, gauges } = thingsIn(hazard.condition);
  const own = ownVariables(hazard.condition, context);
  const actions = actionsThatMatter([...items], gauges.size > 0, own);
  const keepTrigger = keepMet(hazard.condition);
  const beginnings: string[] = [];
  const late = new Map<string, Place>();
  return {
    items: [...items],
    gauges: [...gauges],
    own: [...own, { type: 'shown' }, { type: 'unannounced' }],
    hazard,
    watches: (index) => [
      ...actions(index),
      ...index.admonitions.filter((move) => announces(hazard, index.flow.moves[move])),
    ],
    look: (look) => {
      const { place, statement, happening } = look.move;
      if (happening.type === 'admonish') {
        const unannounced = look.own('unannounced') ?? 0;
        beginnings.forEach((key, bit) => {
          if (unannounced & (1 << bit) && !late.has(key)) late.set(key, place);
        });
        return;
      }
      if (look.own('shown') === 1 || !brokenWhile(look, hazard.condition, undefined)) return;
      const key = `${hazard.id} ${placeKey(place)}`;
      if (!beginnings.includes(key)) beginnings.push(key);
      context.collector.add(
        'hazards',
        key,
        (): HazardBegins => ({
          place,
          hazard,
          statement,
          get late() {
            return late.get(key);
          },
          path: context.path(look, [...items], []),
          blended: look.node.blended,
        }),
      );
    },
    settle: (settling) => {
      const states = keepTrigger?.(settling) ?? [settling.after];
      const move = context.flow.moves[settling.moveIndex];
      const bit = move ? beginnings.indexOf(`${hazard.id} ${placeKey(move.place)}`) : -1;
      if (bit === -1 || bit >= mostBeginnings) return states;
      return states.flatMap((state) => noteUnannounced(state, 1 << bit, hazard, settling));
    },
  };
}

/** Remembers a beginning without admonition on the paths on which the hazard is there. */
function noteUnannounced(
  state: State,
  bit: number,
  hazard: Hazard,
  { before, own, variables, view }: Settling,
): State[] {
  const shown = own('shown');
  const unannounced = own('unannounced');
  if (shown === undefined || unannounced === undefined || state[shown] === 1) return [state];
  const parts = (active: boolean) =>
    partsWhere(
      hazard.condition,
      state,
      variables,
      (answer) => (answer === 'yes') === active,
      (part) => view(part, 'known', before),
    );
  return [
    ...parts(true).map((part) => withValue(part, unannounced, (part[unannounced] as number) | bit)),
    ...parts(false),
  ];
}

function announces(hazard: Hazard, move: Move | undefined): boolean {
  return move?.happening.type === 'admonish' && isShown(hazard, move.happening);
}

function protectQuestion(hazard: Hazard, protect: Condition, context: Context): Question {
  const { items, gauges } = thingsIn(hazard.condition, protect);
  const own = ownVariables(hazard.condition, context);
  return {
    items: [...items],
    gauges: [...gauges],
    own,
    settle: keepMet(hazard.condition),
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
    watches: (index) => index.stops,
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
