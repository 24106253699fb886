import { loweredChecks, openWorkspace, type SettingsOf } from '../../server/api.ts';
import type { Finding } from '../../shared/finding.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { diskProvider, findCards } from './files.ts';
import { type Report, reportOf } from './report.ts';
import { jsonReport } from './report-json.ts';
import { sarifReport } from './report-sarif.ts';
import { textReport } from './report-text.ts';
import { settingsFrom } from './settings.ts';
import type { Surroundings } from './surroundings.ts';

interface CheckOptions {
  readonly format: 'text' | 'json' | 'sarif';
  readonly strict?: boolean;
}

const reports: Readonly<Record<CheckOptions['format'], (report: Report, surroundings: Surroundings) => string>> = {
  text: textReport,
  json: jsonReport,
  sarif: sarifReport,
};

export function checkCommand(paths: readonly string[], options: CheckOptions, surroundings: Surroundings): ExitCode {
  const { folder, write, complain, tell } = surroundings;
  const { files, problems } = findCards(paths, folder);
  const empty = files
    .filter(({ text }) => text.trim() === '')
    .map(({ name }) => `There is nothing to check in "${name}".`);
  for (const problem of [...problems, ...empty]) complain(`${problem}\n`);
  if (files.length === empty.length) return exitCodes.couldNotRun;
  const settingsOf = settingsFrom(surroundings);
  const api = openWorkspace(diskProvider(folder, files), settingsOf);
  const checked = api.tryFixes(
    api.check(
      files.map(({ name }) => name),
      (number, of) => tell('Checking file', number, of),
    ),
    (number, of) => tell('Trying fixes in file', number, of),
  );
  for (const line of loweredIn(checked.files, settingsOf)) complain(line);
  write(reports[options.format](reportOf(checked, api.workspace.textOf), surroundings));
  if (problems.length > 0) return exitCodes.couldNotRun;
  return fails(checked.findings, options.strict ?? false) ? exitCodes.findings : exitCodes.clean;
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
