/** The one door to the server for the command line and the tests: check, render, format, explain. Reads no disk and knows no editor. */
import { format as formatText } from '../grammar/format.ts';
import { all } from '../grammar/navigate.ts';
import { parse } from '../grammar/parse.ts';
import type { Finding } from '../shared/finding.ts';
import { finish } from '../shared/parts.ts';
import type { Release } from '../shared/release.ts';
import { defaultSettings } from '../shared/settings.ts';
import { resolveUse } from './binding/files.ts';
import { type Checked, check, conclude } from './check.ts';
import { type Comparable, sinceOf } from './compare/compare.ts';
import type { SettingsOf } from './conclusions.ts';
import { type FileResult, fileResult } from './file-result.ts';
import { allFindings, findSort } from './findings/all.ts';
import { helpPage } from './findings/support/help.ts';
import { languagePage } from './language-page/language-page.ts';
import { obstacles, releaseDigest, releaseOf, type Tool } from './release.ts';
import type { RenderInput } from './render/input.ts';
import { renderCard } from './render/render.ts';
import { type CardContext, fileStemOf, type RenderOptions, renderInput } from './render-input.ts';
import { type ReportedCard, reportedCard } from './report/data.ts';
import { rulebookPage } from './rulebooks/page.ts';
import type { Snapshot } from './snapshot.ts';
import { withSoundFixes } from './sound-fixes.ts';
import { type FileProvider, Workspace } from './workspace.ts';

export type { Checked } from './check.ts';
export { comparedCards } from './compare/cards.ts';
export type { Change } from './compare/change.ts';
export { type Comparable, compareCards } from './compare/compare.ts';
export { type ComparedCard, comparePage, standsWords, summary as compareSummary } from './compare/page.ts';
export type { SettingsOf } from './conclusions.ts';
export { type Coverage, coverageOf, coverageWords } from './coverage.ts';
export type { CheckedCard, FileResult } from './file-result.ts';
export type { FindingSort } from './findings/finding.ts';
export { loweredChecks } from './levels.ts';
export { releaseDigest, type Tool } from './release.ts';
export { isOfOneCard, releaseIn, releaseWords } from './release-record.ts';
export { type Traced, tracedIn } from './render/sources.ts';
export type { RenderOptions } from './render-input.ts';
export type { ReportedCard } from './report/data.ts';
export { reportPage, type Written } from './report/page.ts';
export { settingsProblems } from './settings-findings.ts';
export type { FileProvider } from './workspace.ts';

export interface Rendered {
  /** The card's name, and the number and title that a reader knows it by. */
  readonly name: string;
  readonly title: string;
  readonly html: string;
  /** The errors that make it a draft. */
  readonly errors: readonly Finding[];
}

export interface Released extends Rendered {
  readonly release: Release;
  /** Why it is not to be released, each a sentence. */
  readonly obstacles: readonly string[];
}

export interface CardOptions extends Omit<RenderOptions, 'since' | 'release'> {
  /** Only this one. */
  readonly card?: string;
  /** The cards of an older revision: what is otherwise now is marked and listed. */
  readonly older?: readonly Comparable[];
}

export interface Api {
  readonly workspace: Workspace;
  /** The findings of these files and of the files that they use. */
  readonly check: (files: readonly string[]) => Checked;
  /** What is found in one file alone, for `concluded`; undefined where it is not there. */
  readonly fileResult: (file: string) => FileResult | undefined;
  /** Findings of one file with only those fixes that take their finding away and bring no new error. */
  readonly soundFixes: (findings: readonly Finding[]) => readonly Finding[];
  /** All files that what is made of a file rests on, whether they are there or not. Nothing is proved for that. */
  readonly sources: (file: string) => readonly string[];
  /** The cards of a file as they are exported, or one of them. */
  readonly render: (file: string, options?: CardOptions) => readonly Rendered[];
  /** The cards of a file as they are released. */
  readonly release: (file: string, tool: Tool) => readonly Released[];
  /** The cards of a file as they are held against others. */
  readonly comparable: (file: string) => readonly Comparable[];
  /** What a report says of the cards of a file. */
  readonly reported: (file: string) => readonly ReportedCard[];
  /** What they would be released from; nothing is proved or rendered for that. */
  readonly releases: (file: string, tool: Tool) => readonly Release[];
}

