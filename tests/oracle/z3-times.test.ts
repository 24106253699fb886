/** The longest run and the shortest rest over random timed stretches: z3 finds the figure, and the engine's verdict must turn exactly there. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { codesOf } from './engine.ts';
import { timeThrough } from './solver.ts';
import { GraphBuilder, type Part, PartPrinter, parts } from './timed-graph.ts';

const CASES = 30;
const SEED = Number(process.env.ORACLE_SEED ?? 20261002);

function card(duty: string, whileOn: string, whileOff: string): string {
  return `
kind motor { off, on }
item motor : motor "the motor" normally off { duty on at most ${duty} }
card trial "A trial" {
  step { set motor on wait 1 s }
  ${whileOn}
  step { set motor off wait 1 s }
  ${whileOff}
  step { set motor on wait 1 s set motor off }
}`;
}

function throughStretch(stretch: readonly Part[]) {
  const graph = new GraphBuilder();
  const end = graph.add(stretch, 0);
  return timeThrough(graph.edges, end);
}

function dutyCodes(text: string): readonly string[] {
  return codesOf(text).filter((code) => code.startsWith('duty.'));
}

test('the longest run', async () => {
  for (const stretch of fc.sample(parts(2), { numRuns: CASES, seed: SEED })) {
    const { most } = await throughStretch(stretch);
    const printed = new PartPrinter().print(stretch);
    const verdicts = (seconds: number) => dutyCodes(card(`${seconds} s`, printed, ''));
    if (most === undefined) expect(verdicts(100_000), printed).toEqual(['duty.unbounded']);
    else {
      // The step that sets the motor on lasts a second more.
      expect(verdicts(most + 1), printed).toEqual([]);
      expect(verdicts(most), printed).toEqual(['duty.too-long']);
    }
  }
});

test('the shortest rest', async () => {
  for (const stretch of fc.sample(parts(2), { numRuns: CASES, seed: SEED + 1 })) {
    const { least } = await throughStretch(stretch);
    const printed = new PartPrinter().print(stretch);
    const verdicts = (seconds: number) => dutyCodes(card(`10 s, then rest ${seconds} s`, '', printed));
    expect(verdicts(least + 1), printed).toEqual([]);
    expect(verdicts(least + 2), printed).toEqual(['duty.short-rest']);
  }
});

test('the closest starts', async () => {
  for (const stretch of fc.sample(parts(1), { numRuns: CASES, seed: SEED + 2 })) {
    const { least } = await throughStretch(stretch);
    const printed = new PartPrinter().print(stretch);
    const verdicts = (seconds: number) => dutyCodes(card(`1 times in ${seconds} s`, printed, ''));
    // A second on before the stretch and one off after it.
    expect(verdicts(least + 2), printed).toEqual([]);
    expect(verdicts(least + 3), printed).toEqual(['duty.too-often']);
  }
});
