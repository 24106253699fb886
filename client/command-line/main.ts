/** The command line as a process. */
import { readFileSync, realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { runCommandLine } from './run.ts';

/** What the build lays beside the bundle. */
function besideProgram(name: string): string {
  return readFileSync(join(dirname(realpathSync(process.argv[1] as string)), name), 'utf8');
}

process.exitCode = runCommandLine(process.argv.slice(2), {
  folder: process.cwd(),
  write: (text) => process.stdout.write(text),
  complain: (text) => process.stderr.write(text),
  workCopy: () => besideProgram('work-copy.js'),
  colours: process.stdout.isTTY === true && !process.env.NO_COLOR,
});
