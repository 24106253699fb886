/** Runs that go on round after round of a jump back: each round takes a known time, but nothing says how many there are. */
import { Graph, graphlib } from '@dagrejs/dagre';
import { tellLength } from './clocks.ts';
import type { Sightings } from './verdicts.ts';
import { type Setting, UNKNOWN, type World } from './world.ts';

/** What happened on the way from one remembered world to the next. */
export interface Leg {
  /** The number of the world that it comes from. */
  readonly from: number;
  /** By duty state: where its run began, if it has gone on all the while for longer than anything asks about. */
  readonly lasting: readonly (string | undefined)[];
  readonly takesTime: boolean;
}

interface Way {
  readonly from: number;
  readonly to: number;
  readonly begunAt: string;
  readonly takesTime: boolean;
}

/**
 * The ways between remembered worlds on which a run goes on that is as long as a clock counts. A round of such ways that takes time makes the run
 * longer than any number.
 */
export class Endless {
  private readonly ways: Way[][];

  constructor(private readonly setting: Setting) {
    this.ways = setting.dutyStates.map(() => []);
  }

  legFrom(from: number, { duties }: World): Leg {
    const lasting = duties.map(({ running, since, begunAt }) =>
      running && begunAt !== '' && -since >= this.setting.longestAsked ? begunAt : undefined,
    );
    return { from, lasting, takesTime: false };
  }

  /** The leg after one more move; the clocks of both worlds begin at the same moment. */
  further(leg: Leg, before: World, after: World): Leg {
    const goesOn = (duty: number) =>
      after.duties[duty]?.running === true && after.duties[duty].since === before.duties[duty]?.since;
    return { ...leg, lasting: leg.lasting.map((begunAt, duty) => (goesOn(duty) ? begunAt : undefined)) };
  }

  arrived({ from, lasting, takesTime }: Leg, to: number): void {
    lasting.forEach((begunAt, duty) => {
      if (begunAt !== undefined) this.ways[duty]?.push({ from, to, begunAt, takesTime });
    });
  }

  /** Every run that goes on for ever. */
  tell(sightings: Sightings): void {
    this.setting.dutyStates.forEach((watched, duty) => {
      for (const begunAt of beginningsOfTimedRounds(this.ways[duty] as readonly Way[]))
        tellLength(watched, begunAt, UNKNOWN, sightings);
    });
  }
}

function beginningsOfTimedRounds(ways: readonly Way[]): ReadonlySet<string> {
  if (!ways.some(({ takesTime }) => takesTime)) return new Set();
  const graph = new Graph();
  for (const { from, to } of ways) graph.setEdge(String(from), String(to));
  const rounds = graphlib.alg.tarjan(graph).flatMap((round, index) => round.map((world) => [world, index] as const));
  const roundOf = new Map(rounds);
  const onRounds = ways.filter(
    ({ from, to, takesTime }) => takesTime && roundOf.get(String(from)) === roundOf.get(String(to)),
  );
  return new Set(onRounds.map(({ begunAt }) => begunAt));
}
