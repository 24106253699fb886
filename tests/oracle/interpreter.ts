/**
 * A direct interpreter of cards: every concrete run, from every start, with every answer, interleaving and drift. It shares nothing with the path engine
 * but the card model, and is slow and plain on purpose. Worlds that are equal in all that can matter later are followed once.
 */
import type { Card } from '../../shared/card.ts';
import { Ahead } from './ahead.ts';
import { clocksAtZero, lookAtOpenRuns, lookAtRunning } from './clocks.ts';
import { Endless, type Leg } from './endless.ts';
import { hasLanes, Names, threadKey } from './frames.ts';
import { type Ended, Moves, type Run } from './moves.ts';
import { followPaths, nameOf, questionsOf } from './paths.ts';
import { TooBig } from './readings.ts';
import { Sightings } from './verdicts.ts';
import {
  askAtEnd,
  lookAtActiveHazards,
  lookAtLeftChanges,
  noteBrokenStarts,
  type Watcher,
  watchersOf,
} from './watchers.ts';
import { Setting } from './world.ts';

/** A run with what has happened since the last world on it that is remembered. */
interface Followed extends Run {
  readonly leg?: Leg;
}

/** More worlds than this are refused: the oracle is for small cards. */
const MOST_WORLDS = 300_000;

/** A loop must come back to a world that is remembered. */
const FORGOTTEN_MOVES = 20;

/**
 * Everything that may be seen on the runs of a card, beside what was seen before. Throws `TooBig` where they are too many. No way of a card hangs on
 * how long a run lasts, so the duties of each item are followed by themselves, and all else without their times. What may break by itself is followed
 * by paths, question by question, where these are not too many.
 */
export function runEverything(card: Card, mostWorlds = MOST_WORLDS, sightings = new Sightings()): Sightings {
  const setting = new Setting(card);
  const onPaths = new Set(
    questionsOf(card.equipment).flatMap((question) => followPaths(card, question, mostWorlds, sightings)),
  );
  const watchers = watchersOf(setting).filter((watcher) => !onPaths.has(nameOf(watcher)));
  new Interpreter(setting, watchers, sightings).explore(mostWorlds);
  for (const item of card.equipment.items) {
    if (item.duties.length === 0) continue;
    const duties = new Sightings();
    new Interpreter(new Setting(card, { type: 'duties', item }), [], duties).explore(mostWorlds);
    for (const { code, place, subject } of duties.verdicts())
      if (code.startsWith('duty.')) sightings.broke(code, place, subject);
  }
  return sightings;
}

/** Which `set` of an item reaches which other one on some run, or the end of the card: see `Sightings.reaching`. */
export function changesReaching(card: Card, mostWorlds: number, sightings = new Sightings()): Sightings {
  return new Interpreter(new Setting(card, undefined, true), [], sightings).explore(mostWorlds);
}

class Interpreter {
  private readonly moves: Moves;
  private readonly endless: Endless;
  private readonly ahead: Ahead;
  private readonly names = new Names();

  constructor(
    private readonly setting: Setting,
    private readonly watchers: readonly Watcher[],
    private readonly sightings: Sightings,
  ) {
    this.moves = new Moves(setting, watchers, sightings);
    this.endless = new Endless(setting);
    this.ahead = new Ahead(setting);
  }

  explore(mostWorlds: number): Sightings {
    const waiting: Followed[] = [...this.moves.starts];
    for (const { world } of waiting) noteBrokenStarts(this.watchers, world, this.sightings);
    const remembered = new Map<string, number>();
    for (let run = waiting.pop(); run; run = waiting.pop()) {
      const settled = this.atZero(run);
      if (this.setting.dutyStates.length > 0 && !this.ahead.hasDuties(settled.thread.frame, settled.world)) continue;
      const key = `${threadKey(settled.thread, this.names)} ${JSON.stringify(settled.world)}`;
      const known = remembered.get(key);
      const number = known ?? remembered.size;
      if (settled.leg) this.endless.arrived(settled.leg, number);
      if (known !== undefined) continue;
      remembered.set(key, number);
      if (remembered.size > mostWorlds) throw new TooBig('too many worlds');
      waiting.push(...this.nextChoice({ ...settled, leg: this.endless.legFrom(number, settled.world) }));
    }
    this.endless.tell(this.sightings);
    return this.sightings;
  }

  /** Follows a run while there is one way on only, for a while: such worlds need not be remembered. */
  private nextChoice(run: Followed): readonly Followed[] {
    let ways = this.next(run);
    for (let moves = 0; moves < FORGOTTEN_MOVES && ways.length === 1; moves++) {
      ways = this.next(this.atZero(ways[0] as Followed));
    }
    return ways;
  }

  /** Lanes that run at once have clocks of their own, which are left alone until they join. */
  private atZero(run: Followed): Followed {
    const { thread, world, leg } = run;
    if (hasLanes(thread.frame)) return run;
    lookAtRunning(this.setting, world, thread.now, this.sightings);
    return {
      thread: { ...thread, now: 0 },
      world: clocksAtZero(this.setting, world, thread.now),
      ...(leg && { leg: thread.now > 0 ? { ...leg, takesTime: true } : leg }),
    };
  }

  private next(run: Followed): readonly Followed[] {
    return this.moves.next(run).flatMap((move) => {
      if (move.type !== 'at') {
        this.lookAtEnd(move);
        return [];
      }
      const { thread, world } = move;
      return [{ thread, world, ...(run.leg && { leg: this.endless.further(run.leg, run.world, world) }) }];
    });
  }

  private lookAtEnd({ type, place, world }: Ended): void {
    if (type === 'finish') {
      askAtEnd(this.setting, 'at end', world, place, this.sightings);
      lookAtLeftChanges(this.setting, world, this.sightings);
      for (const { id, name } of this.setting.equipment.items)
        this.sightings.noteReach(name, world.lastSet?.[id] ?? '', 'finish');
    } else {
      askAtEnd(this.setting, 'at stop', world, place, this.sightings);
      lookAtActiveHazards(this.setting, world, place, this.sightings);
    }
    lookAtOpenRuns(this.setting, world, this.sightings);
  }
}
