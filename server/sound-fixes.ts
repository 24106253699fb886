/** Tries fixes before they are offered: a sound one takes its finding away and brings no new error. */
import type { Finding, Fix, TextEdit } from '../shared/finding.ts';
import type { InParts } from '../shared/parts.ts';
import { checkInParts, type SettingsOf } from './check.ts';
import type { Snapshot } from './snapshot.ts';
import { Workspace } from './workspace.ts';

const tried = new WeakMap<Finding, { readonly snapshot: Snapshot; readonly fixes: readonly Fix[] }>();

/** The fixes of a finding that are sound as the texts stand. Where more is found than is told nobody could say; then all are. */
export function* soundFixes(finding: Finding, workspace: Workspace, settingsOf: SettingsOf): InParts<readonly Fix[]> {
  const snapshot = workspace.snapshot(finding.place.file);
  if (!snapshot || finding.fixes.length === 0) return finding.fixes;
  const known = tried.get(finding);
  if (known?.snapshot === snapshot) return known.fixes;
  const fixes: Fix[] = [];
  for (const fix of finding.fixes) if (yield* isSound(fix, finding, workspace, settingsOf)) fixes.push(fix);
  tried.set(finding, { snapshot, fixes });
  return fixes;
}

function* isSound(
  { edits }: Fix,
  { code, place }: Finding,
  workspace: Workspace,
  settingsOf: SettingsOf,
): InParts<boolean> {
  const files = [...new Set([place.file, ...edits.map((edit) => edit.place.file)])];
  const { findings: before } = yield* checkInParts(workspace, files, settingsOf);
  if (before.length >= settingsOf(place.file).maximumFindings) return true;
  const { findings: after } = yield* checkInParts(withEdits(workspace, edits), files, settingsOf);
  const count = (findings: readonly Finding[]) => findings.filter((finding) => finding.code === code).length;
  return count(after) < count(before) && !hasNewError(before, after);
}

/** A workspace beside the other in which the edits are made. */
function withEdits(workspace: Workspace, edits: readonly TextEdit[]): Workspace {
  const beside = new Workspace({
    ...workspace.provider,
    readText: (file) => workspace.snapshot(file)?.text,
  });
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
