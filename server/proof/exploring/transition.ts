/** What one move makes of a state. */
import type { Condition, Item } from '../../../shared/card.ts';
import type { Happening, Move } from '../../flow/graph.ts';
import { partsWhere, type View } from '../meaning/evaluate.ts';
import { anyRounds, type State, withValue } from '../meaning/state.ts';
import { lastingTerms } from '../meaning/things.ts';
import { endsReading, passesTime } from '../meaning/transition-facts.ts';
import type { Slice } from '../slicing/slice.ts';
import { everyAnswer, partsByStay } from './stays.ts';

/** A state that an item may come to by itself. */
interface Drift {
  readonly variable: number;
  readonly bit: number;
  readonly when?: Condition;
}

export class Transitions {
  constructor(
    private readonly slice: Slice,
    private readonly lasting: View['lasting'] = undefined,
  ) {}

  view = (state: State, as: View['as'], readings: State = state): View => ({
    state,
    readings,
    as,
    lasting: this.lasting,
  });

  /** The states after the move; none where it cannot be taken. */
  after(state: State, move: Move, moveIndex: number): State[] {
    const changed = this.happen(state, move, moveIndex);
    if (!passesTime(move)) return changed;
    const forgotten = changed.map((one) => this.forgetReadings(one, move.happening));
    return forgotten.flatMap((one) => this.drift(one));
  }

  /** The state right after a `set` or `begin`, before anything moves by itself. */
  set(state: State, item: Item, value: number): State {
    const variable = this.slice.ofItem(item);
    return variable === undefined ? state : withValue(state, variable, 1 << value);
  }

  /** The states right after what happens, before anything moves by itself. */
  happen(state: State, move: Move, moveIndex: number): State[] {
    const { happening } = move;
    const stepped = (before: State, after = before) => this.stepped(before, after, move, moveIndex);
    switch (happening.type) {
      case 'assume': {
        const parts = this.assume(state, happening);
        return happening.inPassing && parts.length > 0 ? [state] : parts;
      }
      case 'set':
        return [stepped(state, this.set(state, happening.item, happening.state))];
      case 'begin':
        return partsByStay(state, happening.item, this.slice).map((part) =>
          stepped(part, this.beginRun(part, happening)),
        );
      case 'end':
        return [stepped(state, this.endRun(state, happening))];
      case 'enter-loop':
        return [this.setRounds(state, happening.loop, 1)];
      case 'again': {
        const done = this.rounds(state, happening.loop);
        const anew = this.forgetReadings(state, happening);
        if (done === anyRounds) return [anew];
        return done < happening.times ? [this.setRounds(anew, happening.loop, done + 1)] : [];
      }
      case 'leave-loop': {
        const done = this.rounds(state, happening.loop);
        if (done !== anyRounds && done < (happening.times ?? 0)) return [];
        return [this.setRounds(state, happening.loop, 0)];
      }
      case 'forget':
      case 'meanwhile':
        return [this.forgetReadings(state, happening)];
      case 'call':
        return [happening.assumes.reduce((part, { item, state: value }) => this.set(part, item, value), state)];
      case 'fork':
      case 'join':
        return [this.maybeChanged(state, happening.changes)];
      default:
        return [stepped(state)];
    }
  }

  /** With the monitors as they are after the move. */
  private stepped(before: State, after: State, move: Move, moveIndex: number): State {
    const { index, question } = this.slice;
    if (question.monitors.length === 0) return after;
    const maskIn = (state: State) => (item: Item) => state[this.slice.ofItem(item) ?? -1] ?? 0;
    const happened = {
      move,
      site: (index.site[moveIndex] as number) + 1,
      before: maskIn(before),
      after: maskIn(after),
    };
    return question.monitors.reduce((state, monitor) => {
      const value = monitor.step?.(happened);
      return value === undefined ? state : withValue(state, this.slice.ofMonitor(monitor) as number, value);
    }, after);
  }

  /** The parts of a state in which a condition holds, or does not. Where times are not known, every answer to a question of time gives its own. */
  private assume(state: State, { condition, holds }: Extract<Happening, { type: 'assume' }>): State[] {
    const terms = this.lasting ? [] : lastingTerms(condition);
    if (terms.length === 0) return this.partsAfter(condition, holds, state, this.lasting);
    const parts = everyAnswer(terms).flatMap((answers) =>
      this.partsAfter(condition, holds, state, (term) => answers.get(term) ?? 'unknown'),
    );
    return [...new Map(parts.map((part) => [part.join(), part])).values()];
  }

  /** First the items are told apart; for each of their parts the path then knows of the readings what the condition tells. */
  private partsAfter(condition: Condition, holds: boolean, state: State, lasting: View['lasting']): State[] {
    const wanted = holds ? 'yes' : 'no';
    const view = (as: View['as']) => (part: State) => ({ ...this.view(part, as), lasting });
    const fits = (answer: 'yes' | 'no' | 'unknown') => answer === wanted || answer === 'unknown';
    return partsWhere(condition, state, this.slice, () => true, view('known')).flatMap((part) =>
      this.widened(partsWhere(condition, part, this.slice, fits, view('world'))),
    );
  }

