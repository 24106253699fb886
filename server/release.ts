/** What a card is released from, and what stands against releasing it. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { type SignOffs, signOffSorts } from '../shared/card.ts';
import type { Finding } from '../shared/finding.ts';
import type { Release } from '../shared/release.ts';
import type { Settings } from '../shared/settings.ts';
import { resolveUse, wayBetween } from './binding/files.ts';
import { statementsIn } from './findings/support/card.ts';
import { loweredChecks } from './levels.ts';
import type { CardContext } from './render-input.ts';

type Sources = Omit<CardContext, 'findings' | 'accepted'>;

/** What makes the page, beside its sources. */
export interface Tool {
  readonly version: string;
  /** The script of the work copy. */
  readonly workCopy: string;
}

const hexDigest = (bytes: Uint8Array) => bytesToHex(sha256(bytes));

export function textDigest(text: string): string {
  return hexDigest(new TextEncoder().encode(text));
}

/** Of everything that a release names: any other source, setting or tool gives another. */
export function releaseDigest(release: Release): string {
  return textDigest(JSON.stringify(release));
}

export function releaseOf(context: Sources, tool: Tool): Release {
  const { card, snapshot, workspace, settings } = context;
  const wayTo = (file: string) => (file.startsWith('std:') ? file : wayBetween(snapshot.file, file));
  const texts = snapshot.bound.files.map((file): [string, string] => [wayTo(file), plainText(workspace.textOf(file))]);
  return {
    tool: { version: tool.version, workCopy: textDigest(tool.workCopy) },
    card: card.name,
    file: wayTo(snapshot.file),
    number: card.number?.text ?? '',
    revision: card.revision?.text ?? '',
    ...(card.revision?.date !== undefined && { date: card.revision.date }),
    texts: sorted(texts),
    figures: sorted(figures(context).map(([file, bytes]) => [wayTo(file), hexDigest(bytes)])),
    settings: settingsThatCount(settings),
  };
}

/** Systems for versions write the ends of lines as a machine has them. */
function plainText(text: string): string {
  return text.replaceAll('\r\n', '\n');
}

function sorted<Value>(entries: readonly (readonly [string, Value])[]): Record<string, Value> {
  return Object.fromEntries([...entries].sort(([one], [other]) => (one < other ? -1 : 1)));
}

function figures({ card, workspace }: Sources): [string, Uint8Array][] {
  return [...statementsIn(card.body)].flatMap((statement) => {
    if (statement.type !== 'figure') return [];
    const file = resolveUse(statement.place.file, statement.path);
    const bytes = workspace.provider.readBytes?.(file);
    return bytes ? [[file, bytes]] : [];
  });
}

/** Where files lie is another thing on each machine; what they say is in the release. Hints are only shown in an editor. */
function settingsThatCount({ useFolders: _, hints: __, ...settings }: Settings): Release['settings'] {
  return sorted(Object.entries(settings));
}

/** Why a card is not to be released, each a sentence. Its errors and warnings are the findings that stand. */
export function obstacles({ card, settings }: CardContext, findings: readonly Finding[]): string[] {
  const lowered = loweredChecks(settings);
  return [
    ...standing(findings),
    ...(lowered.length > 0
      ? [`The settings switch off or lower checks (${lowered.join(', ')}). Take that back for a release.`]
      : []),
    ...(card.revision ? [] : ['It has no revision. Give it one, such as revision "A".']),
    ...(settings.signOff === 'three people' ? missingPeople(card.signOffs) : []),
  ];
}

function standing(findings: readonly Finding[]): string[] {
  const count = (level: Finding['level']) => findings.filter((finding) => finding.level === level).length;
  const [errors, warnings] = [count('error'), count('warning')];
  return [
    ...(errors > 0 ? [`It has ${errors === 1 ? 'an error' : `${errors} errors`}. Mend ${them(errors)}.`] : []),
    ...(warnings > 0
      ? [`It has ${warnings === 1 ? 'a warning' : `${warnings} warnings`}. Mend or accept ${them(warnings)}.`]
      : []),
  ];
}

const them = (count: number) => (count === 1 ? 'it' : 'them');

function missingPeople(signOffs: SignOffs): string[] {
  const missing = signOffSorts.filter((sort) => signOffs[sort]?.date === undefined);
  if (missing.length > 0)
    return [`It does not say by whom and when it was ${missing.join(', ')}. The settings ask it.`];
  const names = signOffSorts.map((sort) => (signOffs[sort]?.text ?? '').trim().toLowerCase());
  return new Set(names).size < names.length
    ? ['It was prepared, checked and approved by fewer than three people. The settings ask three.']
    : [];
}
