/**
 * Where a place in the text stands on the page, and back. Both directions run through the same points, so that a place
 * followed to the page and back is the same place. No page is needed here: the caller measures it.
 */

/** A block of the page that knows which offset of the text it was made from. Lists of anchors ascend in both values. */
export interface Anchor {
  readonly offset: number;
  /** Pixels from the top of the page. */
  readonly top: number;
}

/**
 * The longest list of the measured blocks that ascends, so that one block out of order costs no others. A card that is
 * printed in another order than it is written (the page "if you stop" after the end) has some.
 */
export function ascending(measured: readonly Anchor[]): Anchor[] {
  // Descending offsets among equal tops keep two blocks of one top out of one list.
  const blocks = [...measured].sort((a, b) => a.top - b.top || b.offset - a.offset);
  // By length: the index of the block with the smallest offset that ends a list of that length.
  const ends: number[] = [];
  const before: (number | undefined)[] = [];
  for (const [index, block] of blocks.entries()) {
    const length = ends.findLastIndex((end) => (blocks[end] as Anchor).offset < block.offset) + 1;
    before[index] = ends[length - 1];
    ends[length] = index;
  }
  const kept: Anchor[] = [];
  for (let index = ends.at(-1); index !== undefined; index = before[index]) kept.push(blocks[index] as Anchor);
  return kept.reverse();
}

/** The place on the page of an offset in the text; between two blocks it is interpolated. */
export function topOf(anchors: readonly Anchor[], offset: number): number {
  return follow(anchors, offset, 'offset', 'top');
}

/** The offset in the text of a place on the page. */
export function offsetAt(anchors: readonly Anchor[], top: number): number {
  return follow(anchors, top, 'top', 'offset');
}

function follow(anchors: readonly Anchor[], value: number, from: keyof Anchor, to: keyof Anchor): number {
  const next = anchors.findIndex((anchor) => anchor[from] > value);
  const after = next < 0 ? undefined : anchors[next];
  const before = next < 0 ? anchors.at(-1) : anchors[next - 1];
  if (!before) return 0;
  if (!after) return before[to];
  const share = (value - before[from]) / (after[from] - before[from]);
  return before[to] + share * (after[to] - before[to]);
}

// ---------------------------------------------------------------- echo
// Editor and page each follow the other, and without a latch against echo each would follow its own shadow.

/**
 * Whether a scroll of the page that is seen at `top` is the echo of our own, which put it at `put` (pixels): it has not gone on
 * from there. Whatever is elsewhere a reader has scrolled, however soon after.
 */
export function isWhereItWasPut(put: number | undefined, top: number): boolean {
  return put !== undefined && Math.abs(top - put) < 1;
}

/** Milliseconds after a scroll of the editor by us in which its scroll events are the echo. */
export const echoTime = 150;

/**
 * The latch of the editor, which tells neither when nor where a scroll will end (it may be smooth, or near the end of the file).
 * It holds the time at which the last echo of our own scroll may arrive.
 */
export interface Latch {
  readonly heldUntil: number;
}

export const openLatch: Latch = { heldUntil: 0 };

/** The latch after a scroll that we caused at `now` (milliseconds). */
export function holdLatch(now: number): Latch {
  return { heldUntil: now + echoTime };
}

/** Whether a scroll that is seen at `now` is the echo of our own. */
export function isEcho(latch: Latch, now: number): boolean {
  return now < latch.heldUntil;
}
