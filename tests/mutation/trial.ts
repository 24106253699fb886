/** Puts one mutant to the suite: bundles the suite with the changed file, and runs it in a process of its own. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { type BuildContext, context, type Plugin } from 'esbuild';
import { type Mutation, mutated } from './sites.ts';
import type { Measured } from './suite.ts';

export const folder = '.cache/mutation';

/** Milliseconds: several times what the longest takes without a mutant, beside another trial. */
const longestTest = 30_000;

/** Of a table's rows one that takes longer, in milliseconds, is left out: the others ask the same. */
const longestRow = 500;

export interface Outcome {
  readonly killed: boolean;
  /** The test that noticed it, or what became of the process. */
  readonly by: string;
}

/** Bundles one mutant after the other; what did not change is not read again. */
export class Trial {
  private mutation: Mutation | undefined;
  private readonly build: Promise<BuildContext>;
  private readonly bundle: string;
  private readonly planFile: string;

  constructor(name: string) {
    this.bundle = `${folder}/${name}.cjs`;
    this.planFile = `${folder}/${name}.json`;
    this.build = context({
      entryPoints: ['tests/mutation/suite.ts'],
      outfile: this.bundle,
      bundle: true,
      loader: { '.card': 'text' },
      platform: 'node',
      // It looks for its own files beside itself.
      external: ['html-validate'],
      alias: { vitest: './tests/mutation/vitest.ts' },
      plugins: [this.changedFile()],
      logLevel: 'error',
    });
  }

  /** How long each test takes without a mutant, and whether it passes. */
  async measure(): Promise<readonly Measured[]> {
    await this.bundleWith(undefined);
    const { output, code } = await this.runSuite([]);
    if (code !== 0) throw new Error(`The suite does not run without a mutant: ${output}`);
    return JSON.parse(output);
  }

  async try(mutation: Mutation, plan: Plan): Promise<Outcome> {
    writeFileSync(this.planFile, JSON.stringify(plan));
    await this.bundleWith(mutation);
    const { code, output } = await this.runSuite([this.planFile]);
    if (code === 0) return { killed: false, by: '' };
    if (code === undefined) return { killed: true, by: 'it does not end' };
    return { killed: true, by: output || 'it does not run' };
  }

  async end(): Promise<void> {
    await (await this.build).dispose();
    for (const file of [this.bundle, this.planFile]) rmSync(file, { force: true });
  }

  private async bundleWith(mutation: Mutation | undefined): Promise<void> {
    this.mutation = mutation;
    await (await this.build).rebuild();
  }

  private changedFile(): Plugin {
    return {
      name: 'mutant',
      setup: (build) => {
        build.onLoad({ filter: /\/(shared|server)\/.*\.ts$/ }, ({ path }) => {
          if (!this.mutation || path !== resolve(this.mutation.file)) return undefined;
          return { contents: mutated(readFileSync(path, 'utf8'), this.mutation), loader: 'ts' };
        });
      },
    };
  }

  /** No code where the process had to be ended: it tells each test that is over, and one of them is never. */
  private async runSuite(options: readonly string[]) {
    const child = spawn(process.execPath, ['--max-old-space-size=1500', this.bundle, ...options], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    const standingStill = setTimeout(() => child.kill('SIGKILL'), longestTest);
    child.stderr.on('data', () => standingStill.refresh());
    let output = '';
    child.stdout.on('data', (part) => {
      output += part;
    });
    const [code, signal] = await once(child, 'close');
    clearTimeout(standingStill);
    return { output, code: signal === 'SIGKILL' ? undefined : (code as number) };
  }
}

/** The tests to be run, by their numbers in the suite. */
export type Plan = readonly number[];

/** First those of which most is hoped, then the quickest. Those that fail without a mutant, and long rows of a table, are left out. */
export function planOf(measured: readonly Measured[], hopeful: ReadonlySet<string>): Plan {
  const isLongRow = ({ name, milliseconds }: Measured) => name.includes('%') && milliseconds > longestRow;
  const passing = measured.flatMap((test, index) => (test.passes && !isLongRow(test) ? [{ ...test, index }] : []));
  const hopeless = ({ name }: Measured) => Number(!hopeful.has(name));
  passing.sort((a, b) => hopeless(a) - hopeless(b) || a.milliseconds - b.milliseconds);
  return passing.map(({ index }) => index);
}
