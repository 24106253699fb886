import { mkdtempSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver';
import { Client, type ClientOptions } from './support/client.ts';

const faulty = `kind breaker { closed "Close {}", pulled "Pull {}" }
item ignition : breaker "the ignition breaker" normally closed
card wash "Wash" {
  number "2" revision "A"
  crew mechanic "Mechanic"
  step set ignition pulled
}
`;

const withSettings = (settings: string, more: Partial<ClientOptions> = {}) =>
  Client.start({ files: { 'cardwright.json': settings, 'a.card': faulty }, ...more });

const severities = (findings: readonly Diagnostic[]) => findings.map(({ code, severity }) => [code, severity]);
const untilSeverities = (client: Client, expected: unknown[]) =>
  client.untilFindings('a.card', severities, expected as ReturnType<typeof severities>);

const untilLowered = (client: Client, expected: readonly string[]) =>
  client.told(() => client.checked.get(client.uri('a.card'))?.lowered.join() === expected.join() || undefined);

const error = ['safety.left-changed', 1];
const warning = ['safety.left-changed', 2];

describe('what settings switch off or lower', () => {
  it('is told to the editor with the findings of the card, and taken back', async () => {
    const client = await withSettings('{ "levels": { "safety": "off" } }');
    await untilLowered(client, ['safety: off']);
    expect(await client.findings('a.card')).toEqual([]);
    await client.writeFile('cardwright.json', '{}');
    await untilLowered(client, []);
    await client.stop();
  });

  it('is told where the findings themselves stay the same', async () => {
    const client = await withSettings('{}');
    await untilLowered(client, []);
    await client.writeFile('cardwright.json', '{ "levels": { "duty": "off" } }');
    await untilLowered(client, ['duty: off']);
    await client.stop();
  });
});

it('settings above the folder that is opened hold for it, as they do for the command line', async () => {
  const files = { 'cardwright.json': '{ "levels": { "safety": "warning" } }', 'plant/cards/a.card': faulty };
  const client = await Client.start({ files, root: 'plant/cards' });
  await client.untilFindings('plant/cards/a.card', severities, [warning] as ReturnType<typeof severities>);
  await client.stop();
});

it('what is wrong with settings above the folder that is opened is told', async () => {
  const client = await Client.start({ files: { 'cardwright.json': '{', 'plant/a.card': faulty }, root: 'plant' });
  expect(await client.findings('cardwright.json')).toHaveLength(1);
  await client.stop();
});

describe('the settings of a folder that is not trusted', () => {
  const untrusted = { options: { isTrusted: false } };

  it('lower nothing and hide nothing until it is', async () => {
    const client = await withSettings('{ "levels": { "safety": "warning" } }', untrusted);
    await untilSeverities(client, [error]);
    await untilLowered(client, []);
    await client.connection.sendNotification('cardwright/trusted');
    await untilSeverities(client, [warning]);
    await client.stop();
  });

  it('raise what the writer has lowered', async () => {
    const client = await withSettings('{ "levels": { "safety": "error" } }', {
      ...untrusted,
      settings: { levels: { safety: 'warning' } },
    });
    await untilSeverities(client, [error]);
    await client.writeFile('cardwright.json', '{}');
    await untilSeverities(client, [warning]);
    await client.stop();
  });
});

describe('a settings file that cannot be used', () => {
  const told = (findings: readonly Diagnostic[]) =>
    findings.map(({ range, message }) => [range.start.character, message]);

  it.each([
    ['{', [[0, expect.stringContaining('no JSON')]]],
    ['[]', [[0, 'The settings are not an object: write { "setting": value }.']]],
    ['{ "paper": "A4", "speed": 3 }', [[17, 'There is no setting "speed". The default is used.']]],
    ['{ "paper": "A9" }', [[2, '"paper" must be one of A4, Letter, printer. The default is used.']]],
    ['{ "paper": "A4" }', []],
    [
      '{ "levels": { "safty": "off" } }',
      [[14, 'There is no finding "safty": did you mean "safety"? It changes nothing.']],
    ],
    ['{ "levels": { "syntax": "off" } }', [[14, 'The level of "syntax" cannot be changed.']]],
  ])('is told at its place: %s', async (settings, expected) => {
    const client = await withSettings(settings);
    expect(told(await client.findings('cardwright.json'))).toEqual(expected);
    await untilSeverities(client, [error]);
    await client.stop();
  });

  it('is told where it is too large to be read', async () => {
    const prepare = (folder: string) => writeFileSync(join(folder, 'cardwright.json'), ' '.repeat(30_000_000));
    const client = await Client.start({ files: { 'a.card': faulty }, prepare });
    expect(told(await client.findings('cardwright.json'))).toEqual([[0, expect.stringContaining('cannot be read')]]);
    await untilSeverities(client, [error]);
    await client.stop();
  });

  it('holds where it is a link, and is told where that leads out of the folder', async () => {
    const outside = join(mkdtempSync(join(tmpdir(), 'cardwright-outside-')), 'other.json');
    writeFileSync(outside, '{ "levels": { "safety": "off" } }');
    const prepare = (folder: string) => {
      symlinkSync(join(folder, 'shop.json'), join(folder, 'cardwright.json'));
      symlinkSync(outside, join(folder, 'out/cardwright.json'));
    };
    const files = {
      'a.card': faulty,
      'shop.json': '{ "levels": { "safety": "warning" } }',
      'out/b.card': faulty.replace('"1"', '"2"'),
    };
    const client = await Client.start({ files, prepare });
    await untilSeverities(client, [warning]);
    expect(told(await client.findings('out/cardwright.json'))).toEqual([[0, expect.stringContaining('outside')]]);
    await client.stop();
  });

  it('is quiet again when it is mended', async () => {
    const client = await withSettings('{');
    expect(await client.findings('cardwright.json')).toHaveLength(1);
    await client.writeFile('cardwright.json', '{}');
    await client.untilFindings('cardwright.json', told, []);
    await client.stop();
  });
});

it('the word list that settings name is followed as it changes, and is told where it is not there', async () => {
  const card = 'card a "A" { number "1" revision "A" crew f "F" step "Lift the kettle." }';
  const client = await Client.start({
    files: { 'cardwright.json': '{ "wordList": "shop.words" }', 'shop.words': 'kettle -> bowl', 'a.card': card },
  });
  const codes = (findings: readonly Diagnostic[]) => findings.map(({ code }) => code);
  await client.untilFindings('a.card', codes, ['prose.word']);
  await client.writeFile('shop.words', 'kettle');
  await client.untilFindings('a.card', codes, []);
  await client.writeFile('cardwright.json', '{ "wordList": "gone.words" }');
  await client.untilFindings('cardwright.json', codes, ['settings.unusable']);
  await client.stop();
});
