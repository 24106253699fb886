/** The server starts from what was kept of an earlier start, and from its text where that is not whole. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { heapInTrial, keptCode, keptHeap } from '../../../shared/kept.ts';
import { Client } from './support/client.ts';
import { type Shipped, shippedServer, startsWith } from './support/shipped.ts';

const folder = mkdtempSync(join(tmpdir(), 'cardwright-start-'));
const text = 'card a "A" { number "1" revision "A" crew one "One" step "Look at nowhere.';

let shipped: Shipped;
beforeAll(async () => {
  shipped = await shippedServer(folder);
});
afterAll(() => rmSync(folder, { recursive: true }));

async function started(args: readonly string[]): Promise<Client> {
  const client = await Client.start({ args, options: { findings: 'push' } });
  await client.open('a.card', text);
  expect((await client.findings('a.card')).map(({ code }) => code)).toContain('syntax.text');
  return client;
}

const kept = () =>
  readdirSync(dirname(shipped.name))
    .filter((name) => !name.endsWith('.new'))
    .sort();
const written = (path: string) => expect.poll(() => existsSync(path)).toBe(true);

test('from the text, from its code, and from the text again', async () => {
  const { script, name } = shipped;
  const older = `${dirname(name)}/${'1'.repeat(64)}-older.heap`;
  mkdirSync(dirname(name));
  writeFileSync(older, '');
  const first = await started([script, name]);
  await written(keptCode(name));
  expect(existsSync(older)).toBe(false);
  await first.stop();
  const whole = readFileSync(keptCode(name));

  await (await started([script, name])).stop();
  expect(readFileSync(keptCode(name)).equals(whole)).toBe(true);

  const damaged = Buffer.from(whole);
  damaged.fill(7, whole.length / 2, whole.length / 2 + 200);
  writeFileSync(keptCode(name), damaged);
  const mended = await started([script, name]);
  await expect.poll(() => readFileSync(keptCode(name)).equals(damaged)).toBe(false);
  await mended.stop();
});

test('from its heap, in which nothing is left of what it warmed up with', async () => {
  const { script, name } = shipped;
  const first = await started([script, name]);
  await written(keptHeap(name));
  await first.stop();

  const fromHeap = await started(startsWith(shipped));
  expect(kept()).toEqual([keptCode(name), keptHeap(name)].map((path) => path.slice(dirname(name).length + 1)));
  expect(fromHeap.published.map(({ uri }) => uri)).toEqual([fromHeap.uri('a.card')]);
  // Its libraries are there when they are first needed.
  expect(await fromHeap.connection.sendRequest('cardwright/report', { script: '' })).toContain('</html>');
  await fromHeap.stop();
});

test('from its code where a heap is none: that one is not taken again', async () => {
  writeFileSync(keptHeap(shipped.name), 'no heap');
  const args = startsWith(shipped);
  expect(args).toContain('--snapshot-blob');
  expect(spawnSync(process.execPath, [...args, '--stdio'], { input: '' }).status).not.toBe(0);
  expect(kept()).toContain(heapInTrial(shipped.name).slice(dirname(shipped.name).length + 1));
  await (await started(startsWith(shipped))).stop();
});
