/** A question that stands on all of a path: while its trigger is met, what it requires holds. */
import type { Condition } from '../../../shared/card.ts';
import { type Answer, isSplit, type Split, turned } from '../meaning/answer.ts';
import { evaluate, somePart, type View } from '../meaning/evaluate.ts';
import type { State } from '../meaning/state.ts';
import { asksTime } from '../meaning/things.ts';
import { drifts, touches } from '../meaning/transition-facts.ts';
import type { Look } from '../slicing/question.ts';
import { untouched, wasMet } from './monitors.ts';

export interface Broken {
  /** A state in which it is broken, after the move or at the end. */
  readonly state: State;
  /** The state as it is looked at: readings as they were known just before. */
  readonly view: View;
  readonly sinceStart: boolean;
}

/**
 * Whether the move brings about that the trigger is met and the requirement does not hold. What was broken before is not asked again, but at the
 * first touch. While a trigger stays met, readings in the requirement are not asked again.
 */
export function brokenWhile(look: Look, trigger: Condition, require: Condition | undefined): Broken | undefined {
  return new StandingAtMove(look, trigger, require).broken();
}

class StandingAtMove {
  /** What was broken from the start is told where something is touched first. */
  private readonly isFirstTouch: boolean;
  /** It may break by itself, and may be broken: so it is told already, unless the move itself breaks it. */
  private readonly isTold: boolean;

  constructor(
    private readonly look: Look,
    private readonly trigger: Condition,
    private readonly require: Condition | undefined,
  ) {
    this.isFirstTouch = look.monitor(untouched) === 1 && touches(look.move.happening);
    this.isTold = !this.isFirstTouch && this.changesByItself() && this.mayBeBroken();
  }

  broken(): Broken | undefined {
    if (this.isTold && !this.touchesOne()) return undefined;
    let broken: Broken | undefined;
    somePart(this.look.node.state, (before) => {
      const met = this.metBefore(before);
      if (isSplit(met)) return met;
      const goesOn = met === 'yes' && !this.isFirstTouch;
      const wasBroken = goesOn && this.isUnmet(this.look.viewAtLastAsk(before, 'met'));
      if (wasBroken !== false) return wasBroken === true ? false : wasBroken;
      broken = this.brokenFrom(before, met === 'yes');
      return broken !== undefined;
    });
    return broken;
  }

  private brokenFrom(before: State, met: boolean): Broken | undefined {
    const { look, isFirstTouch, isTold } = this;
    const readings = met && !isFirstTouch ? 'met' : 'known';
    const brokenPart = (state: State) => somePart(state, (part) => this.isBroken(part, before, readings));
    if (isTold && !look.happened(before).some(brokenPart)) return undefined;
    for (const after of look.after(before)) {
      const state = brokenPart(after);
      if (!state) continue;
      const sinceStart = isFirstTouch && met && this.isUnmet(look.viewAtLastAsk(before, 'known')) !== false;
      return { state, view: look.viewAfter(state, 'known', before), sinceStart };
    }
    return undefined;
  }

  private isBroken(after: State, before: State, readings: View['as']): boolean | Split {
    const { look, trigger } = this;
    const met = evaluate(trigger, look.viewAfter(after, 'known', before), look.variables);
    if (isSplit(met)) return met;
    const isMet = met === 'yes' || (look.node.blended && met === 'unknown');
    return isMet && this.isUnmet(look.viewAfter(after, readings, before));
  }

  private isUnmet(view: View): boolean | Split {
    if (!this.require) return true;
    const held = evaluate(this.require, view, this.look.variables);
    return isSplit(held) ? turned(held) : held !== 'yes';
  }

  private metBefore(part: State): Answer {
    const { look } = this;
    const known = look.monitor(wasMet);
    if (known !== undefined) return known === 1 ? 'yes' : 'no';
    return evaluate(this.trigger, look.viewAtLastAsk(part, 'known'), look.variables);
  }

  private mayBeBroken(): boolean {
    const part = somePart(this.look.node.state, (before) => {
      const met = this.metBefore(before);
      if (met !== 'yes') return isSplit(met) ? met : false;
      return this.isUnmet(this.look.viewAtLastAsk(before, 'met'));
    });
    return part !== undefined;
  }

  /** One of the items may have moved by itself, or have been as it is for too long. */
  private changesByItself(): boolean {
    return this.look.items.some(drifts) || asksTime(this.trigger, this.require);
  }

  private touchesOne(): boolean {
    const { happening } = this.look.move;
    return 'item' in happening && this.look.items.includes(happening.item);
  }
}
