/**
 * What is told of breaks that come by themselves: each at the first place of a path where it may be. A path is a row of moves with the answers that were
 * given on it; whoever goes along it knows only that one of a set of worlds is there. So here a set of worlds goes on as one, and parts where the card's
 * questions part it. Elsewhere the oracle follows world by world, each of which knows by itself whether something was broken before.
 */
import type { Card, Condition, Equipment } from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { boundTerms, itemsIn } from './conditions.ts';
import { Names, threadKey } from './frames.ts';
import { Moves, type Run } from './moves.ts';
import { TooBig } from './readings.ts';
import { Sightings } from './verdicts.ts';
import { isBroken, mayBreakByItself, type Watcher, watchersOf } from './watchers.ts';
import { type Question, Setting } from './world.ts';

/** The questions that may have answers that come by themselves. */
export function questionsOf({ rules, hazards, items }: Equipment): readonly Question[] {
  return [
    ...rules.filter(({ trigger }) => trigger === 'while').map((rule) => ({ type: 'rule' as const, rule })),
    ...hazards.map((hazard) => ({ type: 'hazard' as const, hazard })),
    ...items.filter(({ needs }) => needs.length > 0).map((item) => ({ type: 'needs' as const, item })),
  ];
}

export function nameOf({ code, subject }: Watcher): string {
  return `${code} ${subject}`;
}

/**
 * Follows the paths of a card for one question, and notes what is told on them. Gives the names of the watchers that were so followed: none where they
 * cannot break by themselves, or where there are too many paths.
 *
 * How finely a path tells worlds apart is left open in between: it must know how each question went, and it may know how each item stood that a
 * question, a drift or a time hung on. What breaks first on a path that knows the least must be told. What breaks first only where paths know the most may be.
 */
export function followPaths(
  card: Card,
  question: Question,
  mostWorlds: number,
  sightings: Sightings,
): readonly string[] {
  const names = watchersOf(new Setting(card, question)).filter(mayBreakByItself).map(nameOf);
  if (names.length === 0) return [];
  try {
    const must = seenOnPaths(new Setting(card, question), mostWorlds);
    const may = seenOnPaths(new Setting(card, { ...question, knows: 'what it hung on' }), mostWorlds);
    sightings.addPaths(must, 'must');
    sightings.addPaths(may, 'may');
  } catch (error) {
    if (!(error instanceof TooBig)) throw error;
    for (const name of names) sightings.lenient.add(name);
    return [];
  }
  for (const name of names) sightings.strict.add(name);
  return names;
}

function seenOnPaths(setting: Setting, mostWorlds: number): Sightings {
  const seen = new Sightings();
  new PathFollower(setting, watchersOf(setting).filter(mayBreakByItself), seen).explore(mostWorlds);
  return seen;
}

/** Runs that one path cannot tell apart, by their keys. They all stand at one place. */
type Path = ReadonlyMap<string, Run>;

class PathFollower {
  private readonly moves: Moves;
  private readonly names = new Names();

  constructor(
    private readonly setting: Setting,
    private readonly watchers: readonly Watcher[],
    private readonly sightings: Sightings,
  ) {
    this.moves = new Moves(setting, watchers, sightings);
  }

  explore(mostWorlds: number): void {
    const waiting = this.byPlace(this.moves.starts);
    const seen = new Set<string>();
    let worlds = 0;
    for (let path = waiting.pop(); path; path = waiting.pop()) {
      const key = [...path.keys()].sort().join(' ');
      if (seen.has(key)) continue;
      seen.add(key);
      worlds += path.size;
      if (worlds > mostWorlds) throw new TooBig('too many worlds on paths');
      waiting.push(...this.byPlace(this.goOn([...path.values()])));
    }
  }

  private goOn(runs: readonly Run[]): readonly Run[] {
    this.sightings.brokenBefore = this.watchers.map((_, index) => {
      const broken = runs.flatMap(({ world }) => world.watched[index] ?? []).filter(isBroken);
      if (broken.some(({ sinceStart }) => sinceStart)) return 'to be told at the first touch';
      return broken.length > 0 ? 'told' : 'no';
    });
    return runs.flatMap((run) => this.moves.next(run).flatMap((move) => (move.type === 'at' ? [move] : [])));
  }

  private byPlace(runs: readonly Run[]): Path[] {
    const paths = new Map<string, Map<string, Run>>();
    for (const run of runs) {
      const { learnt, ...world } = run.world;
      // Whoever ensures something knows whether that touched it.
      const place = [
        threadKey(run.thread, this.names, 'place only'),
        world.stopping,
        world.moved,
        learnt,
        this.begun(run),
      ].join(' ');
      const key = `${threadKey(run.thread, this.names)} ${JSON.stringify(world)}`;
      getOrInsert(paths, place, () => new Map()).set(key, { thread: run.thread, world });
    }
    return [...paths.values()];
  }

  /**
   * A path that knows the most knows whether it has begun, where it has to remember that also how what it hangs on stood, and how the items stand, and
   * for how long, of which anything asks how long they have been so.
   */
  private begun({ world }: Run): string {
    if (!this.setting.knowsWhatItHungOn) return '';
    const items = [...itemsIn([rememberedTrigger(this.setting.question)]), ...this.setting.toldApart];
    const stood = items.map(({ id }) => world.states[id]);
    const ages = [...this.setting.toldApart].map(({ id }) => JSON.stringify(world.ages[id]));
    return [...world.watched.map(({ triggered }) => triggered), ...stood, ...ages].join();
  }
}

/** That a hazard is there is remembered for its admonition; that a rule has begun, where readings say so, since they pass. */
function rememberedTrigger(question: Question | undefined): Condition | undefined {
  if (question?.type === 'hazard') return question.hazard.condition;
  const trigger = question?.type === 'rule' ? question.rule.condition : undefined;
  return trigger && boundTerms(trigger).length > 0 ? trigger : undefined;
}
