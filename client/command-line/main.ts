/** The command line as a process. */
import { readFileSync, realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { parentPort, Worker, workerData } from 'node:worker_threads';
import { hiddenShown } from '../../shared/hidden.ts';
import { exitCodes } from './exit-codes.ts';
import { digest } from './folder/tasks.ts';
import { serveTasks } from './folder/threads.ts';
import { runCommandLine } from './run.ts';
import { canBeWiped } from './status-line.ts';

const program = realpathSync(process.argv[1] as string);

/** What the build lays beside the bundle. */
const besideProgram = (name: string): string => readFileSync(join(dirname(program), name), 'utf8');

if (parentPort) serveTasks(parentPort, workerData);
else run().catch(breakOff);

async function run(): Promise<void> {
  // A reader that has seen enough (`| head`) closes the pipe: that is no fault. Whatever else is wrong with it is said.
  process.stdout.on('error', ({ code, message }: NodeJS.ErrnoException) => {
    if (code !== 'EPIPE') process.stderr.write(`What was found could not be written: ${message}\n`);
    process.exit(code === 'EPIPE' ? process.exitCode : exitCodes.couldNotRun);
  });
  process.stderr.on('error', () => process.exit(exitCodes.couldNotRun));

  process.exitCode = await runCommandLine(process.argv.slice(2), {
    folder: process.cwd(),
    write: (text) => process.stdout.write(text),
    complain: (text) => process.stderr.write(text),
    workCopy: () => besideProgram('work-copy.js'),
    reportScript: () => besideProgram('report.js'),
    terminal: process.stdout.isTTY === true,
    ...(canBeWiped(process.stderr.isTTY, process.env) && { status: (text) => process.stderr.write(text) }),
    program: () => digest(readFileSync(program)),
    startThread: (data) => new Worker(program, { workerData: data }),
    colours: process.stdout.isTTY === true && !process.env.NO_COLOR,
  });
}

/** A fault of this program, which says nothing of the cards: whoever asks by the exit code must not take it for findings. */
function breakOff(error: unknown): void {
  process.stderr.write(hiddenShown(`${error instanceof Error ? error.stack : String(error)}\n`));
  process.exitCode = exitCodes.couldNotRun;
}
