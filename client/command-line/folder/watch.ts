/** Does something again whenever a file changes that it may rest on. */
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { basename, resolve, sep } from 'node:path';
import { watch } from 'chokidar';
import { isDynamicPattern } from 'tinyglobby';
import { type ExitCode, exitCodes } from '../exit-codes.ts';
import { settingsFile } from '../settings.ts';
import { CannotRun, type Surroundings } from '../surroundings.ts';

interface Run {
  readonly code: ExitCode;
  /** What it has looked at, beside the paths. */
  readonly files: readonly string[];
}

/** Goes on until it is ended; then it gives the last code. */
export async function onEachChange(
  paths: readonly string[],
  run: () => Promise<Run>,
  { folder, complain, ends }: Surroundings,
): Promise<ExitCode> {
  const targets = paths.map((path) => (isDynamicPattern(path) ? folder : resolve(folder, path)));
  const watcher = watch(targets, { ignoreInitial: true, ignored: isLeft });
  let stale = true;
  let wake = () => {};
  watcher.on('all', (_, path) => {
    if (!counts(path)) return;
    stale = true;
    wake();
  });
  ends?.addEventListener('abort', () => wake());
  await once(watcher, 'ready');
  let code: ExitCode = exitCodes.clean;
  while (!ends?.aborted) {
    if (stale) {
      stale = false;
      code = await again();
      complain('Waiting for a change. Ctrl+C ends this.\n');
    } else
      await new Promise<void>((changed) => {
        wake = changed;
      });
  }
  await watcher.close();
  return code;

  /** What cannot be run now may be mended with the next change. */
  async function again(): Promise<ExitCode> {
    try {
      const { code: ended, files } = await run();
      const beside = [...files, settingsFile].map((file) => resolve(folder, file));
      watcher.add(beside.filter((file) => existsSync(file) && !isWatched(file)));
      return ended;
    } catch (error) {
      if (!(error instanceof CannotRun)) throw error;
      complain(`${error.message}\n`);
      return exitCodes.couldNotRun;
    }
  }

  /** Then it would be looked at anew, and a change meanwhile be missed. */
  function isWatched(file: string): boolean {
    return targets.some((at) => file === at || file.startsWith(at + sep));
  }

  /** Where a search for cards does not look either. */
  function isLeft(path: string): boolean {
    return path.startsWith(folder) && /[/\\](?:node_modules|\.[^/\\]+)(?:[/\\]|$)/.test(path.slice(folder.length));
  }
}

/** Cards, figures, settings and word lists. What else changes, such as a report that is written there, is no reason to look again. */
function counts(path: string): boolean {
  return /\.(?:card|words|png|jpe?g|svg)$/i.test(path) || basename(path) === settingsFile;
}
