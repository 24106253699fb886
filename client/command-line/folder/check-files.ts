/** Checks many files: what is kept is taken, the rest is worked out over all cores, and what is across files is found at the end. */
import { type Checked, concluded, type FileProvider, type FileResult, type SettingsOf } from '../../../server/api.ts';
import type { Finding } from '../../../shared/finding.ts';
import type { CardFile } from '../files.ts';
import { isInGit } from '../git.ts';
import type { Surroundings } from '../surroundings.ts';
import { type Kept, keptFolder, keptIn, nothingKept } from './kept.ts';
import { type Answer, digestsFrom, type Task, workOut } from './tasks.ts';
import { onThreads } from './threads.ts';

/** Below this a thread costs more than it saves: it has to read the program first. */
const fewestForThreads = 16;

export interface FolderCheck {
  readonly files: readonly CardFile[];
  /** Those of folders that are checked as a whole. */
  readonly whole: readonly string[];
  readonly provider: FileProvider;
  readonly settingsOf: SettingsOf;
  /** Takes and keeps answers. */
  readonly keeps: boolean;
  readonly threads: number;
}

export async function checkFiles(check: FolderCheck, surroundings: Surroundings): Promise<Checked> {
  const kept = keptFor(check, surroundings);
  const results = new Map<string, FileResult | undefined>();
  const names = check.files.map(({ name }) => name);
  for (let files = names; files.length > 0; files = usedBeside(results)) {
    const tasks = files.map((file): Task => ({ kind: 'file', file }));
    const answers = await answersTo(tasks, 'Checking file', { ...check, kept }, surroundings);
    for (const [index, file] of files.entries()) results.set(file, answers[index] as FileResult | undefined);
  }
  const checked = concluded(
    [...results.values()].flatMap((result) => result ?? []),
    check.settingsOf,
    check.whole,
  );
  const tasks = fixTasks(checked.findings);
  const answers = await answersTo(tasks, 'Trying fixes in file', { ...check, kept }, surroundings);
  const sound = new Map(tasks.map(({ file }, index) => [file, [...(answers[index] as Finding[])]]));
  return {
    ...checked,
    findings: checked.findings.map(
      (finding) => (hasFixes(finding) && sound.get(finding.place.file)?.shift()) || finding,
    ),
  };
}

function keptFor(
  { files, provider, settingsOf, keeps }: FolderCheck,
  { folder, program, complain }: Surroundings,
): Kept {
  // One file is checked as fast as it is looked up, and leaves nothing behind.
  if (!keeps || files.length < 2) return nothingKept;
  // Whoever commits it could have written answers that nobody worked out.
  if (isInGit(keptFolder, folder)) {
    complain(`What is kept in ${keptFolder} was added to Git, and is not used: take it out.\n`);
    return nothingKept;
  }
  return keptIn(folder, program(), digestsFrom(provider, settingsOf));
}

function usedBeside(results: ReadonlyMap<string, FileResult | undefined>): string[] {
  const used = new Set([...results.values()].flatMap((result) => result?.uses ?? []));
  return [...used].filter((file) => !results.has(file));
}

const hasFixes = ({ fixes }: Finding) => fixes.length > 0;

function fixTasks(findings: readonly Finding[]) {
  const withFixes = findings.filter(hasFixes);
  const files = [...new Set(withFixes.map(({ place }) => place.file))];
  return files.map((file) => ({
    kind: 'fixes' as const,
    file,
    findings: withFixes.filter(({ place }) => place.file === file),
  }));
}

async function answersTo(
  tasks: readonly Task[],
  doing: string,
  { files, provider, settingsOf, threads, kept }: FolderCheck & { readonly kept: Kept },
  { folder, tell, startThread }: Surroundings,
): Promise<Answer[]> {
  const answers = new Map<Task, Answer>();
  const has = (task: Task, answer: Answer) => {
    answers.set(task, answer);
    tell(doing, answers.size, tasks.length);
  };
  const open = tasks.filter((task) => {
    const found = kept.find(task);
    if (found) has(task, found.answer);
    return !found;
  });
  const done: Parameters<typeof onThreads>[2] = (task, result) => {
    kept.keep(task, result);
    has(task, result.answer);
  };
  const count = Math.min(threads, Math.floor(open.length / (fewestForThreads / 2)));
  if (count > 1 && startThread) {
    const started = Array.from({ length: count }, () => startThread({ folder, files }));
    await onThreads(open, started, done);
  } else for (const task of open) done(task, workOut(task, provider, settingsOf));
  return tasks.map((task) => answers.get(task));
}