  /** Each part knows of a reading only that without which the condition would not let it through, whatever the others show. */
  private widened(parts: readonly State[]): State[] {
    const wide = parts.toReversed();
    for (let changed = wide.length > 1; changed; ) {
      changed = false;
      for (const [index, part] of wide.entries()) {
        const wider = wide.reduce((one, other) => this.widerBy(one, other), part);
        if (wider !== part) changed = true;
        wide[index] = wider;
      }
    }
    const { slice } = this;
    return wide.filter(
      (one, index) => !wide.some((other, at) => slice.allows(other, one) && (at < index || !slice.allows(one, other))),
    );
  }

  /** With what the other part allows of one reading, where it allows all else. */
  private widerBy(one: State, other: State): State {
    const missing = one.flatMap((value, index) => (((other[index] as number) | value) === other[index] ? [] : [index]));
    const readings = [...this.slice.gauges].map((gauge) => this.slice.ofGauge(gauge) as number);
    return readings.reduce((wider, reading) => {
      const allowsRest = missing.every((index) => index === reading);
      return allowsRest ? withValue(wider, reading, (wider[reading] as number) | (other[reading] as number)) : wider;
    }, one);
  }

  private beginRun(state: State, { run, item, state: value }: Extract<Happening, { type: 'begin' }>): State {
    const before = this.slice.own('before-run', run);
    if (before === undefined) return state;
    return withValue(this.set(state, item, value), before, state[this.slice.ofItem(item) as number] as number);
  }

  /** The item goes back to what it was. */
  private endRun(state: State, { run, item }: Extract<Happening, { type: 'end' }>): State {
    const before = this.slice.own('before-run', run);
    if (before === undefined) return state;
    return withValue(withValue(state, this.slice.ofItem(item) as number, state[before] as number), before, 0);
  }

  /** `anyRounds` where the slice does not count them either. */
  private rounds(state: State, loop: number): number {
    const variable = this.slice.own('rounds', loop);
    return variable === undefined ? anyRounds : (state[variable] as number);
  }

  private setRounds(state: State, loop: number, done: number): State {
    const variable = this.slice.own('rounds', loop);
    return variable === undefined ? state : withValue(state, variable, done);
  }

  private maybeChanged(state: State, changes: readonly { item: Item; state: number }[]): State {
    const changed = state.slice();
    for (const change of changes) {
      const variable = this.slice.ofItem(change.item);
      if (variable !== undefined) changed[variable] = (changed[variable] as number) | (1 << change.state);
    }
    return changed;
  }

  private forgetReadings(state: State, happening: Happening): State {
    let changed = state;
    for (const gauge of this.slice.gauges) {
      if (endsReading(gauge, happening))
        changed = withValue(changed, this.slice.ofGauge(gauge) as number, this.slice.regions(gauge).all);
    }
    return changed;
  }

  /** What is only seen may be in any state again; what may move by itself may have, over and over until nothing new can. */
  private drift(state: State): State[] {
    return this.driftFrom(this.seenAnew(state), (one) => this.seenAnew(one));
  }

  /** What may become of a state by itself; what is only seen is taken to stay. */
  moved(state: State): State[] {
    return this.driftFrom(state, (one) => one);
  }

  private driftFrom(state: State, anew: (state: State) => State): State[] {
    const mays = [...this.slice.items].flatMap((item) =>
      item.may.map(
        (may): Drift => ({ variable: this.slice.ofItem(item) as number, bit: 1 << may.state, when: may.when }),
      ),
    );
    const reached = [state];
    if (mays.length === 0) return reached;
    for (const from of reached) {
      for (const to of mays.flatMap((may) => this.driftOnce(from, may).map(anew))) {
        if (!reached.some((known) => this.slice.allows(known, to))) reached.push(to);
      }
    }
    return reached.filter((one, index) => !reached.some((other, at) => at > index && this.slice.allows(other, one)));
  }

  private driftOnce(state: State, { variable, bit, when }: Drift): State[] {
    const parts = when
      ? partsWhere(
          when,
          state,
          this.slice,
          (answer) => answer !== 'no',
          (part) => this.view(part, 'world'),
        )
      : [state];
    return parts.map((part) => withValue(this.withReadingsOf(state, part), variable, (part[variable] as number) | bit));
  }

  /** That something has moved by itself tells the path nothing of the readings on which it hangs. */
  private withReadingsOf(state: State, part: State): State {
    return part.map((value, index) =>
      this.slice.variables[index]?.type === 'gauge' ? (state[index] as number) : value,
    );
  }

  private seenAnew(state: State): State {
    let seen = state;
    for (const item of this.slice.items) {
      const variable = this.slice.ofItem(item) as number;
      if (item.kind.seen) seen = withValue(seen, variable, (this.slice.variables[variable] as { all: number }).all);
    }
    return seen;
  }
}