export function openWorkspace(provider: FileProvider, settingsOf: SettingsOf = () => defaultSettings): Api {
  const workspace = new Workspace(provider);
  return {
    workspace,
    check: (files) => check(workspace, files, settingsOf),
    fileResult: (file) => {
      const snapshot = workspace.snapshot(file);
      return snapshot && finish(fileResult(snapshot, workspace, settingsOf(file)));
    },
    soundFixes: (findings) => finish(withSoundFixes(findings, workspace, settingsOf)),
    sources: (file) => {
      const snapshot = workspace.snapshot(file);
      if (!snapshot) return [file];
      const used = snapshot.uses.flatMap((path) => workspace.snapshot(path) ?? []);
      return [file, ...snapshot.uses, ...snapshot.missing, ...[snapshot, ...used].flatMap(figuresIn)];
    },
    render: (file, options = {}) => render(workspace, file, settingsOf, options),
    release: (file, tool) => release(workspace, file, settingsOf, tool),
    reported: (file) => contextsOf(workspace, file, settingsOf).map(reportedCard),
    comparable: (file) => contextsOf(workspace, file, settingsOf).map(comparableOf),
    releases: (file, tool) => {
      const snapshot = workspace.snapshot(file);
      if (!snapshot) return [];
      const settings = settingsOf(file);
      return snapshot.bound.cards.map((card) => releaseOf({ workspace, snapshot, card, settings }, tool));
    },
  };
}

/** What a writer is told of files that were checked one by one, with what is found across them; `whole` are those of whole folders. */
export function concluded(results: readonly FileResult[], settingsOf: SettingsOf, whole: readonly string[]): Checked {
  return finish(conclude(results, settingsOf, whole));
}

function figuresIn({ file, parsed }: Snapshot): string[] {
  return all(parsed.file, 'figure').flatMap(({ path }) => (path ? [resolveUse(file, path.value)] : []));
}

function render(
  workspace: Workspace,
  file: string,
  settingsOf: SettingsOf,
  { card: wanted, older, ...options }: CardOptions,
): Rendered[] {
  const contexts = contextsOf(workspace, file, settingsOf);
  const all = older ? contexts.map(comparableOf) : [];
  return contexts
    .map((context, index) => {
      const now = all[index];
      const since = older && now && sinceOf(now, older, all);
      return { context, options: { ...options, ...(since && { since }) } };
    })
    .filter(({ context: { card } }) => wanted === undefined || card.name === wanted)
    .map(({ context, options: own }) => rendered(context, renderInput(context, own)));
}

function comparableOf(context: CardContext): Comparable {
  return { card: context.card, input: () => renderInput(context, {}) };
}

function release(workspace: Workspace, file: string, settingsOf: SettingsOf, tool: Tool): Released[] {
  return contextsOf(workspace, file, settingsOf).map((context) => {
    const made = releaseOf(context, tool);
    const input = renderInput(context, { workCopy: tool.workCopy, release: { made, digest: releaseDigest(made) } });
    return { ...rendered(context, input), release: made, obstacles: obstacles(context, input.findings) };
  });
}

function rendered({ card }: CardContext, input: RenderInput): Rendered {
  const errors = input.findings.filter((finding) => finding.level === 'error');
  return { name: fileStemOf(card), title: card.title, html: renderCard(input), errors };
}

/** Each card of a file, checked. */
function contextsOf(workspace: Workspace, file: string, settingsOf: SettingsOf): CardContext[] {
  const snapshot = workspace.snapshot(file);
  if (!snapshot) return [];
  const { findings, accepted } = check(workspace, [file], settingsOf);
  const settings = settingsOf(file);
  return snapshot.bound.cards.map((card) => ({ workspace, snapshot, card, findings, accepted, settings }));
}

/** A text in the usual layout; undefined where it does not parse and would be changed by guessing. */
export function format(text: string): string | undefined {
  return parse(text).problems.length === 0 ? formatText(text) : undefined;
}

/** The help of a finding, of all findings of a family (`safety`), of the `language`, of a rulebook (`std:lockout`) or of one of its rules; undefined where there is none. */
export function explain(code: string): string | undefined {
  const sort = findSort(code);
  if (sort) return helpPage(sort);
  if (code === 'language') return languagePage();
  if (code.startsWith('std:')) return rulebookPage(code);
  const family = allFindings.filter((one) => one.code.startsWith(`${code}.`));
  return family.length === 0 ? undefined : family.map((one) => `${one.code} (${one.level}): ${one.title}\n`).join('');
}

/** Every finding that there is, for tools that list them. */
export const findingSorts = allFindings;
