import type { Condition, Hazard } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import type { Place } from '../../../shared/text.ts';
import type { Move } from '../../flow/graph.ts';
import { type Break, placeKey } from '../break.ts';
import { asksTime, thingsIn } from '../meaning/things.ts';
import { isShown } from '../meaning/transition-facts.ts';
import type { Monitor } from '../slicing/monitor.ts';
import type { Node, Question } from '../slicing/question.ts';
import { admonitionAfter, type Beginning } from './announcements.ts';
import { wasMet } from './monitors.ts';
import type { Context, QuestionSort } from './sort.ts';
import { brokenWhile } from './standing.ts';
import { actionsThatMatter, settleStanding, standingMonitors } from './while.ts';

export interface HazardBegins extends Break {
  readonly hazard: Hazard;
  /** An admonition for it still comes on some path: the place of that admonition. */
  readonly late?: Place;
  /** The statement (step or other) before which the admonition belongs. */
  readonly statement: Place;
}

/** Is a hazard there before its admonition was shown? */
export const hazards: QuestionSort<HazardBegins> = {
  makers: ({ equipment }) => equipment.hazards.map((hazard) => (context) => [beginsQuestion(hazard, context)]),
  reason: ({ hazard }) => ({ because: hazard.label, from: 'hazard' }),
  // On some machines the admonition comes late, on others not at all: it stands there.
  join: (kept, other) => ({ ...kept, late: kept.late ?? other.late }),
  examples: [
    {
      given: `kind cart { stopped "Stop {}", running "Start {}" }
item power-cart : cart "the power cart" normally stopped
hazard noise "noise" while power-cart running { warning "Noise can damage your hearing." }`,
      bad: `card a "A" {
  step set power-cart running
  //   ^^^^^^^^^^^^^^^^^^^^^^ hazards
  step set power-cart stopped
}`,
      good: `card a "A" {
  warning noise
  step set power-cart running
  step set power-cart stopped
}`,
    },
  ],
};

function beginsQuestion(hazard: Hazard, context: Context<HazardBegins>): Question {
  const { items, gauges } = thingsIn(hazard.condition);
  const standing = withBeginning(hazard.condition, standingMonitors(hazard.condition, context));
  const shown = shownMonitor(hazard);
  const actions = actionsThatMatter([...items], gauges.size > 0, asksTime(hazard.condition), standing);
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
      const key = placeKey(place);
      getOrInsert(beginnings, key, () => []).push({ node: look.node, moveIndex: look.moveIndex });
      context.collector.add(
        hazard.id,
        place,
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
