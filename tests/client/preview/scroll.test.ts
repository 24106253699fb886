import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ascending,
  echoTime,
  holdLatch,
  isEcho,
  isWhereItWasPut,
  offsetAt,
  openLatch,
  topOf,
} from '../../../client/preview/scroll.ts';

const anchors = [
  { offset: 0, top: 10 },
  { offset: 100, top: 50 },
  { offset: 120, top: 450 },
];

describe('scrolling together', () => {
  it('puts a block where the page has it', () => {
    expect(anchors.map(({ offset }) => topOf(anchors, offset))).toEqual([10, 50, 450]);
    expect(anchors.map(({ top }) => offsetAt(anchors, top))).toEqual([0, 100, 120]);
  });

  it('interpolates between two blocks', () => {
    expect(topOf(anchors, 110)).toBe(250);
    expect(offsetAt(anchors, 30)).toBe(50);
  });

  it('stays at the ends outside the blocks', () => {
    expect(topOf(anchors, 1_000)).toBe(450);
    expect(offsetAt(anchors, 9_000)).toBe(120);
    expect(offsetAt(anchors, 0)).toBe(0);
    expect(topOf([], 40)).toBe(0);
  });

  it('leaves out blocks that are printed in another order than written', () => {
    const measured = [
      { offset: 0, top: 0 },
      { offset: 900, top: 20 },
      { offset: 50, top: 40 },
      { offset: 950, top: 60 },
    ];
    expect(ascending(measured).map(({ offset }) => offset)).toEqual([0, 50, 950]);
  });

  it('comes back to the same offset, whatever the blocks', () => {
    const measured = fc.array(fc.record({ offset: fc.nat(10_000), top: fc.nat(10_000) }), { minLength: 2 });
    fc.assert(
      fc.property(measured, fc.double({ min: 0, max: 1, noNaN: true }), (blocks, share) => {
        const kept = ascending(blocks);
        const first = kept[0] as { offset: number };
        const last = kept.at(-1) as { offset: number };
        const offset = first.offset + share * (last.offset - first.offset);
        expect(offsetAt(kept, topOf(kept, offset))).toBeCloseTo(offset, 6);
      }),
    );
  });
});

describe('the latch of the page', () => {
  it('takes for an echo only what is seen where the page was put, to the pixel', () => {
    expect(isWhereItWasPut(undefined, 0)).toBe(false);
    expect(isWhereItWasPut(200, 200)).toBe(true);
    expect(isWhereItWasPut(200, 200.5)).toBe(true);
    expect(isWhereItWasPut(200, 201)).toBe(false);
    expect(isWhereItWasPut(200, 199)).toBe(false);
  });
});

describe('the latch of the editor', () => {
  it('takes for an echo only what follows a scroll of our own', () => {
    expect(isEcho(openLatch, 5)).toBe(false);
    expect(isEcho(holdLatch(1_000), 1_000 + echoTime - 1)).toBe(true);
    expect(isEcho(holdLatch(1_000), 1_000 + echoTime)).toBe(false);
  });
});
