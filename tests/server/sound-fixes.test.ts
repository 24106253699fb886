import { describe, expect, test } from 'vitest';
import { soundFixes } from '../../server/sound-fixes.ts';
import type { Card } from '../../shared/card.ts';
import type { Finding } from '../../shared/finding.ts';
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
  expect(sound).toEqual(['Insert: step set lid open, and later: step set lid closed']);
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

describe('all fixes of a check', () => {
  /** The titles of what is left of the fixes, finding by finding, for those of one code. */
  const left = (text: string, code: string, changed: Partial<Settings> = {}) => {
    const api = openText(text, { settings: changed });
    const findings = api.soundFixes(api.check([mainFile]).findings);
    return findings.filter((finding) => finding.code === code).map(({ fixes }) => fixes.map(({ title }) => title));
  };
  /** The drain is opened again and again, with the lid closed. */
  const opened = (count: number) =>
    `  step set drain open\n  step set drain closed\n  step ensure lid closed\n`.repeat(count);
  const fix = 'Insert: step set lid open';
  const tap = `item tap : valve "the tap" normally closed\nrule dry "Dry" { before lid open require tap closed }\n`;
  const wet = `  step set tap open\n${opened(1)}  step set tap closed\n`;
  /** So much text that not every fix can be tried by itself. */
  const comment = `// ${'-'.repeat(30_000)}\n`;

  test.each(['', comment])('one that is not sound is found among others', (before) => {
    const body = opened(20) + wet + opened(10);
    const expected = [...Array(20).fill([fix]), [], ...Array(10).fill([fix])];
    expect(left(before + machine + tap + card(body), 'safety.rule')).toEqual(expected);
  });

  test.each(['', comment])('two fixes for one finding are tried apart', (before) => {
    const roles = 'card trial "Trial" { number "1" revision "A" crew a "Ann", b "Bea"\n';
    const fixes = ['Let Ann do this step', 'Let Bea do this step'];
    expect(left(`${before}${roles}${'step "Look."\n'.repeat(10)}}`, 'crew.missing')).toEqual(Array(10).fill(fixes));
  });

  test('what there was no try for is not offered', () => {
    const never = 'rule dry "Dry" { before lid open require drain open }\n';
    expect(left(comment.repeat(10) + machine + never + card(opened(1)), 'safety.rule')).toEqual([[]]);
    expect(left(comment.repeat(10) + machine + card(opened(1)), 'safety.rule')).toEqual([[fix]]);
    expect(left(comment.repeat(10) + machine + tap + card(opened(3) + wet), 'safety.rule')).toEqual([[], [], [], []]);
  });

  test('where more is found than is told, all are kept as they stand', () => {
    const never = 'rule never "Never" { before lid open require drain open }\n';
    expect(left(machine + never + card(opened(1)), 'safety.rule', { maximumFindings: 1 })).toEqual([[fix]]);
  });

  test('the fixes of findings in several files', () => {
    const api = openFiles({
      'other.card': machine + card(opened(1)).replace('trial "Trial" { number "1"', 'other "Other" { number "2"'),
      [mainFile]: `use "other.card"\n${card(opened(1))}`,
    });
    const findings = api.soundFixes(api.check([mainFile]).findings);
    expect(findings.map(({ place, fixes }) => [place.file, fixes.length])).toEqual([
      [mainFile, 1],
      ['other.card', 1],
    ]);
  });
});

test('a fix of words is tried with what is proved, and leaves all that is known of the texts as it was', () => {
  const files = { 'machine.card': machine, [mainFile]: `use "machine.card"\n${card('  step "Utilize a lamp."')}` };
  const { workspace, check } = openFiles(files);
  const { findings } = check([mainFile]);
  const before = workspace.snapshot(mainFile);
  const proof = before?.proof(before.bound.cards[0] as Card, defaultSettings);
  const [utilize] = findings.filter(({ code }) => code === 'prose.word');
  const sound = finish(soundFixes(utilize as Finding, workspace, () => defaultSettings));
  expect(sound.map(({ title }) => title)).toEqual(['Write “Use”']);
  expect(workspace.snapshot(mainFile)).toBe(before);
  expect(before?.proof(before.bound.cards[0] as Card, defaultSettings)).toBe(proof);
  expect(check([mainFile]).findings).toEqual(findings);
});
