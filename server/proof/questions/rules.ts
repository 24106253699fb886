import type { Condition, Item, Rule } from '../../../shared/card.ts';
import type { Move } from '../../flow/graph.ts';
import { type Answer, isSplit, opposite } from '../answer.ts';
import { type Broken, somePart, somewhere, unmetTerms } from '../breaks.ts';
import { placeKey } from '../collector.ts';
import { evaluate } from '../evaluate.ts';
import type { RuleBreak, Unmet } from '../facts.ts';
import { holdingWhereOpen } from '../open-parts.ts';
import type { Look, Question } from '../question.ts';
import type { State } from '../state.ts';
import { thingsIn } from '../things.ts';
import { passesTime } from '../transition-facts.ts';
import { beginningsBy } from '../triggers.ts';
import type { Context } from './context.ts';
import { hangingOn, mendByChecksToo, mendOf } from './mend.ts';
import { whileQuestion } from './while.ts';

export function ruleQuestion(rule: Rule, context: Context): Question {
  const require = holdingWhereOpen(rule.require);
  switch (rule.trigger) {
    case 'before':
      return beforeQuestion(rule, rule.condition as Condition, require, context);
    case 'while':
      return whileQuestion(rule.condition as Condition, require, context, (look, broken) =>
        report(rule, require, look, broken, context),
      );
    case 'at end':
      return endQuestion(rule, 'finish', require, context);
    case 'at stop':
      return endQuestion(rule, 'stopped', require, context);
  }
}

function beforeQuestion(rule: Rule, trigger: Condition, require: Condition, context: Context): Question {
  const { items, gauges } = thingsIn(trigger, require);
  const triggering = thingsIn(trigger).items;
  return {
    items: [...items],
    gauges: [...gauges],
    own: [],
    watches: (index) =>
      [...triggering]
        .flatMap((item) => index.movesOfItem(item))
        .filter((move) => passesTime(index.flow.moves[move] as Move)),
    look: (look) => {
      const { happening } = look.move;
      if (!('item' in happening)) return;
      const begins = beginningsBy(happening.item, trigger);
      const broken = somePart(look.node.state, (before) => {
        const [after] = look.happened(before);
        if (!after) return false;
        for (const { newly, whole } of begins) {
          const answers = [
            unmet(evaluate(newly, look.view(before, 'known'), look.variables)),
            look.seenBefore(evaluate(newly, look.viewAfter(after, 'known', before), look.variables)),
            look.seenBefore(evaluate(whole, look.viewAfter(after, 'known', before), look.variables)),
            unmet(evaluate(require, look.view(before, 'known'), look.variables)),
          ];
          if (answers.includes('no')) continue;
          const split = answers.find(isSplit);
          if (split) return split;
          if (answers.every((answer) => answer === 'yes' || (look.node.blended && answer === 'unknown'))) return true;
        }
        return false;
      });
      if (broken) report(rule, require, look, brokenBefore(look, broken), context);
    },
  };
}

/** What nobody knows to hold does not. */
function unmet(answer: Answer): Answer {
  return answer === 'unknown' ? 'yes' : opposite(answer);
}

function endQuestion(rule: Rule, at: 'finish' | 'stopped', require: Condition, context: Context): Question {
  const { items, gauges } = thingsIn(require);
  const fails: Condition = { type: 'not', term: require, place: require.place };
  return {
    items: [...items],
    gauges: [...gauges],
    own: at === 'stopped' ? [{ type: 'stop-site' }] : [],
    watches: (index) => (at === 'finish' ? index.finishes : index.stops),
    look: (look) => {
      const broken = somewhere(look, fails, (answer) => answer !== 'no');
      if (broken) report(rule, require, look, brokenBefore(look, broken), context);
    },
  };
}

/** Broken in a state from which the move goes. */
function brokenBefore(look: Look, state: State): Broken {
  return { state, view: look.view(state, 'known'), sinceStart: false };
}

function report(rule: Rule, require: Condition, look: Look, broken: Broken, context: Context): void {
  const { state, view, sinceStart } = broken;
  const place = placeOf(look, context);
  context.collector.add(
    'rules',
    `${rule.id} ${placeKey(place)}`,
    (): RuleBreak => {
      const unmet = unmetTerms(require, view, look).map((term): Unmet => {
        if (term.type !== 'reading' || term.known) return term;
        return { ...term, lostBy: context.lostBy(look, term.gauge) };
      });
      return {
        place,
        rule,
        mayBeMet: mayBeMet(rule, view, look),
        unmet,
        ...mendFor(rule, require, unmet, state, look),
        sinceStart,
        path: context.path(look, itemsAbout(rule), unmet),
        blended: look.node.blended,
      };
    },
    look.move.call,
  );
}

/** What a `while` hangs on and nobody has settled: items of its condition that may also be in another state. */
function mayBeMet({ trigger, condition }: Rule, view: Broken['view'], look: Look): Unmet[] {
  if (trigger !== 'while' || !condition) return [];
  const isOpen = (term: Unmet) => term.type === 'item' && term.possible.length > 1;
  return unmetTerms(condition, view, look, false).filter(isOpen);
}

function itemsAbout(rule: Rule): Item[] {
  return [...thingsIn(rule.condition, rule.require).items];
}

/**
 * What a check finds lasts until the next action, so that it settles what must be so before one, or when the card finishes; not what
 * must stay so through the action itself, and a check that fails on the way of a stop is one more stop.
 */
function mendFor(
  { trigger }: Rule,
  require: Condition,
  unmet: readonly Unmet[],
  state: State,
  look: Look,
): Pick<RuleBreak, 'mend' | 'hangsOn'> {
  const isSeen = (term: Unmet) => term.type === 'item' && term.item.kind.seen;
  if (!unmet.some((term) => term.type === 'supply' || isSeen(term))) return {};
  if (trigger === 'before' || trigger === 'at end') return { mend: mendByChecksToo(require, state, look) };
  const mend = mendOf(require, state, look);
  return mend || trigger === 'at stop' ? { mend } : { hangsOn: hangingOn(require, state, look) };
}

/** A stop stands where it was written, or at the check that failed; all else where it happens. */
export function placeOf(look: Look, context: Context): RuleBreak['place'] {
  const site = look.own('stop-site');
  const stop = site ? context.flow.stopSites[site - 1] : undefined;
  return stop ? stop.place : look.move.place;
}
