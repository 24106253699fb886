/** What a reviewer is shown in the editor: whether a card is as it was released, an older one beside it, and all cards. */
import { expect, it } from 'vitest';
import type { CodeLens } from 'vscode-languageserver';
import { openWorkspace } from '../../../server/api.ts';
import type { Compared, CompareParams } from '../../../shared/protocol.ts';
import { recordIn } from '../../../shared/release.ts';
import { Client } from './support/client.ts';

const plant = `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve" normally closed
`;
const card = (revision: string, text: string) => `use "plant.card"
card wash "Wash" {
  number "W-1"
  revision "${revision}"
  crew mechanic "Mechanic"
  step "${text}" set drain open
  step set drain closed
}
`;

/** The record in the page of the card as it is released from these texts. */
function record(texts: Readonly<Record<string, string>>): string {
  const [released] = openWorkspace({ readText: (file) => texts[file] }).release('wash.card', {
    version: '1',
    workCopy: '',
  });
  return recordIn(released?.html ?? '') ?? '';
}

async function start(text: string, files: Readonly<Record<string, string>> = {}) {
  const client = await Client.start({ files: { 'plant.card': plant, ...files }, options: { commands: true } });
  await client.open('wash.card', text);
  await client.findings('wash.card');
  return client;
}

const lenses = async (client: Client) =>
  (await client.request<CodeLens[]>('textDocument/codeLens', 'wash.card'))
    .map(({ command }) => command)
    .filter((command) => !command?.title.startsWith('the proof follows'));

const compare = (client: Client, older?: CompareParams['older']) =>
  client.connection.sendRequest<Compared>('cardwright/compare', { uri: client.uri('wash.card'), older });

it.each([
  ['as it was released', card('B', 'Drain it.'), plant, 'released as B'],
  ['changed since', card('B', 'Drain it well.'), plant, 'released as B, changed since'],
  ['changed in its equipment', card('B', 'Drain it.'), `${plant}// more\n`, 'released as B, changed since'],
  ['a newer one', card('C', 'Drain it well.'), plant, 'not released as C; released as B'],
])('over a card stands whether it is %s', async (_, text, equipment, title) => {
  const client = await start(text, { 'plant.card': equipment });
  expect(await lenses(client)).toHaveLength(1);
  const records = [record({ 'wash.card': card('B', 'Drain it.'), 'plant.card': plant }), 'no record'];
  await client.connection.sendNotification('cardwright/releases', { records });
  expect((await lenses(client))[1]).toMatchObject({ title, command: 'cardwright.compare' });
  await client.connection.sendNotification('cardwright/releases', { records: [] });
  expect(await lenses(client)).toHaveLength(1);
  await client.stop();
});

it('a card is compared with an older text, and with what that used then', async () => {
  const client = await start(card('B', 'Drain it well.'));
  const uri = client.uri('wash.card');
  const texts = { [uri]: card('A', 'Drain it.') };
  const needs = await compare(client, { uri, texts });
  expect(needs).toEqual({ type: 'needs', uris: [client.uri('plant.card')] });
  const then = { ...texts, [client.uri('plant.card')]: plant.replace('the drain valve', 'the drain cock') };
  const page = await compare(client, { uri, texts: then });
  expect(page).toMatchObject({ type: 'page', html: expect.stringContaining('Drain it well.') });
  expect(page).toMatchObject({ html: expect.stringContaining('the drain cock') });
  expect(page).toMatchObject({ html: expect.not.stringContaining('file:') });
  const gone = await compare(client, { uri, texts: { ...texts, [client.uri('plant.card')]: null } });
  expect(gone).toMatchObject({ type: 'page' });
  const empty = await compare(client, { uri, texts: { [uri]: '' } });
  expect(empty).toEqual({ type: 'nothing', why: 'There is no card in the older text.' });
  await client.stop();
});

it('a card is compared with its last release, where there is one', async () => {
  const client = await start(card('B', 'Drain it well.'));
  expect(await compare(client)).toMatchObject({ type: 'nothing' });
  const records = [record({ 'wash.card': card('A', 'Drain it.'), 'plant.card': plant })];
  await client.connection.sendNotification('cardwright/releases', { records });
  expect(await compare(client)).toMatchObject({ type: 'page', html: expect.stringContaining('Drain it well.') });
  await client.stop();
});

it('the report tells of all cards of the workspace, open or not, by their paths in it', async () => {
  const other = card('A', 'Drain it.').replace('"W-1"', '"W-2"').replace('set drain closed', 'set drain opne');
  const client = await start(card('B', 'Drain it.'), { 'more/other.card': other.replace('plant', '../plant') });
  const html = await client.connection.sendRequest<string>('cardwright/report', { script: '/* the script */' });
  for (const words of ['W-1', 'W-2', 'more/other.card', 'name.unknown', '/* the script */'])
    expect(html).toContain(words);
  expect(html).not.toContain(client.folder);
  await client.stop();
});
