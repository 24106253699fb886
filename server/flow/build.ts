import type {
  Card,
  Condition,
  Do,
  Label,
  Mend,
  Repeat,
  Stage,
  Statement,
  Step,
  Together,
  Words,
} from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import { drawAction } from './actions.ts';
import { type Call, callsOf } from './calls.ts';
import type { Configuration } from './configurations.ts';
import { Drawing, type KeepInForce, type MoveDetails, type Scope } from './drawing.ts';
import type { Answer, Flow, Move, Point, Reason } from './graph.ts';
import { type DrawnLanes, type LanePart, productOfLanes, type Sink, shortened } from './lanes.ts';
import { leadLane } from './led-lane.ts';
import { withRoundsJoined } from './silent-rounds.ts';
import { noTicks, type Ticks, ticksOf, unknownTime } from './time.ts';
import { joinsInSilence, timedProduct } from './timed-lanes.ts';

export interface BuildOptions {
  readonly includes: Configuration['includes'];
  /**
   * For timing: which lane is timed, -1 for none. Without `isSilent` the path follows it alone, and waits at its end for the others.
   * Without `lead` every interleaving of the lanes is in the graph, and no lane has a time of its own.
   */
  readonly lead?: (lanes: Together['lanes']) => number;
  /** Where lanes are not timed: something asks how long an item has been in a state. */
  readonly keepsTimes?: boolean;
  /** For timing in every interleaving of the lanes: a move that matters only for the time that it takes. */
  readonly isSilent?: (move: Move) => boolean;
  /** For times to which it is all the same whose hands are at work: the rounds of silent loops are joined. */
  readonly joinsRounds?: boolean;
  /** A move that no path takes, as is known from other questions. */
  readonly isClosed?: (move: Move) => boolean;
}

/** Draws the graph of a card for one configuration. Where lanes have too many interleavings to be timed in each, one is followed. */
export function buildFlow(card: Card, options: BuildOptions): Flow {
  const flow = new Builder(card, options).build();
  if (!options.isSilent || !flow.blended) return flow;
  const { isSilent, ...inOneOrder } = options;
  return { ...new Builder(card, inOneOrder).build(), blended: true };
}

class Builder {
  private readonly drawing: Drawing;
  private readonly calls: ReadonlyMap<Do, Call>;

  constructor(
    private readonly card: Card,
    private readonly options: BuildOptions,
  ) {
    this.drawing = new Drawing(card);
    this.calls = callsOf(card);
  }

  build(): Flow {
    const start = this.drawing.point();
    const scope: Scope = { finish: 'end of card', keeps: [], roles: this.card.crew, loops: 0, stopping: false };
    const last = this.drawBody(this.card.body, start, scope);
    this.drawing.move(last, this.drawing.end, this.card.place, { happening: { type: 'finish' } });
    this.drawStopped(scope);
    this.drawing.moves = this.openMoves();
    const { isSilent, joinsRounds } = this.options;
    if (isSilent && joinsRounds) this.drawing.moves = withRoundsJoined(this.drawing.moves, isSilent);
    if (isSilent) this.drawing.moves = withoutSilent(this.drawing.moves, start, this.drawing.nextPoint, isSilent);
    return this.drawing.finished(start);
  }

  private openMoves(): Move[] {
    const { moves } = this.drawing;
    const { isClosed } = this.options;
    return isClosed ? moves.filter((move) => !isClosed(move)) : moves;
  }

  private drawStopped(scope: Scope): void {
    const stages = this.card.body.filter((part): part is Stage => part.type === 'stage' && part.whenStopped);
    const { stopped } = this.drawing;
    let at = this.drawing.stopEntry;
    for (const stage of stages) {
      if (this.options.includes(stage.only))
        at = this.drawBody(stage.body, at, { ...scope, finish: stopped, stopping: true });
    }
    this.drawing.move(at, stopped, this.card.place);
    this.drawing.move(stopped, this.drawing.end, this.card.place, { happening: { type: 'stopped' } });
  }

  private drawBody(body: readonly (Stage | Statement)[], from: Point, scope: Scope): Point {
    let at = from;
    let inner = scope;
    for (const statement of body) {
      if (statement.type === 'keep') {
        const { text } = this.drawing;
        // Its point must not count as one of a lane that leads there: those are told by their numbers.
        if (statement.otherwise?.type === 'go' && statement.otherwise.target)
          this.drawing.labelPoint(statement.otherwise.target);
        inner = { ...inner, keeps: [...inner.keeps, { keep: statement, text, finish: scope.finish }] };
      } else at = this.drawPart(statement, at, inner);
    }
    return at;
  }

  private drawPart(part: Stage | Statement, from: Point, scope: Scope): Point {
    if (part.type !== 'stage') return this.drawStatement(part, from, scope);
    if (part.whenStopped) return from;
    const at = this.arriveAtLabel(part.label, from, part.place);
    return this.options.includes(part.only) ? this.drawBody(part.body, at, scope) : at;
  }

