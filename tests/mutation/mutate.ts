/**
 * Mutation testing of the path engine, time and limits: makes small slips in the sources, one at a time, and counts how many of
 * them the suite notices.
 *
 *     npm run mutate -- [--seed 1] [--mutants 200] [--only server/proof/time/duties.ts] [--report FILE]
 *
 * Prints a dot for each mutant that a test notices, and each survivor with its file, line and change. Which mutants a seed takes
 * hangs on the sources: after a change of them the same seed takes others.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { globSync } from 'tinyglobby';
import { equivalents as equivalentInEngine } from './equivalent.ts';
import { equivalentLimits } from './equivalent-limits.ts';
import { equivalentTimes } from './equivalent-times.ts';
import { type Mutation, mutationsOf } from './sites.ts';
import { folder, type Outcome, planOf, Trial } from './trial.ts';

const sources = [
  'server/flow/*.ts',
  'server/proof/**/*.ts',
  'server/findings/limit-*.ts',
  'server/findings/support/limits.ts',
  'shared/interval.ts',
  'shared/quantity.ts',
];

const equivalents = [...equivalentInEngine, ...equivalentLimits, ...equivalentTimes];

type Tried = Mutation & Outcome;

const { values: options } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    mutants: { type: 'string', default: '200' },
    only: { type: 'string', default: '' },
    report: { type: 'string' },
  },
});

/** The same for the same seed and sources. */
function sample(all: readonly Mutation[], size: number, seed: string): Mutation[] {
  const ranked = all.map((mutation, index) => ({
    mutation,
    rank: createHash('sha256').update(`${seed} ${mutation.file} ${index}`).digest('hex'),
  }));
  ranked.sort((a, b) => (a.rank < b.rank ? -1 : 1));
  return ranked.slice(0, size).map(({ mutation }) => mutation);
}

async function tryAll(mutations: readonly Mutation[]): Promise<Tried[]> {
  mkdirSync(folder, { recursive: true });
  const trials = [new Trial('one'), new Trial('two')];
  const measured = await (trials[0] as Trial).measure();
  const total = measured.reduce((sum, { milliseconds }) => sum + milliseconds, 0);
  const failing = measured.filter(({ passes }) => !passes).map(({ name }) => name);
  console.log(`${measured.length} tests in ${Math.round(total)} ms without a mutant.`);
  if (failing.length > 0) console.log(`Left out, since they fail without one:\n  ${failing.join('\n  ')}`);

  const waiting = [...mutations];
  const tried: Tried[] = [];
  /** What noticed one mutant of a file is likely to notice the next. */
  const noticed = new Map(mutations.map(({ file }) => [file, new Set<string>()]));
  const work = async (trial: Trial) => {
    for (let mutation = waiting.shift(); mutation; mutation = waiting.shift()) {
      const hopeful = noticed.get(mutation.file) as Set<string>;
      const outcome = await trial.try(mutation, planOf(measured, hopeful));
      hopeful.add(outcome.by);
      tried.push({ ...mutation, ...outcome });
      process.stdout.write(outcome.killed ? '.' : `\n${describe(mutation)}\n`);
    }
    await trial.end();
  };
  await Promise.all(trials.map(work));
  console.log();
  return tried;
}

function whyEquivalent({ file, source, replacement }: Mutation): string | undefined {
  return equivalents.find(
    (one) => one.file === file && one.line === source && (one.replacement ?? replacement) === replacement,
  )?.why;
}

/** Entries of the list whose line has changed since: they say nothing any more and are to be looked at again. */
function staleEquivalents(all: readonly Mutation[]): string[] {
  return equivalents
    .filter(({ file, line }) => !all.some((mutation) => mutation.file === file && mutation.source === line))
    .map(({ file, line }) => `${file}: ${line}`);
}

function describe(mutation: Mutation): string {
  const { file, line, original, replacement } = mutation;
  const oneLine = (text: string) => text.replace(/\s+/g, ' ').trim();
  const why = whyEquivalent(mutation);
  return `${file}:${line}  ${oneLine(original)}  →  ${oneLine(replacement)}${why ? `\n    the same: ${why}` : ''}`;
}

async function main(): Promise<void> {
  const start = performance.now();
  const files = globSync(sources).sort();
  const all = files.flatMap((file) => mutationsOf(file, readFileSync(file, 'utf8')));
  const stale = staleEquivalents(all);
  if (stale.length > 0) console.log(`No longer there, of the mutants that change no answer:\n  ${stale.join('\n  ')}`);
  const wanted = all.filter(({ file, line }) => `${file}:${line}`.startsWith(options.only));
  const tried = await tryAll(sample(wanted, Number(options.mutants), options.seed));

  const survivors = tried.filter(({ killed }) => !killed).sort((a, b) => (describe(a) < describe(b) ? -1 : 1));
  const same = survivors.filter((one) => whyEquivalent(one) !== undefined).length;
  const [killed, meant] = [tried.length - survivors.length, tried.length - same];
  const percent = (whole: number) => `${((100 * killed) / whole).toFixed(1)} %`;
  const figures = [
    `Seed ${options.seed}: ${killed} of ${tried.length} mutants killed (${percent(tried.length)}), of ${wanted.length} possible ones.`,
    `Without the ${same} that change no answer: ${killed} of ${meant} (${percent(meant)}).`,
  ];
  const report = [...figures, '', ...survivors.map(describe), ''].join('\n');
  console.log(report);
  console.log(`${Math.round((performance.now() - start) / 1000)} s`);
  if (options.report) writeFileSync(options.report, report);
}

await main();
