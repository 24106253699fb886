import type { Point } from './graph.ts';

/**
 * The moves of each point, in numbers that lie beside each other: those of a point stand from its `first` up to that of the next point.
 * Who goes through a whole flow for each question waits for the memory more than for anything else.
 */
export class ByPoint {
  readonly first: Int32Array;
  readonly moves: Int32Array;

  /** @param ends for each move the point under which it stands */
  constructor(points: number, ends: Int32Array) {
    this.first = new Int32Array(points + 1);
    this.moves = new Int32Array(ends.length);
    for (const point of ends) add(this.first, point + 1, 1);
    for (let point = 1; point <= points; point++) add(this.first, point, this.first[point - 1] as number);
    const next = this.first.slice();
    for (const [move, point] of ends.entries()) this.moves[add(next, point, 1) - 1] = move;
  }

  of(point: Point): readonly number[] {
    return [...this.moves.subarray(this.first[point], this.first[point + 1])];
  }
}

function add(numbers: Int32Array, at: number, more: number): number {
  const sum = (numbers[at] as number) + more;
  numbers[at] = sum;
  return sum;
}
