import type {
  Action,
  Card,
  Condition,
  Flow as FlowStatement,
  Item,
  Keep,
  Label,
  Repeat,
  Role,
  Run,
  Seconds,
  Stage,
  Statement,
  Step,
  Together,
} from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import type { Configuration } from './configurations.ts';
import type { Flow, Happening, Move, Point, StopSite } from './graph.ts';
import { type LanePart, leadLane, productOfLanes } from './lanes.ts';
import { noTicks, type Ticks, ticks, ticksOf } from './time.ts';

const unknownTime: Ticks = { least: 0, most: Number.POSITIVE_INFINITY };

export interface BuildOptions {
  readonly includes: Configuration['includes'];
  /**
   * For timing: lanes are not interleaved; the path follows the lane that touches this item and waits for the others at the end.
   * Without it every interleaving of the lanes is in the graph.
   */
  readonly lead?: (lanes: Together['lanes']) => number;
}

/** Draws the graph of a card for one configuration. */
export function buildFlow(card: Card, options: BuildOptions): Flow {
  return new Builder(card, options).build();
}

/** What holds around a statement while it is drawn. */
interface Scope {
  /** Where `finish` leads: back to the caller, or to the end of the card. */
  readonly finish: Point | 'end of card';
  readonly keeps: readonly Keep[];
  readonly roles: readonly Role[];
  /** `do` a card or procedure: its `when stopped` stages are not the caller's. */
  readonly stopping: boolean;
}

type MoveDetails = Partial<Omit<Move, 'from' | 'to' | 'place'>>;

class Builder {
  private points = 0;
  private moves: Move[] = [];
  private loops = 0;
  private readonly runs: Item[] = [];
  private readonly stopSites: StopSite[] = [];
  private labels = new Map<Label, Point>();
  private blended = false;
  private unknownJumps = false;
  private readonly stopsWhileStopping: { point: Point; place: Place }[] = [];
  private readonly stopEntry: Point;
  private readonly end: Point;
  private statement: Place;

  constructor(
    private readonly card: Card,
    private readonly options: BuildOptions,
  ) {
    this.statement = card.place;
    this.stopEntry = this.point();
    this.end = this.point();
  }

  build(): Flow {
    const start = this.point();
    const scope: Scope = { finish: 'end of card', keeps: [], roles: this.card.crew, stopping: false };
    const last = this.drawBody(this.card.body, start, scope);
    this.move(last, this.end, this.card.place, { happening: { type: 'finish' } });
    this.drawStopped(scope);
    return {
      points: this.points,
      start,
      moves: this.moves,
      from: movesByPoint(this.points, this.moves),
      loops: this.loops,
      runs: this.runs,
      stopSites: this.stopSites,
      blended: this.blended,
      unknownJumps: this.unknownJumps,
    };
  }

  private drawStopped(scope: Scope): void {
    const stages = this.card.body.filter((part): part is Stage => part.type === 'stage' && part.whenStopped);
    const stopped = this.point();
    let at = this.stopEntry;
    for (const stage of stages) {
      if (this.options.includes(stage.only))
        at = this.drawBody(stage.body, at, { ...scope, finish: stopped, stopping: true });
    }
    this.move(at, stopped, this.card.place);
    for (const from of this.stopsWhileStopping) this.move(from.point, stopped, from.place);
    this.move(stopped, this.end, this.card.place, { happening: { type: 'stopped' } });
  }

  private point(): Point {
    return this.points++;
  }

  private move(from: Point, to: Point, place: Place, details: MoveDetails = {}): Point {
    this.moves.push({
      from,
      to,
      place,
      happening: { type: 'pass' },
      time: noTicks,
      statement: this.statement,
      roles: [],
      ...details,
    });
    return to;
  }

  private next(from: Point, place: Place, details: MoveDetails = {}): Point {
    return this.move(from, this.point(), place, details);
  }

  private labelPoint(label: Label): Point {
    let point = this.labels.get(label);
    if (point === undefined) {
      point = this.point();
      this.labels.set(label, point);
    }
    return point;
  }

