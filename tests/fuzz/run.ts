/** Tries inputs of a sort, and keeps each on which something does not hold as a test. */
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import fc from 'fast-check';
import type { Sort } from './sorts.ts';

export interface Tried {
  readonly inputs: number;
  readonly seconds: number;
  readonly crashes: readonly Crash[];
}

export interface Crash {
  readonly input: unknown;
  readonly why: string;
}

export interface Bounds {
  readonly runs: number;
  readonly seed: number;
  /** After so many seconds no more is begun. */
  readonly seconds: number;
}

/** Inputs that are tried with one seed; then the next begins, so that a crash does not end it all. */
const stretch = 500;
const mostCrashes = 10;

export async function tryInputs(sort: Sort<unknown>, { runs, seed, seconds }: Bounds): Promise<Tried> {
  const began = performance.now();
  const passed = () => (performance.now() - began) / 1000;
  const crashes: Crash[] = [];
  let inputs = 0;
  for (let from = 0; from < runs && passed() < seconds && crashes.length < mostCrashes; from += stretch) {
    const numRuns = Math.min(stretch, runs - from);
    const interruptAfterTimeLimit = Math.max(1, (seconds - passed()) * 1000);
    const property = fc.asyncProperty(sort.inputs, async (input) => sort.holds(input));
    const ran = await fc.check(property, { seed: seed + from, numRuns, interruptAfterTimeLimit, endOnFailure: false });
    inputs += ran.numRuns;
    if (ran.failed && ran.counterexample)
      crashes.push({ input: ran.counterexample[0], why: String(ran.errorInstance) });
  }
  return { inputs, seconds: passed(), crashes };
}

const kept = 'tests/fuzz/kept';

/** The inputs of a sort on which something once did not hold. */
export function keptInputs({ name }: Sort<unknown>): readonly { readonly file: string; readonly input: unknown }[] {
  const all = readdirSync(kept).filter((file) => file.startsWith(`${dashed(name)}-`));
  return all.sort().map((file) => ({ file, input: JSON.parse(readFileSync(`${kept}/${file}`, 'utf8')).input }));
}

export function keep({ name }: Sort<unknown>, { input, why }: Crash): string {
  const text = `${JSON.stringify({ why, input }, undefined, 2)}\n`;
  const file = `${kept}/${dashed(name)}-${createHash('sha256').update(text).digest('hex').slice(0, 8)}.json`;
  mkdirSync(kept, { recursive: true });
  writeFileSync(file, text);
  return file;
}

function dashed(name: string): string {
  return name.replaceAll(' ', '-');
}
