import type { Condition, Item, Rule } from '../../../shared/card.ts';
import { termsIn } from '../../../shared/conditions.ts';
import { callKey } from '../../flow/calls.ts';
import type { Move } from '../../flow/graph.ts';
import { mostTogether } from '../../flow/limits.ts';
import { type Break, type ItemState, placeKey, type Unmet } from '../break.ts';
import { type Answer, isSplit, opposite } from '../meaning/answer.ts';
import { evaluate, somePart } from '../meaning/evaluate.ts';
import { holdingWhereOpen } from '../meaning/open-parts.ts';
import type { State } from '../meaning/state.ts';
import { thingsIn } from '../meaning/things.ts';
import { drifts, passesTime } from '../meaning/transition-facts.ts';
import { beginningsBy } from '../meaning/triggers.ts';
import type { Look, Question } from '../slicing/question.ts';
import { somewhere, unmetTerms } from './breaks.ts';
import { hangingOn, mendByChecksToo, mendOf } from './mend.ts';
import { siteOfStop, stopSite } from './monitors.ts';
import type { Context, QuestionSort } from './sort.ts';
import type { Broken } from './standing.ts';
import { whileQuestion } from './while.ts';

export interface RuleBreak extends Break {
  readonly rule: Rule;
  /** What may be so there, and need not, for which the rule asks something at all. */
  readonly mayBeMet: readonly Unmet[];
  /** What of the `require` does not hold there: an item with the states that it may have, or a reading that is not known or outside. */
  readonly unmet: readonly Unmet[];
  /** Where a supply or something that is only seen is what is wrong: the fewest settings, and checks of what is seen, that put it right. */
  readonly mend?: readonly ItemState[];
  /** Without a mend: what would put it right, but is only seen or moves by itself, and may change again with the action itself. */
  readonly hangsOn?: readonly ItemState[];
  /** It was so from the start of the card and is met at the first action. */
  readonly sinceStart: boolean;
}

/** Does what a rule requires hold wherever it asks? */
export const rules: QuestionSort<RuleBreak> = {
  makers: ({ equipment }) => equipment.rules.map((rule) => (context) => questionsOf(rule, context)),
  reason: ({ rule }) => ({ because: rule.title, from: 'rule' }),
  conclude: joinParts,
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain" normally closed
item lid : valve "the lid" normally closed
rule r "Lid first" { before drain open require lid open }`,
      bad: `card a "A" {
  step set drain open
  //   ^^^^^^^^^^^^^^ rules
}`,
      good: `card a "A" {
  step set lid open
  step set drain open
}`,
    },
  ],
};

function questionsOf(rule: Rule, context: Context<RuleBreak>): Question[] {
  return partsOf(rule).map((require, part) =>
    questionOf(rule, require, context, (look, broken) => report(rule, require, part, look, broken, context)),
  );
}

function questionOf({ trigger, condition }: Rule, require: Condition, context: Context, tell: Tell): Question {
  switch (trigger) {
    case 'before':
      return beforeQuestion(condition as Condition, require, tell);
    case 'while':
      return whileQuestion(condition as Condition, require, context, tell);
    case 'at end':
      return endQuestion('finish', require, tell);
    case 'at stop':
      return endQuestion('stopped', require, tell);
  }
}

/** What a rule asks, in parts where it asks of many items: all of it holds where each part does. A `while` is not parted: what was broken already, by whichever part, is told only once. */
function partsOf({ trigger, require }: Rule): Condition[] {
  const whole = holdingWhereOpen(require);
  const parts = trigger === 'while' ? [whole] : conjuncts(whole);
  const items = parts.flatMap((part) => [...thingsIn(part).items]);
  const areApart = new Set(items).size === items.length && parts.every(isOfStates);
  return areApart && items.length > mostTogether ? parts : [whole];
}

function conjuncts(condition: Condition): Condition[] {
  if (condition.type === 'and') return condition.terms.flatMap(conjuncts);
  return condition.type === 'quantified' && condition.written.type === 'and'
    ? conjuncts(condition.written)
    : [condition];
}

function isOfStates(condition: Condition): boolean {
  return [...termsIn(condition)].every((term) => term.type === 'state' && !term.lasting && !drifts(term.item));
}

/** Breaks of the parts of one rule at one place, as one: with the path of one that is no false alarm, where there is such. */
function joinParts(breaks: readonly RuleBreak[]): RuleBreak[] {
  const joined = new Map<string, RuleBreak>();
  for (const one of breaks) {
    const { rule, place, configurations, calls = [] } = one;
    const key = [rule.id, placeKey(place), configurations, callKey(...calls)].join();
    const known = joined.get(key);
    const [told, other] = known?.blended ? [one, known] : [known ?? one, known && one];
    joined.set(key, { ...told, unmet: [...told.unmet, ...(other?.unmet.map(onOtherPaths) ?? [])] });
  }
  return [...joined.values()];
}

/** On the path that is told it may be as it should. */
function onOtherPaths(term: Unmet): Unmet {
  return term.type === 'item' ? { ...term, possible: [...new Set([...term.possible, ...term.wanted])] } : term;
}

type Tell = (look: Look, broken: Broken) => void;

function beforeQuestion(trigger: Condition, require: Condition, tell: Tell): Question {
  const { items, gauges } = thingsIn(trigger, require);
  const triggering = thingsIn(trigger).items;
  return {
    items: [...items],
    gauges: [...gauges],
    monitors: [],
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
      if (broken) tell(look, brokenBefore(look, broken));
    },
  };
}

/** What nobody knows to hold does not. */
function unmet(answer: Answer): Answer {
  return answer === 'unknown' ? 'yes' : opposite(answer);
}

function endQuestion(end: 'finish' | 'stopped', require: Condition, tell: Tell): Question {
  const { items, gauges } = thingsIn(require);
  const fails: Condition = { type: 'not', term: require, place: require.place };
  return {
    items: [...items],
    gauges: [...gauges],
    monitors: end === 'stopped' ? [stopSite] : [],
    watches: (index) => index.at(end),
    look: (look) => {
      const broken = somewhere(look, fails, (answer) => answer !== 'no');
      if (broken) tell(look, brokenBefore(look, broken));
    },
  };
}

/** Broken in a state from which the move goes. */
function brokenBefore(look: Look, state: State): Broken {
  return { state, view: look.view(state, 'known'), sinceStart: false };
}

function report(
  rule: Rule,
  require: Condition,
  part: number,
  look: Look,
  broken: Broken,
  context: Context<RuleBreak>,
): void {
  const { state, view, sinceStart } = broken;
  const { place, call } = siteOfStop(look, context.flow) ?? look.move;
  context.collector.add(
    `${rule.id} ${part}`,
    place,
    (): RuleBreak => {
      const unmet = unmetTerms(require, view, look).map((term): Unmet => {
        if (term.type !== 'reading' || term.known || term.inPart) return term;
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
    call,
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
