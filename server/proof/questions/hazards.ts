import type { Condition, Hazard } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import type { Place } from '../../../shared/text.ts';
import type { Move } from '../../flow/graph.ts';
import { placeKey } from '../collector.ts';
import type { HazardBegins, Unprotected, UnsafeStop } from '../facts.ts';
import { holdingWhereOpen } from '../meaning/open-parts.ts';
import { thingsIn } from '../meaning/things.ts';
import { isShown } from '../meaning/transition-facts.ts';
import type { Monitor } from '../slicing/monitor.ts';
import type { Node, Question } from '../slicing/question.ts';
import { admonitionAfter, type Beginning } from './announcements.ts';
import { brokenWhile, somewhere, unmetTerms } from './breaks.ts';
import type { Context } from './context.ts';
import { lastStopSite, wasMet } from './monitors.ts';
import { placeOf } from './rules.ts';
import { actionsThatMatter, asksTime, settleStanding, standingMonitors, whileQuestion } from './while.ts';

export function hazardQuestions(hazard: Hazard, context: Context): Question[] {
  const questions = [beginsQuestion(hazard, context), stopQuestion(hazard, context)];
  if (hazard.protect) questions.push(protectQuestion(hazard, holdingWhereOpen(hazard.protect), context));
  return questions;
}

function beginsQuestion(hazard: Hazard, context: Context): Question {
  const { items, gauges } = thingsIn(hazard.condition);
  const standing = withBeginning(hazard.condition, standingMonitors(hazard.condition, context));
  const shown = shownMonitor(hazard);
  const actions = actionsThatMatter([...items], gauges.size > 0 || asksTime(hazard.condition), standing);
  const shownAt = new Map<Node, Place>();
  // A writer sees one beginning where many paths have theirs.
  const beginnings = new Map<string, Beginning[]>();
  let lateFor = (_: string): Place | undefined => undefined;
  return {
    items: [...items],
    gauges: [...gauges],
    monitors: [...standing, shown],
    watches: (index) => [
      ...actions(index),
      ...index.at('admonish').filter((move) => announces(hazard, index.flow.moves[move])),
    ],
    look: (look) => {
      const { place, statement, happening } = look.move;
      if (happening.type === 'admonish') {
        shownAt.set(look.node, place);
        return;
      }
      if (look.monitor(shown) === 1 || !brokenWhile(look, hazard.condition, undefined)) return;
      const key = `${hazard.id} ${placeKey(place)}`;
      getOrInsert(beginnings, key, () => []).push({ node: look.node, moveIndex: look.moveIndex });
      context.collector.add(
        'hazards',
        key,
        (): HazardBegins => ({
          place,
          hazard,
          statement,
          get late() {
            return lateFor(key);
          },
          path: context.path(look, [...items], []),
          blended: look.node.blended,
        }),
        look.move.call,
      );
    },
    atEnd: ({ ways }, _, valueAt) => {
      const isThere = (node: Node) => valueAt(node, wasMet) !== 0;
      lateFor = (key) => admonitionAfter(beginnings.get(key) ?? [], shownAt, ways, isThere);
    },
    settle: settleStanding(hazard.condition, undefined),
  };
}

/** Paths on which the hazard is there are kept apart from those on which it is not: only the former must come to an admonition. */
function withBeginning(condition: Condition, monitors: readonly Monitor[]): readonly Monitor[] {
  const isKept = monitors.includes(wasMet) || asksTime(condition);
  return isKept ? monitors : [...monitors, wasMet];
}

/** 1 once an admonition for the hazard was shown. */
function shownMonitor(hazard: Hazard): Monitor {
  return { name: 'shown', step: ({ move }) => (announces(hazard, move) ? 1 : undefined) };
}

function announces(hazard: Hazard, move: Move | undefined): boolean {
  return move?.happening.type === 'admonish' && isShown(hazard, move.happening);
}

function protectQuestion(hazard: Hazard, protect: Condition, context: Context): Question {
  return whileQuestion(hazard.condition, protect, context, (look, broken) => {
    const { place } = look.move;
    context.collector.add(
      'unprotected',
      `${hazard.id} ${placeKey(place)}`,
      (): Unprotected => {
        const unmet = unmetTerms(protect, broken.view, look);
        return { place, hazard, unmet, path: context.path(look, look.items, unmet), blended: look.node.blended };
      },
      look.move.call,
    );
  });
}

function stopQuestion(hazard: Hazard, context: Context): Question {
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
