/**
 * The tests that every mutant is put to: what runs in one process, reads nothing but the samples and looks at the path engine,
 * time or limits. Run by itself it tells how long each test takes and whether it passes; with the list of those tests that are
 * to be run it stops at the first that fails. A dot on standard error says that a test is over.
 *
 *     node suite.cjs              prints the tests as JSON: [{ name, milliseconds, passes }]
 *     node suite.cjs PLAN.json    exits with 1 and the name of the test that noticed the mutant, or with 0
 */
import '../shared/interval.test.ts';
import '../shared/interval-ends.test.ts';
import '../shared/quantity.test.ts';
import '../shared/second-unit.test.ts';
import '../shared/units.test.ts';
import '../server/flow/configurations.test.ts';
import '../server/flow/graphs.test.ts';
import '../server/flow/time.test.ts';
import '../server/flow/timed-lanes.test.ts';
import '../server/flow/ways.test.ts';
import '../server/proof/announcements.test.ts';
import '../server/proof/card-time.test.ts';
import '../server/proof/carry.test.ts';
import '../server/proof/checks-relied-on.test.ts';
import '../server/proof/clock.test.ts';
import '../server/proof/close-calls.test.ts';
import '../server/proof/cost.test.ts';
import '../server/proof/drift.test.ts';
import '../server/proof/duties-asked.test.ts';
import '../server/proof/duties.test.ts';
import '../server/proof/duties-beside-lanes.test.ts';
import '../server/proof/duties-in-loops.test.ts';
import '../server/proof/examples.test.ts';
import '../server/proof/growth.test.ts';
import '../server/proof/hanging.test.ts';
import '../server/proof/led.test.ts';
import '../server/proof/long-ways.test.ts';
import '../server/proof/loops.test.ts';
import '../server/proof/lost-readings.test.ts';
import '../server/proof/many-runs.test.ts';
import '../server/proof/meaning.test.ts';
import '../server/proof/mends-on-the-spot.test.ts';
import '../server/proof/nested-lanes.test.ts';
import '../server/proof/noise.test.ts';
import '../server/proof/paths.test.ts';
import '../server/proof/readings.test.ts';
import '../server/proof/regions.test.ts';
import '../server/proof/safety.test.ts';
import '../server/proof/silence.test.ts';
import '../server/proof/state.test.ts';
import '../server/proof/states-at.test.ts';
import '../server/proof/stays.test.ts';
import '../server/proof/structure.test.ts';
import '../server/proof/supply.test.ts';
import '../server/proof/supply-mend.test.ts';
import '../server/proof/triggers.test.ts';
import '../server/proof/worked-out.test.ts';
import '../server/findings/accepted-apart.test.ts';
import '../server/findings/across.test.ts';
import '../server/findings/branches.test.ts';
import '../server/findings/calls.test.ts';
import '../server/findings/crew.test.ts';
import '../server/findings/examples.test.ts';
import '../server/findings/fixes.test.ts';
import '../server/findings/limit-slips.test.ts';
import '../server/findings/limits.test.ts';
import '../server/findings/mends.test.ts';
import '../server/findings/noise.test.ts';
import '../server/findings/seen-mends.test.ts';
import '../server/findings/supply-told.test.ts';
import '../server/findings/unreachable.test.ts';
import '../server/check.test.ts';
import '../server/one-token.test.ts';
import '../server/render/pictures.test.ts';
import '../server/render/sentences.test.ts';
import '../compare/pairs.test.ts';
import '../conformance/findings.test.ts';
import '../conformance/limits.test.ts';
import '../conformance/paths.test.ts';
import '../conformance/rules.test.ts';
import '../conformance/states.test.ts';
import '../conformance/time.test.ts';
import '../published/conversions.test.ts';
import '../published/dominators.test.ts';
import '../published/motor-duties.test.ts';
import '../published/noise-criteria.test.ts';
import '../published/noise-dose.test.ts';
import '../published/starter-duties.test.ts';
import '../published/temporal-network.test.ts';
import '../samples/clean.test.ts';
import '../samples/faulty.test.ts';
import '../oracle/calls-apart.test.ts';
import '../oracle/once-differed.test.ts';
import '../oracle/reaching.test.ts';
import '../server/binding/calls.test.ts';
import '../server/features/reading.test.ts';
import './random-cards.ts';
import { readFileSync, writeSync } from 'node:fs';
import { type Test, tests } from './vitest.ts';

export interface Measured {
  readonly name: string;
  readonly milliseconds: number;
  readonly passes: boolean;
}

async function measured(test: Test): Promise<Measured> {
  const start = performance.now();
  const passes = await Promise.resolve()
    .then(() => test.run())
    .then(
      () => true,
      () => false,
    );
  writeSync(2, '.');
  return { name: test.name, milliseconds: performance.now() - start, passes };
}

async function measureAll(): Promise<Measured[]> {
  const all: Measured[] = [];
  for (const test of tests) all.push(await measured(test));
  return all;
}

/** The first test of the plan that fails or is gone. */
async function firstToFail(plan: readonly number[]): Promise<string | undefined> {
  for (const index of plan) {
    const test = tests[index];
    if (!test || !(await measured(test)).passes) return test?.name ?? 'a test that is gone';
  }
  return undefined;
}

async function main([planFile]: readonly string[]): Promise<void> {
  if (!planFile) {
    // More than a pipe takes at once: no `writeSync`, which leaves the rest out.
    process.stdout.write(JSON.stringify(await measureAll()));
    return;
  }
  const noticed = await firstToFail(JSON.parse(readFileSync(planFile, 'utf8')));
  if (noticed !== undefined) writeSync(1, noticed);
  process.exit(noticed === undefined ? 0 : 1);
}

main(process.argv.slice(2));