  private arriveAtLabel(label: Label | undefined, from: Point, place: Place): Point {
    return label ? this.drawing.move(from, this.drawing.labelPoint(label), place) : from;
  }

  private drawStatement(statement: Statement, from: Point, scope: Scope): Point {
    this.drawing.statement = statement.place;
    switch (statement.type) {
      case 'step':
        return this.drawStep(statement, from, scope);
      case 'admonition':
        return this.options.includes(statement.only) && statement.hazard
          ? this.drawing.next(from, statement.place, {
              happening: { type: 'admonish', hazard: statement.hazard, level: statement.level },
            })
          : from;
      case 'if':
        return this.drawIf(statement, from, scope);
      case 'repeat':
        return this.drawRepeat(statement, from, scope);
      case 'together':
        return this.drawTogether(statement, from, scope);
      case 'do':
        return this.drawDo(statement, from, scope);
      case 'for-each':
        return statement.rounds.reduce((at, round) => this.drawBody(round, at, scope), from);
      case 'choose':
        return this.drawChoose(statement, from, scope);
      case 'mend':
        return this.options.includes(statement.only) ? this.drawMend(statement, from, scope) : from;
      case 'go':
      case 'stop':
      case 'finish':
        this.drawing.drawFlow(statement, from, scope);
        return this.drawing.point();
      case 'keep':
      case 'sign':
      case 'accept':
      case 'figure':
        return from;
    }
  }

  // -------------------------------------------------------------- steps and actions

  private drawStep(step: Step, from: Point, scope: Scope): Point {
    const at = this.arriveAtLabel(step.label, from, step.head);
    if (!this.options.includes(step.only)) return at;
    this.drawing.noteStep(step);
    const roles = step.roles.length > 0 ? step.roles : scope.roles;
    const stepScope = { ...scope, roles };
    let inside = this.drawing.next(at, step.head, {
      happening:
        step.takes || step.anew || step.texts.length > 0 ? { type: 'moment', cause: 'step' } : { type: 'pass' },
      time: timeOfStep(step),
      steps: [step],
      roles,
    });
    for (const keep of scope.keeps) inside = this.drawKeep(keep, inside, step, stepScope);
    for (const action of step.actions) {
      if (action.type !== 'sign' && action.type !== 'accept')
        inside = drawAction(this.drawing, action, inside, stepScope);
    }
    return inside;
  }

  private drawKeep({ keep, text, finish }: KeepInForce, from: Point, step: Step, scope: Scope): Point {
    const branch = { statement: keep, form: 'check' as const };
    const left = this.drawing.next(from, step.head, {
      happening: { type: 'assume', condition: keep.condition, holds: false },
      reason: { type: 'fails', what: 'keep' },
      branch: { ...branch, passes: false },
      atOnce: true,
    });
    this.drawing.inText(text, () => this.drawing.drawElse(keep.otherwise, left, keep.place, { ...scope, finish }));
    return this.drawing.next(from, step.head, {
      happening: { type: 'assume', condition: keep.condition, holds: true },
      branch: { ...branch, passes: true },
      atOnce: true,
    });
  }

  // -------------------------------------------------------------- blocks

  private drawIf(statement: Extract<Statement, { type: 'if' }>, from: Point, scope: Scope): Point {
    const place = statement.head;
    const { condition, question } = statement;
    const after = this.drawing.point();
    const way = (passes: boolean): Point => {
      const branch = { statement, form: 'if' as const, passes };
      if (!condition) return this.drawing.next(from, place, { reason: answered(question, passes ? 'yes' : 'no') });
      const reason: Reason = { type: 'condition', holds: passes };
      return this.drawing.next(from, place, {
        happening: { type: 'assume', condition, holds: passes },
        reason,
        branch,
      });
    };
    const taken = way(true);
    const passed = way(false);
    this.drawing.move(this.drawBody(statement.body, taken, scope), after, statement.place);
    this.drawing.move(this.drawBody(statement.otherwise ?? [], passed, scope), after, statement.place);
    return after;
  }

