/** What may come next in a run: each statement of the card language, followed from a frame and a world. */
import type { Card, Condition, Do, Flow, Keep, Label, Stage, Statement, Step, Words } from '../../shared/card.ts';
import { Actions, type Next, stretchOf } from './actions.ts';
import { isBack } from './ahead.ts';
import { waysOf } from './branch.ts';
import { ANY_TIME, lengthsOf, NO_TIME, type Stretch } from './clocks.ts';
import { Events } from './events.ts';
import {
  type DoFrame,
  enclosingDo,
  type Frame,
  frameAtLabel,
  isUnder,
  keepsHere,
  laneFrame,
  listFrame,
  outermostDo,
  type Thread,
} from './frames.ts';
import { leftBy, seenBy, seenByAll, sightAtFork, toldToAll, withoutSight } from './sights.ts';
import { comingTo, NOT_ASSUMED, placeKey, type Sightings } from './verdicts.ts';
import { type Watcher, watchedAtStart } from './watchers.ts';
import { type Setting, startWorlds, type World } from './world.ts';

export interface Run {
  readonly thread: Thread;
  readonly world: World;
}

/** A thread after one move. */
export interface At extends Run {
  readonly type: 'at';
}

/** The whole card finishes or stops. */
export interface Ended {
  readonly type: 'finish' | 'stop';
  readonly place: string;
  readonly now: number;
  readonly world: World;
}

type Move =
  | At
  | Ended
  /** A `finish` within lanes goes back from a `do` that lies around them. */
  | { readonly type: 'back'; readonly from: DoFrame; readonly now: number; readonly world: World }
  /** A `keep` that was there before the lanes may lead out of them. */
  | { readonly type: 'go'; readonly label: Label; readonly now: number; readonly world: World };

export class Moves {
  private readonly actions: Actions;
  private readonly events: Events;
  private readonly card: Card;
  private readonly whenStopped: readonly Stage[];

  constructor(
    private readonly setting: Setting,
    private readonly watchers: readonly Watcher[],
    private readonly sightings: Sightings,
  ) {
    this.card = setting.card;
    this.events = new Events(setting, watchers, sightings);
    this.actions = new Actions(setting, this.events, sightings);
    this.whenStopped = this.card.body.filter((part): part is Stage => part.type === 'stage' && part.whenStopped);
  }

  /** A run from each world in which the card may begin, before its first statement. */
  get starts(): readonly Run[] {
    const thread = { frame: listFrame(this.card.body, undefined), now: 0 };
    return startWorlds(this.setting).map((world) => ({
      thread,
      world: { ...world, watched: watchedAtStart(this.setting, this.watchers, world) },
    }));
  }

  /** Every way in which a run may go on. */
  next({ thread, world }: Run): readonly (At | Ended)[] {
    const { frame, now } = thread;
    if (!frame) return this.ended({ type: 'finish', place: placeKey(this.card.place), now, world });
    return this.advance(frame, world, now).flatMap((move) => {
      if (move.type === 'at') return [{ ...move, world: withoutSight(move.world, move.thread.frame) }];
      if (move.type === 'back') throw new Error('no way back to where it was done from');
      if (move.type === 'go') throw new Error(`no way to the label ${move.label.name}`);
      return this.ended(move);
    });
  }

  /** A first stop goes on through the stages for it, and stands where it was. */
  private ended(end: Ended): readonly (At | Ended)[] {
    const { type, place, now, world } = end;
    if (world.stopping !== undefined) return [{ ...end, type: 'stop', place: world.stopping }];
    if (type === 'finish' || this.whenStopped.length === 0) return [end];
    const frame = this.whenStopped.reduceRight<Frame | undefined>(
      (under, stage) => listFrame(stage.body, under),
      undefined,
    );
    return [at(frame, now, { ...world, stopping: place })];
  }

  private advance(frame: Frame, world: World, now: number): readonly Move[] {
    switch (frame.type) {
      case 'list':
        return this.advanceList(frame, world, now);
      case 'actions':
        return this.actions.act(frame, world, now).flatMap((next) => this.followed(next));
      case 'run':
        return this.actions.end(frame, world, now).flatMap((next) => this.followed(next));
      case 'repeat':
        return this.roundDone(frame, world, now);
      case 'do':
        return [at(frame.under, now, world)];
      case 'together':
        return this.advanceLanes(frame, world, now);
    }
  }

  private followed(next: Next): readonly Move[] {
    return next.type === 'on'
      ? [at(next.frame, next.now, next.world)]
      : this.leave(next.flow, next.place, next.frame, next.world, next.now);
  }

  /** Leaves by a flow; without one, stops at `place`. A `finish` goes back from a `do`, by itself the innermost. */
  private leave(
    flow: Flow | undefined,
    place: string,
    frame: Frame | undefined,
    world: World,
    now: number,
    from: DoFrame | undefined = enclosingDo(frame),
  ): readonly Move[] {
    if (!flow) return [{ type: 'stop', place, now, world }];
    if (flow.type === 'stop') return [{ type: 'stop', place: placeKey(flow.place), now, world }];
    if (flow.type === 'go') return flow.target ? [this.jump(flow, frame, world, now)] : [];
    return from ? [goingBack(frame, from, now, world)] : [{ type: 'finish', place: placeKey(flow.place), now, world }];
  }

