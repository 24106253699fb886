/** Tries fixes before they are offered: a sound one takes its finding away and brings no new error. */
import type { Finding, Fix, TextEdit } from '../shared/finding.ts';
import type { InParts } from '../shared/parts.ts';
import { checkInParts } from './check.ts';
import type { SettingsOf } from './conclusions.ts';
import type { Snapshot } from './snapshot.ts';
import { Workspace } from './workspace.ts';

/** Kept for each fix by itself: an editor gives a question up when the next one comes, and what was tried until then need not be again. */
const tried = new WeakMap<Fix, { readonly snapshot: Snapshot; readonly isSound: boolean }>();

/** The fixes of a finding that are sound as the texts stand. Where more is found than is told nobody could say; then all are. */
export function* soundFixes(finding: Finding, workspace: Workspace, settingsOf: SettingsOf): InParts<readonly Fix[]> {
  const snapshot = workspace.snapshot(finding.place.file);
  if (!snapshot) return finding.fixes;
  const fixes: Fix[] = [];
  for (const fix of finding.fixes) {
    const known = tried.get(fix);
    const isSound =
      known?.snapshot === snapshot ? known.isSound : yield* areSound([{ finding, fix }], workspace, settingsOf);
    tried.set(fix, { snapshot, isSound });
    if (isSound) fixes.push(fix);
  }
  return fixes;
}

/**
 * The most characters that are checked anew for the fixes of one file, as each try is a check of it all: some seconds' worth. What
 * there was no try for is not offered.
 */
const mostChecked = 500_000;

/**
 * The findings with those of their fixes that are sound. Where a file has too many to try each by itself, they are tried together,
 * and by halves where that fails; those that are sound together are taken.
 */
export function* withSoundFixes(
  findings: readonly Finding[],
  workspace: Workspace,
  settingsOf: SettingsOf,
): InParts<Finding[]> {
  const sound = new Set<Fix>();
  const files = [...new Set(findings.map(({ place }) => place.file))];
  for (const file of files) {
    const most = Math.max(1, Math.floor(mostChecked / workspace.textOf(file).length));
    const waiting = firstTries(
      findings.filter(({ place }) => place.file === file),
      most,
    );
    for (let tries = 0; waiting.length > 0 && tries < most; tries++) {
      const together = waiting.shift() as Proposal[];
      if (yield* areSound(together, workspace, settingsOf)) for (const { fix } of together) sound.add(fix);
      else waiting.push(...halves(together));
    }
  }
  return findings.map((finding) => ({ ...finding, fixes: finding.fixes.filter((fix) => sound.has(fix)) }));
}

interface Proposal {
  readonly finding: Finding;
  readonly fix: Fix;
}

/** Each fix by itself where there are no more than may be tried, otherwise together. */
function firstTries(findings: readonly Finding[], most: number): Proposal[][] {
  const together = alternatives(findings);
  const each = together.flat().map((proposal) => [proposal]);
  return each.length <= most ? each : together;
}

/** The first fixes of all findings, then the second, and so on: never two for one finding. */
function alternatives(findings: readonly Finding[]): Proposal[][] {
  const most = Math.max(...findings.map(({ fixes }) => fixes.length));
  return Array.from({ length: most }, (_, index) =>
    findings.flatMap((finding) => {
      const fix = finding.fixes[index];
      return fix ? [{ finding, fix }] : [];
    }),
  );
}

function halves<Some>(some: readonly Some[]): Some[][] {
  const middle = Math.ceil(some.length / 2);
  return some.length > 1 ? [some.slice(0, middle), some.slice(middle)] : [];
}

/** Whether fixes, made together, take away a finding each and bring no new error. */
function* areSound(proposals: readonly Proposal[], workspace: Workspace, settingsOf: SettingsOf): InParts<boolean> {
  const edits = proposals.flatMap(({ fix }) => fix.edits);
  if (overlap(edits)) return false;
  const mended = proposals.map(({ finding }) => finding);
  const files = [...new Set([...mended, ...edits].map(({ place }) => place.file))];
  const { findings: before } = yield* checkInParts(workspace, files, settingsOf);
  if (files.some((file) => before.length >= settingsOf(file).maximumFindings)) return true;
  const { findings: after } = yield* checkInParts(withEdits(workspace, edits), files, settingsOf);
  const goes = ({ code }: Finding) => count(after, code) <= count(before, code) - count(mended, code);
  const reveals = proposals.some(({ fix }) => fix.reveals);
  const told = (all: readonly Finding[]) => (reveals ? all.filter(({ code }) => ofTheText.test(code)) : all);
  return mended.every(goes) && !hasNewError(told(before), told(after));
}

/** What is wrong with the text itself, which no fix may bring whatever comes to light. */
const ofTheText = /^(?:syntax|name|unit|state|crew|internal)\b/;

function count(findings: readonly Finding[], code: string): number {
  return findings.filter((finding) => finding.code === code).length;
}

function overlap(edits: readonly TextEdit[]): boolean {
  return edits.some(({ place: one }, index) =>
    edits
      .slice(0, index)
      .some(({ place: other }) => one.file === other.file && one.start < other.end && other.start < one.end),
  );
}

/** A workspace beside the other in which the edits are made. */
export function withEdits(workspace: Workspace, edits: readonly TextEdit[]): Workspace {
  const beside = new Workspace(workspace.provider, workspace);
  for (const file of new Set(edits.map(({ place }) => place.file))) {
    const inFile = edits.filter(({ place }) => place.file === file);
    beside.setText(file, edited(workspace.textOf(file), inFile));
  }
  return beside;
}

/** Edits made from the last to the first leave the places of the others alone; of insertions at one place the first comes first. */
function edited(text: string, edits: readonly TextEdit[]): string {
  return edits
    .map((edit, order) => ({ ...edit, order }))
    .sort((a, b) => b.place.start - a.place.start || b.order - a.order)
    .reduce((sofar, { place, newText }) => sofar.slice(0, place.start) + newText + sofar.slice(place.end), text);
}

function hasNewError(before: readonly Finding[], after: readonly Finding[]): boolean {
  const left = new Map<string, number>();
  for (const { level, code } of before) if (level === 'error') left.set(code, (left.get(code) ?? 0) + 1);
  for (const { level, code } of after) if (level === 'error') left.set(code, (left.get(code) ?? 0) - 1);
  return [...left.values()].some((count) => count < 0);
}
