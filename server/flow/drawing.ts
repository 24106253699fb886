/** Draws points and moves, and where paths go on: jumps, stops, finishes. */
import type { Card, Flow as FlowStatement, Item, Keep, Label, Role, Step } from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import type { Call } from './calls.ts';
import type { Flow, Move, Point, StopSite } from './graph.ts';
import { noTicks } from './time.ts';

/** What holds around a statement while it is drawn. */
export interface Scope {
  /** Where `finish` leads: back to the caller, or to the end of the card. */
  readonly finish: Point | 'end of card';
  readonly keeps: readonly KeepInForce[];
  readonly roles: readonly Role[];
  /** How many loops are around. */
  readonly loops: number;
  /** The card is being stopped: there a stop just ends. */
  readonly stopping: boolean;
}

/** A `keep`, with what its `else` means where it is written: in a procedure that is done meanwhile it still means that. */
export interface KeepInForce {
  readonly keep: Keep;
  readonly text: TextHere;
  readonly finish: Scope['finish'];
}

export type MoveDetails = Partial<Omit<Move, 'from' | 'to' | 'place'>>;

/** The text of a card or procedure, as it is done at one place: what its labels mean there, and where that is if it is one of several. */
export interface TextHere {
  readonly labels: Map<Label, Point>;
  readonly call?: Call | undefined;
}

export class Drawing {
  readonly stopEntry: Point;
  readonly end: Point;
  /** Where a stopped card ends, after the stages for it. */
  readonly stopped: Point;
  moves: Move[] = [];
  /** In which what is being drawn stands. */
  text: TextHere = { labels: new Map() };
  /** The statement that is being drawn. */
  statement: Place;
  blended = false;
  private readonly steps: Step[] = [];
  private points = 0;
  private readonly loops: number[] = [];
  private readonly runs: Item[] = [];
  private readonly stopSites: StopSite[] = [];
  private unknownJumps = false;

  constructor(card: Card) {
    this.statement = card.place;
    this.stopEntry = this.point();
    this.end = this.point();
    this.stopped = this.point();
  }

  finished(start: Point): Flow {
    const { points, moves, steps, loops, runs, stopSites, blended, unknownJumps } = this;
    return {
      points,
      start,
      moves,
      steps,
      from: movesByPoint(points, moves),
      loops,
      runs,
      stopSites,
      blended,
      unknownJumps,
    };
  }

  /** The number that the next point will have. */
  get nextPoint(): Point {
    return this.points;
  }

  /** A step is there, whether or not a path comes to it. */
  noteStep(step: Step): void {
    this.steps.push(step);
  }

  newLoop(depth: number): number {
    return this.loops.push(depth) - 1;
  }

  newRun(item: Item): number {
    return this.runs.push(item) - 1;
  }

  point(): Point {
    return this.points++;
  }

  move(from: Point, to: Point, place: Place, details: MoveDetails = {}): Point {
    this.moves.push({
      from,
      to,
      place,
      happening: { type: 'pass' },
      time: noTicks,
      statement: this.statement,
      roles: [],
      ...(this.text.call && { call: this.text.call }),
      ...details,
    });
    return to;
  }

  next(from: Point, place: Place, details: MoveDetails = {}): Point {
    return this.move(from, this.point(), place, details);
  }

  /** Draws what stands in another text. */
  inText<Drawn>(text: TextHere, draw: () => Drawn): Drawn {
    const outer = this.text;
    this.text = text;
    const drawn = draw();
    this.text = outer;
    return drawn;
  }

  labelPoint(label: Label): Point {
    let point = this.text.labels.get(label);
    if (point === undefined) {
      point = this.point();
      this.text.labels.set(label, point);
    }
    return point;
  }

  drawElse(otherwise: FlowStatement | undefined, from: Point, place: Place, scope: Scope): void {
    const first = this.moves.length;
    if (otherwise) this.drawFlow(otherwise, from, scope);
    else this.drawStop(from, place, scope);
    for (let index = first; index < this.moves.length; index++) {
      this.moves[index] = { ...(this.moves[index] as Move), atOnce: true };
    }
  }

  drawFlow(flow: FlowStatement, from: Point, scope: Scope): void {
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

  drawJump(target: Label, from: Point, place: Place): void {
    const back = target.place.file === place.file && target.place.start <= place.start;
    this.move(from, this.labelPoint(target), place, {
      happening: back ? { type: 'forget' } : { type: 'pass' },
      reason: { type: 'jump', to: target.name, back },
    });
  }

  drawStop(from: Point, place: Place, scope: Scope): void {
    const site = this.stopSites.push({ place, call: this.text.call }) - 1;
    if (scope.stopping) {
      this.move(from, this.stopped, place, { happening: { type: 'stopping-early', site } });
      return;
    }
    this.move(from, this.stopEntry, place, { happening: { type: 'stopping', site }, reason: { type: 'stop' } });
  }
}

function movesByPoint(points: number, moves: readonly Move[]): number[][] {
  const from: number[][] = Array.from({ length: points }, () => []);
  moves.forEach((move, index) => {
    from[move.from]?.push(index);
  });
  return from;
}