  /** A jump back ends what is known of the readings, as a new round does. */
  private jump(flow: Extract<Flow, { type: 'go' }>, frame: Frame | undefined, world: World, now: number): Move {
    const label = flow.target as NonNullable<typeof flow.target>;
    const known = isBack(flow) ? this.setting.readings.afterAction(world.known, undefined) : world.known;
    return this.arriving({ type: 'go', label, now, world: { ...world, known } }, frame);
  }

  private arriving(move: Extract<Move, { type: 'go' }>, frame: Frame | undefined): Move {
    const target = frameAtLabel(frame, move.label);
    return target ? at(target, move.now, move.world) : move;
  }

  private advanceList(frame: Extract<Frame, { type: 'list' }>, world: World, now: number): readonly Move[] {
    const statement = frame.list[frame.index];
    if (!statement) return [at(frame.under, now, world)];
    const rest: Frame = { ...frame, index: frame.index + 1 };
    switch (statement.type) {
      case 'stage':
        return [at(statement.whenStopped ? rest : listFrame(statement.body, rest), now, world)];
      case 'step':
        return this.beginStep(statement, frame, rest, world, now);
      case 'if':
        return this.decide(statement, world, placeKey(statement.place), now).map(({ passes, way }) =>
          at(
            passes
              ? listFrame(statement.body, rest)
              : statement.otherwise
                ? listFrame(statement.otherwise, rest)
                : rest,
            now,
            way,
          ),
        );
      case 'repeat':
        return [
          at(listFrame(statement.body, { type: 'repeat', repeat: statement, round: 1, under: rest }), now, world),
        ];
      case 'together':
        return [
          at(
            {
              type: 'together',
              together: statement,
              lanes: statement.lanes.map((lane) => ({
                frame: laneFrame(lane.body, keepsHere(frame), enclosingDo(frame)),
                now,
                sight: sightAtFork(world),
              })),
              under: rest,
            },
            now,
            world,
          ),
        ];
      case 'do':
        if (!this.isAsAssumed(statement, world)) return [];
        return [at(listFrame(statement.body, { type: 'do', statement, under: rest }), now, world)];
      case 'for-each':
        return [
          at(
            statement.rounds.reduceRight<Frame>((under, round) => listFrame(round, under), rest),
            now,
            world,
          ),
        ];
      case 'choose':
        return statement.ways.map((way) => at(listFrame(way.body, rest), now, world));
      case 'admonition':
        return [at(rest, now, this.announced(statement, world))];
      case 'go':
      case 'stop':
      case 'finish':
        return this.leave(statement, placeKey(statement.place), rest, world, now);
      default:
        return [at(rest, now, world)];
    }
  }

  /** A card that is done where what it assumes is not so is not followed. */
  private isAsAssumed({ callee, place }: Do, { states }: World): boolean {
    const assumes = callee.type === 'card' ? callee.assumes : [];
    const wrong = assumes.filter(({ item, state }) => this.setting.followed.has(item) && states[item.id] !== state);
    for (const { item } of wrong) this.sightings.broke(NOT_ASSUMED, placeKey(place), item.name);
    return wrong.length === 0;
  }

  private announced(statement: Extract<Statement, { type: 'admonition' }>, world: World): World {
    const { hazard } = statement;
    if (!hazard || !this.setting.equipment.hazards.includes(hazard)) return world;
    if (severity(statement.level) < severity(hazard.level)) return world;
    const late = world.unannounced.filter((begun) => begun.startsWith(`${hazard.id}@`));
    for (const begun of late) this.sightings.announced(begun);
    return {
      ...world,
      shown: [...new Set([...world.shown, hazard.id])].sort(),
      unannounced: world.unannounced.filter((begun) => !late.includes(begun)),
    };
  }

  private beginStep(step: Step, frame: Frame, rest: Frame, world: World, now: number): readonly Move[] {
    const place = placeKey(step.place);
    this.sightings.entered.add(comingTo(place, outermostDo(frame)?.statement.place));
    const stretch = stepStretch(step);
    const somethingHappens = step.texts.length > 0 || step.takes !== undefined || step.anew === true;
    const inside = { type: 'actions' as const, step, index: 0, change: 0, under: rest };
    return lengthsOf(this.setting, stretch).flatMap((length) => {
      const then = now + length;
      const worlds = somethingHappens
        ? this.events.pass(world, stretch, { now: then, place, moves: false })
        : [this.events.older(world, stretch, place)];
      return worlds.flatMap((after) => this.keeping(frame, inside, after, then));
    });
  }

