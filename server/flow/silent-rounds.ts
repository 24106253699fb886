/** For times: where a round of a counted loop matters only for the time that it takes, the rounds after the first are one move. */
import { groupByPoint, type Move, type Point } from './graph.ts';
import { mostJoined } from './limits.ts';
import { noTicks, sum } from './time.ts';

/** Of loops within each other the inner ones are drawn first. A loop without time is left as it is drawn. */
export function withRoundsJoined(moves: readonly Move[], isSilent: (move: Move) => boolean): Move[] {
  const from = groupByPoint(moves);
  const into = groupByPoint(moves, 'to');
  for (const again of moves) {
    if (again.happening.type !== 'again') continue;
    const [leave, ...elsewhere] = (from.get(again.from) ?? []).filter((move) => move !== again);
    const entering = (into.get(again.to) ?? []).filter((move) => move !== again);
    const round = roundOf(again);
    if (!leave || !round || elsewhere.length > 0 || entering.length > 1) continue;
    const time = round.map((move) => move.time).reduce(sum, noTicks);
    const times = again.happening.times - 1;
    if (times === 0 || time.most === 0 || times * movesIn(round) > mostJoined) continue;
    const joined: Move = {
      ...again,
      to: leave.to,
      // As `again` does, it ends what was read.
      happening: { type: 'forget' },
      time: { least: times * time.least, most: times * time.most },
      rounds: { again, round, times },
    };
    from.set(again.from, [joined]);
    into.set(again.to, entering);
  }
  return [...from.values()].flat();

  /** The only way round, where it is silent, tells nothing, and no other comes in. */
  function roundOf({ from: end, to: start }: Move): Move[] | undefined {
    const round: Move[] = [];
    for (let at: Point = start; at !== end; ) {
      const [only, ...others] = from.get(at) ?? [];
      if (!only || others.length > 0 || into.get(only.to)?.length !== 1) return undefined;
      if (!only.rounds && (only.reason || (only.happening.type !== 'enter-loop' && !isSilent(only)))) return undefined;
      round.push(only);
      at = only.to;
    }
    return round;
  }
}

function movesIn(round: readonly Move[]): number {
  return round.reduce((count, { rounds }) => count + (rounds ? rounds.times * movesIn(rounds.round) : 1), 0);
}
