/** Of the mutants that change no answer, those of duties, doses and how long something has been so. */
import type { Equivalent } from './equivalent.ts';

export const equivalentTimes: readonly Equivalent[] = [
  {
    file: 'server/proof/time/duties.ts',
    line: 'if (time.most === 0) return times;',
    replacement: ';',
    why: 'No time is added either way.',
  },
  {
    file: 'server/proof/exploring/stays.ts',
    line: 'this.longest = 1 + Math.max(0, ...asked.map(({ lasting }) => (lasting ? ticks(lasting.duration) : 0)));',
    replacement: '1',
    why: 'Times above the longest that is asked may as well be told apart: they answer no question differently.',
  },
  {
    file: 'server/proof/exploring/stays.ts',
    line: 'return this.terms.length > 0;',
    replacement: '((this.terms.length) >= (0))',
    why: 'Where no such question is asked no place has times, and all are the same when they are gone through again.',
  },
  {
    file: 'server/proof/time/duties.ts',
    line: 'return runs > duty.times ? [{ runs, rest: count.rest?.since ?? 0, trail: times.counts[index]?.trail }] : [];',
    replacement: '1',
    why: 'Where a run is not the first, one before it has ended.',
  },
  {
    file: 'server/proof/time/duties.ts',
    line: 'return (this.count?.times ?? 0) + mostCountedOver;',
    replacement: '1',
    why: 'Without a duty that counts no runs are counted.',
  },
  {
    file: 'server/proof/time/duty-times.ts',
    line: 'return a && b ? widerClock(side, a, b) : (a ?? b);',
    replacement: '((a) && (b))',
    why: 'Places with a run behind them are kept apart from those without by the move that began it.',
  },
  {
    file: 'server/proof/time/duty-times.ts',
    line: 'for (let at = trail; at && ways.length < mostPlacesTold; at = at.before) ways.push(at.way);',
    replacement: '((ways.length) <= (mostPlacesTold))',
    why: 'A limit of what is kept or tried: at the number itself either is right.',
  },
  {
    file: 'server/proof/time/duty-times.ts',
    line: 'if (worst.length <= mostStarts) return worst;',
    replacement: '((worst.length) < (mostStarts))',
    why: 'A limit of what is kept or tried: at the number itself either is right.',
  },
  {
    file: 'server/flow/silent-rounds.ts',
    line: 'if (times === 0 || time.most === 0 || times * movesIn(round) > mostJoined) continue;',
    replacement: '1',
    why: 'One round more that is not joined is told as it is drawn: the same.',
  },
  {
    file: 'server/flow/silent-rounds.ts',
    line: 'if (times === 0 || time.most === 0 || times * movesIn(round) > mostJoined) continue;',
    replacement: '((times * movesIn(round)) >= (mostJoined))',
    why: 'Rounds that are not joined are told as they are drawn: the same.',
  },
  {
    file: 'server/proof/time/duties.ts',
    line: 'mostGrowths: (node) => mostGrowing + 4 * (ways[node]?.length ?? 0),',
    replacement: '5',
    why: 'A limit of what is tried: a little later it is as right to take for endless what goes on growing.',
  },
  {
    file: 'server/proof/time/duty-times.ts',
    line: 'const { trail } = b.rest.since < a.rest.since ? b : a;',
    replacement: '((b.rest.since) <= (a.rest.since))',
    why: 'Of two ways with the same rest either may be told.',
  },
  {
    file: 'server/flow/time-between.ts',
    line: 'most: Math.max(...goals.map((goal) => most[goal] ?? 0)),',
    replacement: '1',
    why: 'A way leads to every node that is unrolled.',
  },
  {
    file: 'server/proof/exploring/explore-in-time.ts',
    line: 'if (parts.length === 1) return [state];',
    replacement: '0',
    why: 'A way is there because it is open, so that the only part of its place is too.',
  },
  {
    file: 'server/proof/exploring/stays.ts',
    line: 'this.terms = asked.filter((term, index) => asked.findIndex((known) => isSameStay(known, term)) === index);',
    replacement: 'asked.findLastIndex((known) => isSameStay(known, term))',
    why: 'One of those that ask the same stands for all.',
  },
  {
    file: 'server/proof/time/duty-times.ts',
    line: 'const clocks = row.clocks.filter((start) => start.since < window);',
    replacement: '((start.since) <= (window))',
    why: 'A start as old as the window breaks it no more, kept or not.',
  },
  {
    file: 'server/proof/exploring/stays.ts',
    line: 'const stay = stays[this.terms.findIndex((known) => isSameStay(known, term))];',
    replacement: 'this.terms.findLastIndex((known) => isSameStay(known, term))',
    why: 'Each is there once.',
  },
  {
    file: 'server/proof/time/clock.ts',
    line: 'afterFork: clock.afterFork.map((event, depth) => other(event, (afterFork[depth] ?? 0) - since)),',
    replacement: '1',
    why: 'A clock has as many forks behind it as lanes are led.',
  },
  {
    file: 'server/proof/time/duty-times.ts',
    line: 'return { ...row, clocks, ...(row.atChange && { atChange: row.atChange.slice(0, clocks.length) }) };',
    replacement: '(row.atChange)',
    why: 'Nobody looks at the changes of starts that are no longer kept.',
  },
  {
    file: 'server/proof/time/timing.ts',
    line: 'const asked = item.duties.reduce((mask, { state }) => mask | (1 << state), 0);',
    replacement: '1',
    why: 'The state that is told of besides is one that no duty asks about.',
  },
  {
    file: 'server/proof/time/counted-time.ts',
    line: "const changes = index.movesOfItem(item).filter((move) => happening(move).type !== 'assume');",
    replacement: '(index.movesOfItem(item))',
    why: 'More time is counted than must be: more places, and the same answers.',
  },
  {
    file: 'server/proof/exploring/explore-in-time.ts',
    line: 'place.widened++;',
    replacement: 'place.widened--',
    why: 'No time grows past the longest that is asked, so that all come to rest without it.',
  },
  {
    file: 'server/proof/time/dose.ts',
    line: 'return levels.length > 0 ? Math.max(...levels) : undefined;',
    replacement: '((levels.length) >= (0))',
    why: 'The greatest of none is less than any level that counts.',
  },
];
