/** The server starts from compiled code that was kept, and from its text where what was kept is not whole. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Client } from './support/client.ts';
import { shippedServer } from './support/shipped.ts';

const built = mkdtempSync(join(tmpdir(), 'cardwright-start-'));
const folder = join(built, 'compiled');
const text = 'card a "A" { number "1" revision "A" crew one "One" step "Look at nowhere.';

let script: string;
beforeAll(() => {
  script = shippedServer(built);
});
afterAll(() => rmSync(built, { recursive: true }));

const keptFiles = (): string[] =>
  existsSync(folder) ? readdirSync(folder).filter((name) => !name.endsWith('.new')) : [];

async function started(): Promise<Client> {
  const client = await Client.start({ args: [script, folder], options: { findings: 'push' } });
  await client.open('a.card', text);
  expect((await client.findings('a.card')).map(({ code }) => code)).toContain('syntax.text');
  return client;
}

test('from the text, from what was kept, and from the text again', async () => {
  const first = await started();
  await expect.poll(keptFiles).toHaveLength(1);
  await first.stop();
  const path = join(folder, keptFiles()[0] as string);
  const whole = readFileSync(path);

  await (await started()).stop();
  expect(readFileSync(path).equals(whole)).toBe(true);

  const damaged = Buffer.from(whole);
  damaged.fill(7, whole.length / 2, whole.length / 2 + 200);
  writeFileSync(path, damaged);
  const mended = await started();
  await expect.poll(() => readFileSync(path).equals(damaged)).toBe(false);
  await mended.stop();
});