  private drawBody(body: readonly (Stage | Statement)[], from: Point, scope: Scope): Point {
    let at = from;
    let inner = scope;
    for (const statement of body) {
      if (statement.type === 'keep') inner = { ...inner, keeps: [...inner.keeps, statement] };
      else at = this.drawPart(statement, at, inner);
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
    return label ? this.move(from, this.labelPoint(label), place) : from;
  }

  private drawStatement(statement: Statement, from: Point, scope: Scope): Point {
    this.statement = statement.place;
    switch (statement.type) {
      case 'step':
        return this.drawStep(statement, from, scope);
      case 'admonition':
        return this.options.includes(statement.only) && statement.hazard
          ? this.next(from, statement.place, {
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
      case 'go':
      case 'stop':
      case 'finish':
        this.drawFlow(statement, from, scope);
        return this.point();
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
    const roles = step.roles.length > 0 ? step.roles : scope.roles;
    const stepScope = { ...scope, roles };
    let inside = this.next(at, step.head, {
      happening: step.takes || step.texts.length > 0 ? { type: 'moment', cause: 'step' } : { type: 'pass' },
      time: timeOfStep(step),
      steps: [step],
      roles,
    });
    for (const keep of scope.keeps) inside = this.drawKeep(keep, inside, step, stepScope);
    for (const action of step.actions) {
      if (action.type !== 'sign' && action.type !== 'accept') inside = this.drawAction(action, inside, stepScope);
    }
    return inside;
  }

  private drawKeep(keep: Keep, from: Point, step: Step, scope: Scope): Point {
    const left = this.next(from, step.head, {
      happening: { type: 'assume', condition: keep.condition, holds: false },
      words: 'what is to be kept no longer holds',
    });
    this.drawElse(keep.otherwise, left, step.head, scope);
    return this.next(from, step.head, { happening: { type: 'assume', condition: keep.condition, holds: true } });
  }

  private drawAction(action: Action, from: Point, scope: Scope): Point {
    switch (action.type) {
      case 'set':
      case 'ensure':
        return this.drawSet(action, from);
      case 'check':
        return action.condition
          ? this.drawAsked(action, action.condition, from, scope)
          : this.drawQuestion(action, from, scope);
      case 'read':
        return action.asked ? this.drawAsked(action, action.asked, from, scope) : from;
      case 'bring': {
        const time = upTo(action.within);
        const brought = this.next(from, action.place, {
          happening: { type: 'moment', cause: 'bring', gauge: action.gauge },
          time,
          roles: scope.roles,
        });
        return this.drawAsked(action, action.asked, brought, scope);
      }
      case 'run':
        return this.drawRun(action, from, scope);
      case 'wait':
        return this.drawWait(action, from, scope);
      case 'record':
        return from;
    }
  }

  private drawSet(action: Extract<Action, { type: 'set' | 'ensure' }>, from: Point): Point {
    let at = from;
    for (const { item, state, place: changePlace } of action.changes) {
      const place = action.changes.length === 1 ? action.place : changePlace;
      const happening: Happening = { type: 'set', item, state };
      if (action.type === 'set') {
        at = this.next(at, place, { happening });
        continue;
      }
      const condition: Condition = { type: 'state', item, state, place };
      const changed = this.next(at, place, { happening: { type: 'assume', condition, holds: false } });
      const after = this.next(at, place, { happening: { type: 'assume', condition, holds: true } });
      at = this.move(changed, after, place, { happening });
    }
    return at;
  }

  private drawQuestion(action: Extract<Action, { type: 'check' }>, from: Point, scope: Scope): Point {
    const words = `“${action.question?.text ?? ''}”`;
    const failed = this.next(from, action.place, { words: `${words}: no` });
    this.drawElse(action.otherwise, failed, action.place, scope);
    return this.next(from, action.place);
  }

  /** A check, a reading or something brought about: one way on where it holds, the other by its `else` or to a stop. */
  private drawAsked(
    action: Extract<Action, { type: 'check' | 'read' | 'bring' }>,
    condition: Condition,
    from: Point,
    scope: Scope,
  ): Point {
    const words = { check: 'the check fails', read: 'the reading fails', bring: 'it cannot be brought there' }[
      action.type
    ];
    const branch = { statement: action, form: 'check' as const };
    const failed = this.next(from, action.place, {
      happening: { type: 'assume', condition, holds: false },
      words,
      branch: { ...branch, passes: false },
    });
    this.drawElse(action.otherwise, failed, action.place, scope);
    return this.next(from, action.place, {
      happening: { type: 'assume', condition, holds: true },
      branch: { ...branch, passes: true },
    });
  }

  private drawRun(run: Run, from: Point, scope: Scope): Point {
    const number = this.runs.push(run.item) - 1;
    const { item, state, place } = run;
    const begin: Happening = { type: 'begin', run: number, item, state };
    const end: Happening = { type: 'end', run: number, item, state };
    const roles = scope.roles;
    const running = this.next(from, place, { happening: begin });
    const length = run.length ? ticksOf(run.length) : upTo(run.until?.within);
    let watched = running;
    for (const watch of run.watches) {
      const time =
        watch.form === 'reaches' && watch.within ? cutAt(length, ticks(watch.within)) : { least: 0, most: length.most };
      const asked = { type: 'assume', condition: watch.asked, inPassing: true } as const;
      const words = `what is watched on ${watch.gauge.label} fails`;
      const seen = this.next(watched, watch.place, { happening: { ...asked, holds: false }, time, roles, words });
      this.drawElse(watch.otherwise, this.next(seen, watch.place, { happening: end }), watch.place, scope);
      watched = this.next(watched, watch.place, { happening: { ...asked, holds: true } });
    }
    if (!run.until) {
      const over = this.next(watched, place, { time: length, roles });
      return this.next(over, place, { happening: end });
    }
    const { condition, within, otherwise } = run.until;
    const reached = this.next(watched, place, { time: length, roles });
    const held = this.next(reached, place, {
      happening: { type: 'assume', condition, holds: true },
      branch: { statement: run, form: 'check', passes: true },
    });
    const overdue = this.next(watched, place, { time: exactly(within), roles });
    const failed = this.next(overdue, place, {
      happening: { type: 'assume', condition, holds: false },
      words: 'the run does not bring it about in time',
      branch: { statement: run, form: 'check', passes: false },
    });
    this.drawElse(otherwise, this.next(failed, place, { happening: end }), place, scope);
    return this.next(held, place, { happening: end });
  }

  private drawWait(wait: Extract<Action, { type: 'wait' }>, from: Point, scope: Scope): Point {
    const happening: Happening = { type: 'moment', cause: 'wait' };
    const roles = scope.roles;
    if (!wait.until)
      return this.next(from, wait.place, { happening, time: wait.length ? ticksOf(wait.length) : unknownTime, roles });
    const { condition, within, otherwise } = wait.until;
    const branch = { statement: wait, form: 'check' as const };
    if (within || otherwise) {
      const overdue = this.next(from, wait.place, { happening, time: exactly(within), roles });
      const failed = this.next(overdue, wait.place, {
        happening: { type: 'assume', condition, holds: false },
        words: 'the wait is in vain',
        branch: { ...branch, passes: false },
      });
      this.drawElse(otherwise, failed, wait.place, scope);
    }
    const waited = this.next(from, wait.place, { happening, time: upTo(within), roles });
    return this.next(waited, wait.place, {
      happening: { type: 'assume', condition, holds: true },
      branch: { ...branch, passes: true },
    });
  }

  // -------------------------------------------------------------- where the path goes on

  private drawElse(otherwise: FlowStatement | undefined, from: Point, place: Place, scope: Scope): void {
    if (otherwise) this.drawFlow(otherwise, from, scope);
    else this.drawStop(from, place, scope);
  }

  private drawFlow(flow: FlowStatement, from: Point, scope: Scope): void {
    switch (flow.type) {
      case 'go':
        if (flow.target) this.drawJump(flow.target, from, flow.place);
        else this.unknownJumps = true;
        return;
      case 'stop':
        this.drawStop(from, flow.place, scope);
        return;
      case 'finish':
        if (scope.finish === 'end of card') this.move(from, this.end, flow.place, { happening: { type: 'finish' } });
        else this.move(from, scope.finish, flow.place);
    }
  }

  private drawJump(target: Label, from: Point, place: Place): void {
    const back = target.place.file === place.file && target.place.start <= place.start;
    this.move(from, this.labelPoint(target), place, {
      happening: back ? { type: 'forget' } : { type: 'pass' },
      words: back ? `back to ${target.name}` : `on to ${target.name}`,
    });
  }

  private drawStop(from: Point, place: Place, scope: Scope): void {
    if (scope.stopping) {
      this.stopsWhileStopping.push({ point: from, place });
      return;
    }
    const site = this.stopSites.push({ place }) - 1;
    this.move(from, this.stopEntry, place, { happening: { type: 'stopping', site }, words: 'the card stops' });
  }

  // -------------------------------------------------------------- blocks

  private drawIf(statement: Extract<Statement, { type: 'if' }>, from: Point, scope: Scope): Point {
    const place = statement.head;
    const { condition, question } = statement;
    const after = this.point();
    const way = (passes: boolean): Point => {
      const branch = { statement, form: 'if' as const, passes };
      if (!condition) return this.next(from, place, { words: `“${question?.text ?? ''}”: ${passes ? 'yes' : 'no'}` });
      const words = passes ? 'the condition holds' : 'the condition does not hold';
      return this.next(from, place, { happening: { type: 'assume', condition, holds: passes }, words, branch });
    };
    const taken = way(true);
    const passed = way(false);
    this.move(this.drawBody(statement.body, taken, scope), after, statement.place);
    this.move(this.drawBody(statement.otherwise ?? [], passed, scope), after, statement.place);
    return after;
  }

  private drawRepeat(repeat: Repeat, from: Point, scope: Scope): Point {
    const loop = this.loops++;
    const { times, until, place } = repeat;
    const head = this.next(from, place, { happening: { type: 'enter-loop', loop } });
    const round = this.drawBody(repeat.body, head, scope);
    this.statement = place;
    const after = this.point();
    let unfinished = round;
    if (until) {
      const holds = until.condition ? asked(repeat, until.condition, true) : {};
      const fails = until.condition ? asked(repeat, until.condition, false) : {};
      const words = until.question ? `“${until.question.text}”` : 'what the rounds are for';
      const done = this.next(round, repeat.head, { ...holds, words: `${words}: yes` });
      this.move(done, after, place, { happening: { type: 'leave-loop', loop } });
      unfinished = this.next(round, repeat.head, { ...fails, words: `${words}: not yet` });
    }
    this.move(unfinished, head, place, {
      happening: { type: 'again', loop, times },
      words: times === 2 ? 'second time round' : 'once more round',
    });
    const over = this.next(unfinished, place, { happening: { type: 'leave-loop', loop, times } });
    if (until) this.drawElse(repeat.otherwise, over, repeat.head, scope);
    else this.move(over, after, place);
    return after;
  }

  private drawChoose(statement: Extract<Statement, { type: 'choose' }>, from: Point, scope: Scope): Point {
    const after = this.point();
    for (const way of statement.ways) {
      const begun = this.next(from, way.place, { words: `“${way.text.text}”` });
      this.move(this.drawBody(way.body, begun, scope), after, way.place);
    }
    return after;
  }

  private drawDo(statement: Extract<Statement, { type: 'do' }>, from: Point, scope: Scope): Point {
    const { callee, place } = statement;
    const outer = this.labels;
    this.labels = new Map();
    const begun =
      callee.type === 'card' && callee.assumes.length > 0
        ? this.next(from, place, { happening: { type: 'call', assumes: callee.assumes } })
        : from;
    const after = this.point();
    this.move(this.drawBody(statement.body, begun, { ...scope, finish: after }), after, place);
    this.labels = outer;
    return after;
  }

  private drawTogether(statement: Together, from: Point, scope: Scope): Point {
    const parts = statement.lanes.map((lane): LanePart => {
      const firstPoint = this.points;
      const entry = this.point();
      const kept = this.moves;
      this.moves = [];
      const laneScope = lane.role ? { ...scope, roles: [lane.role] } : scope;
      const exit = this.drawBody(lane.body, entry, laneScope);
      const part = { entry, exit, firstPoint, lastPoint: this.points, moves: this.moves };
      this.moves = kept;
      return part;
    });
    const sink = { point: () => this.point(), add: (move: Move) => this.moves.push(move) };
    if (this.options.lead) {
      return leadLane(parts, this.options.lead(statement.lanes), from, statement.place, sink);
    }
    const product = productOfLanes(parts, from, statement.place, sink);
    this.blended ||= product.blended;
    return product.after;
  }
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

function asked(repeat: Repeat, condition: Condition, holds: boolean): MoveDetails {
  return {
    happening: { type: 'assume', condition, holds },
    branch: { statement: repeat, form: 'check', passes: holds },
  };
}

function upTo(limit: Seconds | undefined): Ticks {
  return limit ? { least: 0, most: ticks(limit) } : unknownTime;
}

function exactly(length: Seconds | undefined): Ticks {
  return length ? { least: ticks(length), most: ticks(length) } : unknownTime;
}

function cutAt(length: Ticks, within: number): Ticks {
  return { least: Math.min(length.least, within), most: Math.min(length.most, within) };
}

export function movesByPoint(points: number, moves: readonly Move[]): number[][] {
  const from: number[][] = Array.from({ length: points }, () => []);
  moves.forEach((move, index) => {
    from[move.from]?.push(index);
  });
  return from;
}
