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

it('says that it reads a long text before it reads it', async () => {
  client = await Client.start({ capabilities: { window: { workDoneProgress: true } } });
  await client.open('large.card', largeCard(4000, 400));
  await client.told(() => client.works.includes('Checking cards') || undefined);
  expect(client.published).toEqual([]);
});