  private drawRepeat(repeat: Repeat, from: Point, scope: Scope): Point {
    const loop = this.drawing.newLoop(scope.loops);
    const { times, until, place } = repeat;
    const head = this.drawing.next(from, place, { happening: { type: 'enter-loop', loop } });
    const round = this.drawBody(repeat.body, head, { ...scope, loops: scope.loops + 1 });
    this.drawing.statement = place;
    const after = this.drawing.point();
    let unfinished = round;
    if (until) {
      const holds = until.condition ? asked(repeat, until.condition, true) : {};
      const fails = until.condition ? asked(repeat, until.condition, false) : {};
      const told = (answer: Answer): Reason =>
        until.question ? answered(until.question, answer) : { type: 'until', answer };
      const done = this.drawing.next(round, repeat.head, { ...holds, reason: told('yes') });
      this.drawing.move(done, after, place, { happening: { type: 'leave-loop', loop }, atOnce: true });
      unfinished = this.drawing.next(round, repeat.head, { ...fails, reason: told('not yet') });
    }
    this.drawing.move(unfinished, head, place, {
      happening: { type: 'again', loop, times },
      reason: { type: 'round', number: times === 2 ? 2 : 0 },
      atOnce: until !== undefined,
    });
    const over = this.drawing.next(unfinished, place, {
      happening: { type: 'leave-loop', loop, times },
      atOnce: until !== undefined,
    });
    if (until) this.drawing.drawElse(repeat.otherwise, over, repeat.head, scope);
    else this.drawing.move(over, after, place);
    return after;
  }

  private drawChoose(statement: Extract<Statement, { type: 'choose' }>, from: Point, scope: Scope): Point {
    const after = this.drawing.point();
    for (const way of statement.ways) {
      const begun = this.drawing.next(from, way.place, { reason: { type: 'choice', way: way.text } });
      this.drawing.move(this.drawBody(way.body, begun, scope), after, way.place);
    }
    return after;
  }

  private drawMend({ label, body, place }: Mend, from: Point, scope: Scope): Point {
    const after = this.drawing.point();
    this.drawing.move(from, after, place);
    this.drawing.move(this.drawBody(body, this.drawing.labelPoint(label), scope), after, place);
    return after;
  }

  private drawDo(statement: Extract<Statement, { type: 'do' }>, from: Point, scope: Scope): Point {
    const { callee, place } = statement;
    const begun =
      callee.type === 'card' && callee.assumes.length > 0
        ? this.drawing.next(from, place, { happening: { type: 'call', assumes: callee.assumes } })
        : from;
    const after = this.drawing.point();
    const outer = this.drawing.text.call;
    const own = this.calls.get(statement);
    const call = own && outer ? { ...own, outer } : (own ?? outer);
    const last = this.drawing.inText({ labels: new Map(), call }, () =>
      this.drawBody(statement.body, begun, { ...scope, finish: after }),
    );
    this.drawing.move(last, after, place);
    return after;
  }

  private drawTogether(statement: Together, from: Point, scope: Scope): Point {
    const parts = statement.lanes.map((lane): LanePart => {
      const firstPoint = this.drawing.nextPoint;
      const entry = this.drawing.point();
      const kept = this.drawing.moves;
      this.drawing.moves = [];
      const laneScope = lane.role ? { ...scope, roles: [lane.role] } : scope;
      const exit = this.drawBody(lane.body, entry, laneScope);
      const part = { entry, exit, firstPoint, lastPoint: this.drawing.nextPoint, moves: this.openMoves() };
      this.drawing.moves = kept;
      return part;
    });
    const sink = { point: () => this.drawing.point(), add: (move: Move) => this.drawing.moves.push(move) };
    const { after, blended } = this.drawLanes(parts, statement, from, sink);
    this.drawing.blended ||= blended;
    return after;
  }

  private drawLanes(parts: readonly LanePart[], { lanes, place }: Together, from: Point, sink: Sink): DrawnLanes {
    const { lead, isSilent, keepsTimes } = this.options;
    if (!lead) return productOfLanes(parts, from, place, sink, keepsTimes === true);
    if (isSilent) return timedProduct(parts, { led: lead(lanes), isSilent }, from, place, sink);
    return { after: leadLane(parts, lead(lanes), from, place, sink), blended: false };
  }
}

/** What is silent takes its time, and nothing happens on it: where one such move only follows on another, both are one. */
function withoutSilent(
  drawn: readonly Move[],
  start: Point,
  points: number,
  isSilent: (move: Move) => boolean,
): Move[] {
  const moves = drawn.map((move): Move => (isSilent(move) ? { ...move, happening: { type: 'pass' } } : move));
  const whole = { entry: start, exit: points, firstPoint: 0, lastPoint: points, moves };
  return [...shortened(whole, (before, next) => !next.reason && joinsInSilence(before, next, isSilent)).moves];
}

/** A step with a `run`, a `wait` or a `bring … within` and no `takes` has no time of its own; any other without `takes` takes nobody knows how long. */
function timeOfStep(step: Step): Ticks {
  if (step.takes) return ticksOf(step.takes);
  const timed = step.actions.some(
    (action) =>
      action.type === 'run' || action.type === 'wait' || (action.type === 'bring' && action.within !== undefined),
  );
  return timed ? noTicks : unknownTime;
}

function answered(question: Words | undefined, answer: Answer): Reason {
  return { type: 'answer', question, answer };
}

function asked(repeat: Repeat, condition: Condition, holds: boolean): MoveDetails {
  return {
    happening: { type: 'assume', condition, holds },
    branch: { statement: repeat, form: 'check', passes: holds },
  };
}
