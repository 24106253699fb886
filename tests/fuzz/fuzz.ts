/**
 * Fuzzing: texts, cards, edits and pages of all sorts, against what must hold for any of them.
 *
 *     npm run fuzz -- [--seed 1] [--share 0.1] [--seconds 600] [--only "parser inputs"]
 *
 * A share of the usual number is tried of each sort, for so many seconds at most. Each input on which something does not hold is made
 * small and written to tests/fuzz/kept, where `npm test` tries it from then on.
 */
import { parseArgs } from 'node:util';
import { closeBrowser } from './page.ts';
import { keep, tryInputs } from './run.ts';
import { sorts } from './sorts.ts';

const { values: options } = parseArgs({
  options: {
    seed: { type: 'string', default: String(Math.floor(Math.random() * 1_000_000)) },
    share: { type: 'string', default: '1' },
    seconds: { type: 'string', default: '86400' },
    only: { type: 'string' },
  },
});

async function fuzz(): Promise<boolean> {
  const seed = Number(options.seed);
  console.log(`Seed ${seed}.`);
  const table: Record<string, { inputs: number; seconds: number; crashes: number }> = {};
  for (const sort of sorts.filter(({ name }) => options.only === undefined || name === options.only)) {
    const runs = Math.ceil(sort.runs.long * Number(options.share));
    const { inputs, seconds, crashes } = await tryInputs(sort, { runs, seed, seconds: Number(options.seconds) });
    table[sort.name] = { inputs, seconds: Math.round(seconds), crashes: crashes.length };
    for (const crash of crashes) console.log(`${sort.name}: ${crash.why}\n  kept as ${keep(sort, crash)}`);
    console.log(`${sort.name}: ${inputs} inputs in ${Math.round(seconds)} s, ${crashes.length} crashes.`);
  }
  await closeBrowser();
  console.table(table);
  return Object.values(table).every(({ crashes }) => crashes === 0);
}

void fuzz().then((holds) => {
  process.exitCode = holds ? 0 : 1;
});
