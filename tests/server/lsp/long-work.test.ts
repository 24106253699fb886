/** Whatever the text is, the server goes on answering, or has said that it works on it. */
import { afterEach, expect, it } from 'vitest';
import { largeCard } from '../../support/large-card.ts';
import { longCards } from '../../support/long-cards.ts';
import { Client } from './support/client.ts';

const small = 'item ignition : valve "the ignition valve"\n';
let client: Client;
afterEach(() => client.kill());

it.each(Object.keys(longCards) as (keyof typeof longCards)[])(
  'answers beside %s',
  { timeout: 300_000 },
  async (name) => {
    const capabilities = { window: { workDoneProgress: true } };
    client = await Client.start({ capabilities });
    await client.open('small.card', small);
    await client.findings('small.card');
    await client.open('large.card', longCards[name]);
    let isChecked = false;
    const checked = client.findings('large.card').then(() => {
      isChecked = true;
    });
    const position = { line: 0, character: 6 };
    const hovers = await Promise.all(
      ['small.card', 'large.card'].map((path) => client.request('textDocument/hover', path, { position })),
    );
    expect(hovers[0]).toMatchObject({ contents: { value: expect.stringContaining('the ignition valve') } });
    // Where the answers came late, the writer knew why.
    if (!isChecked)
      await Promise.race([checked, client.told(() => client.works.includes('Checking cards') || undefined)]);
    expect(client.isAlive).toBe(true);
  },
);

it('answers nothing of a place in a long text as of that place in a newer one', async () => {
  client = await Client.start({ capabilities: { window: { workDoneProgress: true } } });
  await client.open('large.card', largeCard(4000, 400));
  await client.edit('large.card', 0, 0, '// one\n// two\n');
  const line = client
    .textOf('large.card')
    .split('\n')
    .findIndex((text) => text.startsWith('item valve-9 '));
  const place = { position: { line, character: 7 } };
  const range = { start: place.position, end: place.position };
  const requests = {
    'textDocument/hover': place,
    'textDocument/definition': place,
    'textDocument/references': { ...place, context: { includeDeclaration: true } },
    'textDocument/completion': place,
    'textDocument/prepareRename': place,
    'textDocument/rename': { ...place, newName: 'bleed' },
    'textDocument/codeAction': { range, context: { diagnostics: [] } },
  };
  const asked = Object.entries(requests).map(([method, params]) =>
    client.request(method, 'large.card', params).then(
      () => [method, 'answered'],
      ({ code }: { code: number }) => [method, code],
    ),
  );
  await client.edit('large.card', 0, 0, '// three\n// four\n');
  const contentModified = -32801;
  expect(await Promise.all(asked)).toEqual(Object.keys(requests).map((method) => [method, contentModified]));
  expect(
    await client.request('textDocument/prepareRename', 'large.card', { position: { line: line + 2, character: 7 } }),
  ).toMatchObject({ placeholder: 'valve-9' });
});

it('says that it reads a long text before it reads it', async () => {
  client = await Client.start({ capabilities: { window: { workDoneProgress: true } } });
  await client.open('large.card', largeCard(4000, 400));
  await client.told(() => client.works.includes('Checking cards') || undefined);
  expect(client.published).toEqual([]);
});
