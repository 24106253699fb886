import { expect, test } from 'vitest';
import { soundFixes } from '../../server/sound-fixes.ts';
import { finish } from '../../shared/parts.ts';
import { defaultSettings, type Settings } from '../../shared/settings.ts';
import { mainFile, openFiles, openText } from '../support/check.ts';

const machine = `
kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain" normally closed
item lid : valve "the lid" normally closed
rule lid-first "Lid first" { before drain open require lid open }
`;
const card = (body: string) => `card trial "Trial" { number "1" revision "A" crew a "Ann"\n${body}\n}`;

/** The titles of the sound fixes for the first finding of a code, and of all that it has. */
function titles(text: string, code: string, changed: Partial<Settings> = {}): { sound: string[]; all: string[] } {
  const settings = { ...defaultSettings, ...changed };
  const api = openText(text, { settings });
  const found = api.check([mainFile]).findings.find((finding) => finding.code === code);
  if (!found) throw new Error(`no ${code}`);
  const sound = finish(soundFixes(found, api.workspace, () => settings));
  return { sound: sound.map(({ title }) => title), all: found.fixes.map(({ title }) => title) };
}

test('a fix that takes its finding away and brings no error is sound', () => {
  const { sound, all } = titles(machine + card('  step set drain open\n  step set drain closed'), 'safety.rule');
  expect(sound).toEqual(all);
  expect(sound).toEqual(['Insert: step set lid open']);
});

test('one that breaks another rule is not', () => {
  const never = 'rule never "Never" { before lid open require drain open }\n';
  const { sound, all } = titles(
    machine + never + card('  step set drain open\n  step set drain closed'),
    'safety.rule',
  );
  expect(all).toHaveLength(1);
  expect(sound).toEqual([]);
});

test('one that leaves its finding is not', () => {
  const both = 'rule both "Both" { before drain open require lid closed and lid open }\n';
  const { sound, all } = titles(
    machine.replace(/rule.*\n/, both) + card('  step set drain open\n  step set drain closed'),
    'safety.rule',
  );
  expect(all).toHaveLength(1);
  expect(sound).toEqual([]);
});

test('where more is found than is told, all are offered as they stand', () => {
  const never = 'rule never "Never" { before lid open require drain open }\n';
  const text = machine + never + card('  step set drain open\n  step set drain closed');
  expect(titles(text, 'safety.rule', { maximumFindings: 1 }).sound).toHaveLength(1);
});

test('fixes are tried again when another file changes what they bring about', () => {
  const files = (rule: string) => ({
    'machine.card': machine + rule,
    [mainFile]: `use "machine.card"\n${card('  step set drain open\n  step set drain closed')}`,
  });
  const api = openFiles(files(''));
  const [finding] = api.check([mainFile]).findings;
  const sound = () => (finding ? finish(soundFixes(finding, api.workspace, () => defaultSettings)).length : undefined);
  expect(sound()).toBe(1);
  api.workspace.setText(
    'machine.card',
    files('rule never "Never" { before lid open require drain open }')['machine.card'],
  );
  expect(sound()).toBe(0);
});
