import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { format } from '../../server/api.ts';
import { hiddenShown } from '../../shared/hidden.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { type CardFile, findCards, standardInput } from './files.ts';
import { CannotRun, type Surroundings } from './surroundings.ts';
import { writeWhole } from './write-file.ts';

interface FormatOptions {
  readonly write?: boolean;
  readonly check?: boolean;
}

interface Formatted extends CardFile {
  /** Undefined where the text does not parse. */
  readonly formatted: string | undefined;
}

/** A file that does not parse is left as it is. */
export function formatCommand(paths: readonly string[], options: FormatOptions, surroundings: Surroundings): ExitCode {
  const { folder, write, complain, terminal } = surroundings;
  const { files, problems } = findCards(paths, folder);
  for (const problem of problems) complain(`${problem}\n`);
  const all = files.map((file): Formatted => ({ ...file, formatted: format(file.text) }));
  const unread = all.filter(({ formatted }) => formatted === undefined);
  for (const { name } of unread) complain(`"${name}" does not parse and is left as it is. See "cardwright check".\n`);
  const changed = all.filter(({ text, formatted }) => formatted !== undefined && formatted !== text);
  if (options.write || options.check) {
    for (const each of changed) {
      if (options.write) writeFormatted(each, folder);
      write(`${hiddenShown(each.name)}\n`);
    }
  } else for (const { formatted = '' } of all) write(terminal ? hiddenShown(formatted) : formatted);
  if (problems.length > 0 || unread.length > 0) return exitCodes.couldNotRun;
  return options.check && !options.write && changed.length > 0 ? exitCodes.findings : exitCodes.clean;
}

const byteOrderMark = Buffer.from([0xef, 0xbb, 0xbf]);

/** A byte order mark stays where there was one. */
function writeFormatted({ name, formatted = '' }: Formatted, folder: string): void {
  if (name === standardInput) throw new CannotRun('Standard input cannot be written to: leave out --write.');
  const path = resolve(folder, name);
  const marked = readFileSync(path).subarray(0, 3).equals(byteOrderMark);
  writeWhole(path, marked ? Buffer.concat([byteOrderMark, Buffer.from(formatted)]) : formatted);
}
