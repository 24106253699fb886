/**
 * The simple temporal network of Dechter, Meiri and Pearl (Temporal constraint networks, 1991; the network from memory, its minimal form recomputed).
 * A card can say what lies in a row and what runs at once, not a bound between any two events: the rows are held against the engine, the whole against
 * the known minimal network.
 */
import { describe, expect, test } from 'vitest';
import { codesOf } from '../oracle/engine.ts';

type Range = readonly [number, number];

/** From, to, and the range of the time between. */
const NETWORK: readonly (readonly [number, number, Range])[] = [
  [0, 1, [10, 20]],
  [1, 2, [30, 40]],
  [3, 2, [10, 20]],
  [3, 4, [40, 50]],
  [0, 4, [60, 70]],
];

/** Shortest paths between all events (Floyd and Warshall); undefined where the network contradicts itself. */
function minimal(network: typeof NETWORK): readonly (readonly number[])[] | undefined {
  const events = 5;
  const most = Array.from({ length: events }, (_, from) =>
    Array.from({ length: events }, (_, to) => (from === to ? 0 : Number.POSITIVE_INFINITY)),
  );
  const tighten = (from: number, to: number, time: number) => {
    const row = most[from] as number[];
    row[to] = Math.min(row[to] as number, time);
  };
  for (const [from, to, [least, longest]] of network) {
    tighten(from, to, longest);
    tighten(to, from, -least);
  }
  for (let via = 0; via < events; via++) {
    for (let from = 0; from < events; from++) {
      for (let to = 0; to < events; to++)
        tighten(from, to, (most[from]?.[via] as number) + (most[via]?.[to] as number));
    }
  }
  return most.some((row, event) => (row[event] as number) < 0) ? undefined : most;
}

function range(most: readonly (readonly number[])[] | undefined, from: number, to: number): Range {
  return [-(most?.[to]?.[from] as number), most?.[from]?.[to] as number];
}

describe('the whole network', () => {
  test('its minimal form', () => {
    const most = minimal(NETWORK);
    expect(range(most, 0, 2)).toEqual([40, 50]);
    expect(range(most, 0, 3)).toEqual([20, 30]);
    expect(range(most, 1, 3)).toEqual([10, 20]);
    expect(range(most, 1, 4)).toEqual([50, 60]);
    expect(range(most, 2, 4)).toEqual([20, 30]);
  });
  test('contradicts itself once the last event must come within 59', () => {
    expect(
      minimal(NETWORK.map(([from, to, [least, most]]) => [from, to, from === 0 && to === 4 ? [0, 59] : [least, most]])),
    ).toBeUndefined();
  });
});

describe('what a card can say of it', () => {
  const wait = ([least, most]: Range) => `step { wait ${least} s to ${most} s }`;
  const dutyCodes = (duty: string, run: string, rest: string) =>
    codesOf(`
      kind motor { off, on }
      item motor : motor "the motor" normally off { duty on at most ${duty} }
      card trial "A trial" {
        crew l "Left", r "Right"
        step by l { set motor on wait 0 s }
        ${run}
        step by l { set motor off wait 0 s }
        ${rest}
        step by l { set motor on wait 0 s set motor off }
      }`).filter((code) => code.startsWith('duty.'));

  function turnsAt(stretch: string, [least, most]: Range): void {
    expect(dutyCodes(`${most} s`, stretch, '')).toEqual([]);
    expect(dutyCodes(`${most - 1} s`, stretch, '')).toEqual(['duty.too-long']);
    expect(dutyCodes(`1 h, then rest ${least} s`, '', stretch)).toEqual([]);
    expect(dutyCodes(`1 h, then rest ${least + 1} s`, '', stretch)).toEqual(['duty.short-rest']);
  }

  test('the row by event 1 takes 40 to 60, which holds the 40 to 50 that the other constraints leave', () => {
    turnsAt(`${wait([10, 20])} ${wait([30, 40])}`, [40, 60]);
  });
  test('the row by event 3 takes 60 to 80, which holds the 60 to 70 of the network', () => {
    turnsAt(`${wait([20, 30])} ${wait([40, 50])}`, [60, 80]);
  });
  test('both rows at once end with the later', () => {
    turnsAt(
      `together { by l { ${wait([10, 20])} ${wait([30, 40])} } by r { ${wait([20, 30])} ${wait([40, 50])} } }`,
      [60, 80],
    );
  });
});
