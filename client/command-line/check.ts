import { loweredChecks, openWorkspace, type SettingsOf } from '../../server/api.ts';
import type { Finding } from '../../shared/finding.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { type CardFile, diskProvider, findCards } from './files.ts';
import { checkFiles } from './folder/check-files.ts';
import { partOf, type Shard } from './folder/shard.ts';
import { onEachChange } from './folder/watch.ts';
import { changedSince, isTouched } from './git.ts';
import { type Report, reportOf } from './report.ts';
import { jsonReport } from './report-json.ts';
import { sarifReport } from './report-sarif.ts';
import { textReport } from './report-text.ts';
import { settingsFrom } from './settings.ts';
import type { Surroundings } from './surroundings.ts';

interface CheckOptions {
  readonly format: 'text' | 'json' | 'sarif';
  readonly strict?: boolean;
  readonly notFollowed?: boolean;
  /** Since this commit, or since the last one. */
  readonly changed?: string | true;
  readonly shard?: Shard;
  readonly watch?: boolean;
  readonly threads: number;
  readonly cache: boolean;
}

type Reporter = (report: Report, surroundings: Surroundings, listed?: boolean) => string;

const reports: Readonly<Record<CheckOptions['format'], Reporter>> = {
  text: textReport,
  json: jsonReport,
  sarif: sarifReport,
};

export async function checkCommand(
  paths: readonly string[],
  options: CheckOptions,
  surroundings: Surroundings,
): Promise<ExitCode> {
  if (!options.watch) return (await checkOnce(paths, options, surroundings)).code;
  return onEachChange(paths, () => checkOnce(paths, options, surroundings), surroundings);
}

interface CheckedOnce {
  readonly code: ExitCode;
  /** The files that were looked at. */
  readonly files: readonly string[];
}

async function checkOnce(
  paths: readonly string[],
  options: CheckOptions,
  surroundings: Surroundings,
): Promise<CheckedOnce> {
  const { folder, write, complain } = surroundings;
  const found = findCards(paths, folder);
  const settingsOf = settingsFrom(surroundings);
  const provider = diskProvider(folder, found.files);
  const api = openWorkspace(provider, settingsOf);
  const files = chosen(found.files, options, surroundings);
  const empty = files
    .filter(({ text }) => text.trim() === '')
    .map(({ name }) => `There is nothing to check in "${name}".`);
  for (const problem of [...found.problems, ...empty]) complain(`${problem}\n`);
  const names = files.map(({ name }) => name);
  if (files.length === empty.length && (files.length > 0 || found.files.length === 0))
    return { code: exitCodes.couldNotRun, files: names };
  const { threads, cache } = options;
  const whole = files.length === found.files.length ? found.inFolders : [];
  const checked = await checkFiles({ files, whole, provider, settingsOf, threads, keeps: cache }, surroundings);
  for (const line of loweredIn(checked.files, settingsOf)) complain(line);
  write(reports[options.format](reportOf(checked, api.workspace.textOf), surroundings, options.notFollowed));
  if (found.problems.length > 0) return { code: exitCodes.couldNotRun, files: checked.files };
  const code = fails(checked.findings, options.strict ?? false) ? exitCodes.findings : exitCodes.clean;
  return { code, files: checked.files };
}

/** Those of the files that are asked for. None may be left, and that is no fault. */
function chosen(
  files: readonly CardFile[],
  { changed, shard }: CheckOptions,
  { folder }: Surroundings,
): readonly CardFile[] {
  const part = shard ? partOf(files, shard) : files;
  if (changed === undefined) return part;
  const changes = changedSince(changed === true ? 'HEAD' : changed, folder);
  const provider = diskProvider(folder, files);
  return part.filter(({ name }) => isTouched(openWorkspace(provider).sources(name), changes, folder));
}

/** Nothing found is no all-clear where nobody looked. */
function loweredIn(files: readonly string[], settingsOf: SettingsOf): readonly string[] {
  const checks = new Set(files.flatMap((file) => loweredChecks(settingsOf(file))));
  return checks.size === 0
    ? []
    : [`The settings switch off or lower checks (${[...checks].join(', ')}): cards are drafts until they are back.\n`];
}

function fails(findings: readonly Finding[], strict: boolean): boolean {
  return findings.some((finding) => strict || finding.level === 'error');
}
