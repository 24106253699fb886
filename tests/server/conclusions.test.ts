/** What is told of a folder, put together again file by file, is what a check of the whole folder says. */
import { expect, test } from 'vitest';
import { check } from '../../server/check.ts';
import { Conclusions } from '../../server/conclusions.ts';
import { fileResult } from '../../server/file-result.ts';
import type { Workspace } from '../../server/workspace.ts';
import { finish } from '../../shared/parts.ts';
import { defaultSettings } from '../../shared/settings.ts';
import { openFiles } from '../support/check.ts';

const plant = `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve" normally closed
item spare : valve "the spare valve" normally closed
gauge oil "oil pressure" in bar { limit most at most 9 bar }
procedure empty() { step "Listen." }
`;

const card = (number: string, most: number) => `use "plant.card"
card card-${number} "Card ${number}" {
  number "${number}" revision "A" crew mechanic "Mechanic"
  accept safety.left-changed because "The next card shuts it."
  step "Look around."
  step read oil at most ${most} bar
  step set drain open
  do empty()
}`;

const files = { 'plant.card': plant, 'a.card': card('1', 5), 'b.card': card('2', 5.1), 'c.card': card('3', 7) };
const names = Object.keys(files);
const settingsOf = () => defaultSettings;

const textsAfter: Readonly<Record<string, readonly [file: string, from: string, to: string]>> = {
  'a letter': ['a.card', 'around', 'around it'],
  'a letter in what others use': ['plant.card', 'Listen', 'Listen well'],
  'a number that is nearly another’s': ['c.card', '7 bar', '5.2 bar'],
  'a number that was nearly another’s': ['b.card', '5.1 bar', '8 bar'],
  'a step': ['c.card', 'do empty()', 'do empty()\n  step set spare closed'],
  'an acceptance less': ['a.card', 'accept safety.left-changed because "The next card shuts it."', ''],
  'a card with a number that there is': ['c.card', '"3" revision', '"2" revision'],
  'a slip': ['b.card', 'step read', 'step { read'],
};

function put(file: string, workspace: Workspace, conclusions: Conclusions): void {
  const snapshot = workspace.snapshot(file);
  if (snapshot) conclusions.put(finish(fileResult(snapshot, workspace, defaultSettings)));
}

function opened() {
  const { workspace } = openFiles(files);
  const conclusions = new Conclusions(settingsOf);
  for (const file of names) put(file, workspace, conclusions);
  finish(conclusions.lookAcross(names));
  conclusions.changed.clear();
  return { workspace, conclusions };
}

/** The files that are to be told again where a text has become another. */
function after(
  [file, from, to]: readonly [string, string, string],
  { workspace, conclusions }: ReturnType<typeof opened>,
) {
  const before = new Map(names.map((name) => [name, workspace.snapshot(name)]));
  workspace.setText(file, workspace.textOf(file).replace(from, to));
  const stale = names.filter((name) => workspace.snapshot(name) !== before.get(name));
  for (const name of stale) conclusions.forget(name);
  for (const name of stale) put(name, workspace, conclusions);
  finish(conclusions.lookAcross(names));
  const changed = [...conclusions.changed].sort();
  conclusions.changed.clear();
  return changed;
}

test.each(Object.entries(textsAfter))('after %s all files are told as if they were opened anew', (_, change) => {
  const kept = opened();
  const told = new Map(names.map((name) => [name, kept.conclusions.told(name)]));
  const changed = after(change, kept);
  for (const name of changed) told.set(name, kept.conclusions.told(name));
  const anew = check(
    openFiles(Object.fromEntries(names.map((name) => [name, kept.workspace.textOf(name)]))).workspace,
    names,
    settingsOf,
  );
  expect([...told.keys()].sort().flatMap((name) => told.get(name)?.findings ?? [])).toEqual(anew.findings);
  expect([...told.keys()].sort().flatMap((name) => told.get(name)?.accepted ?? [])).toEqual(anew.accepted);
});

test.each([
  ['a letter', ['a.card', 'b.card']],
  ['a number that is nearly another’s', ['c.card']],
  ['a letter in what others use', ['a.card', 'b.card', 'c.card', 'plant.card']],
])('after %s no others are told again than those in which it shows', (change, expected) => {
  expect(after(textsAfter[change] as readonly [string, string, string], opened())).toEqual(expected);
});

test('where a file goes, what was found in it and across it goes', () => {
  const { workspace, conclusions } = opened();
  workspace.forget('b.card');
  conclusions.forget('b.card');
  finish(conclusions.lookAcross(names.filter((name) => name !== 'b.card')));
  expect(conclusions.told('b.card')).toEqual({ findings: [], accepted: [] });
  expect(conclusions.told('a.card').findings).toEqual([]);
});