  /** At the beginning of a step each `keep` in force may turn out not to hold; without an `else` the card then stops where the keep stands. */
  private keeping(
    frame: Frame,
    inside: Extract<Frame, { type: 'actions' }>,
    world: World,
    now: number,
  ): readonly Move[] {
    let staying: readonly World[] = [world];
    const leaving: Move[] = [];
    for (const { keep, back } of keepsHere(frame)) {
      const place = placeKey(keep.place);
      const ways = staying.flatMap((still) => this.decide(keep, still, place, now));
      // It is asked anew at each step.
      const passes = ways.map((way) => way.passes);
      this.sightings.went(placeKey(inside.step.place), passes.includes(true), passes.includes(false));
      leaving.push(
        ...ways.flatMap(({ passes, way }) => (passes ? [] : this.leaveByKeep(keep, back, inside.under, way, now))),
      );
      staying = ways.flatMap(({ passes, way }) => (passes ? [way] : []));
    }
    return [...leaving, ...staying.map((still) => at(inside, now, still))];
  }

  private leaveByKeep(
    { otherwise, place }: Keep,
    back: DoFrame | undefined,
    frame: Frame | undefined,
    world: World,
    now: number,
  ): readonly Move[] {
    if (otherwise?.type === 'finish' && !back)
      return [{ type: 'finish', place: placeKey(otherwise.place), now, world }];
    return this.leave(otherwise, placeKey(place), frame, world, now, back);
  }

  private decide(
    asked: { readonly condition?: Condition; readonly question?: Words },
    world: World,
    place: string,
    now: number,
  ): readonly { readonly passes: boolean; readonly way: World }[] {
    const { passes, fails } = waysOf(this.setting, asked, world, now);
    this.sightings.went(place, passes.length > 0, fails.length > 0);
    return [...passes.map((way) => ({ passes: true, way })), ...fails.map((way) => ({ passes: false, way }))];
  }

  private roundDone(frame: Extract<Frame, { type: 'repeat' }>, world: World, now: number): readonly Move[] {
    const { repeat, round, under } = frame;
    const again = (way: World) =>
      at(listFrame(repeat.body, { ...frame, round: round + 1 }), now, {
        ...way,
        known: this.setting.readings.afterAction(way.known, undefined),
      });
    if (!repeat.until) return [round < repeat.times ? again(world) : at(under, now, world)];
    const place = placeKey(repeat.place);
    return this.decide(repeat.until, world, place, now).flatMap(({ passes, way }) => {
      if (passes) return [at(under, now, way)];
      return round < repeat.times ? [again(way)] : this.leave(repeat.otherwise, place, under, way, now);
    });
  }

  private advanceLanes(frame: Extract<Frame, { type: 'together' }>, world: World, now: number): readonly Move[] {
    const { lanes, under } = frame;
    if (lanes.every((lane) => !lane.frame))
      return [at(under, Math.max(now, ...lanes.map((lane) => lane.now)), seenByAll(world, lanes))];
    const pressing = lanes.findIndex(({ frame }) => goesOnAtOnce(frame));
    return lanes.flatMap((lane, index) => {
      if (!lane.frame || (pressing !== -1 && pressing !== index)) return [];
      return this.advance(lane.frame, seenBy(world, lanes, index), lane.now).flatMap((move): readonly Move[] => {
        if (move.type === 'at') {
          const moved = lanes.map((old, other) => (other === index ? { ...move.thread, sight: old.sight } : old));
          return [at({ ...frame, lanes: toldToAll(moved, index, move.world) }, now, move.world)];
        }
        // Nobody has done anything later than the moment at which one lane leaves.
        const left = {
          ...move,
          now: Math.max(move.now, ...lanes.map((other) => other.now)),
          world: leftBy(
            move.world,
            toldToAll(
              lanes.map(({ frame, ...lane }, other) => (other === index || !frame ? lane : { ...lane, frame })),
              index,
              move.world,
            ),
          ),
        };
        if (left.type === 'go') return [this.arriving(left, under)];
        return left.type === 'back' ? [goingBack(under, left.from, left.now, left.world)] : [left];
      });
    });
  }
}

function at(frame: Frame | undefined, now: number, world: World): At {
  return { type: 'at', thread: { ...(frame && { frame }), now }, world };
}

/** A run whose `until` is answered ends before any other lane goes on. */
function goesOnAtOnce(frame: Frame | undefined): boolean {
  if (frame?.type === 'together') return frame.lanes.some((lane) => goesOnAtOnce(lane.frame));
  return frame?.type === 'run' && frame.answer !== undefined;
}

function goingBack(frame: Frame | undefined, from: DoFrame, now: number, world: World): Move {
  return isUnder(frame, from) ? at(from.under, now, world) : { type: 'back', from, now, world };
}

function severity(level: string): number {
  return ['note', 'caution', 'warning', 'danger'].indexOf(level);
}

/** The manual time of a step: what it says, none where its actions have times of their own, otherwise anything. */
function stepStretch(step: Step): Stretch {
  if (step.takes) return stretchOf(step.takes);
  const timed = step.actions.some(
    (action) =>
      action.type === 'run' || action.type === 'wait' || (action.type === 'bring' && action.within !== undefined),
  );
  return timed ? NO_TIME : ANY_TIME;
}
