/** Whatever the text is, the server goes on answering, or has said that it works on it. */
import { afterEach, expect, it } from 'vitest';
import { largeCard } from '../../support/large-card.ts';
import { numbers } from '../../support/numbers.ts';
import { Client } from './support/client.ts';

const small = 'item ignition : valve "the ignition valve"\n';
const card = (steps: string, before = '') => `${before}
card c "C" {
  number "1" revision "A"
  crew a "A", b "B", c "C", d "D", e "E", f "F"
${steps}
}
`;

const names = 'a'.repeat(1_000_000);
const lanes = ['a', 'b', 'c', 'd', 'e', 'f'];
const starters = lanes.map(
  (n) => `item s-${n} : starter "starter ${n}" normally off { duty cranking at most 30 s, then rest 60 s }`,
);

const texts = {
  '64 variants': card(
    numbers(64)
      .map((n) => `  step "Look." only v${n} old-${n}`)
      .join('\n'),
    numbers(64)
      .map((n) => `variant v${n} old-${n}, new-${n}`)
      .join('\n'),
  ),
  'misspelt names of a megabyte': card(`  step set ${names}x open`, `item ${names} : valve "long"`),
  'a text of 10 MB': card(`  step "${'Look at the hose. '.repeat(580_000)}"`),
  '10,000 steps': largeCard(10_000, 1000),
  'six lanes with runs': card(
    `  together {\n${lanes
      .map((n) => `    by ${n} { ${`run s-${n} cranking for 20 s wait 60 s `.repeat(6)}}`)
      .join('\n')}\n  }`,
    `kind starter { off "Release {}", cranking "Hold {}" }\n${starters.join('\n')}`,
  ),
};

let client: Client;
afterEach(() => client.kill());

it.each(Object.keys(texts) as (keyof typeof texts)[])('answers beside %s', { timeout: 300_000 }, async (name) => {
  const capabilities = { window: { workDoneProgress: true } };
  client = await Client.start({ capabilities });
  await client.open('small.card', small);
  await client.findings('small.card');
  await client.open('large.card', texts[name]);
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
});

it('says that it reads a long text before it reads it', async () => {
  client = await Client.start({ capabilities: { window: { workDoneProgress: true } } });
  await client.open('large.card', largeCard(4000, 400));
  await client.told(() => client.works.includes('Checking cards') || undefined);
  expect(client.published).toEqual([]);
});
