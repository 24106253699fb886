/** Records as files: loaded without losing what is here, told when they were changed, and two of them read together. */
import { mkdtempSync, truncateSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { pageTexts } from '../support/paper.ts';
import { beginWork, now, openCard, putText, workbench } from '../support/work-copy.ts';

const bench = workbench();
const contexts: BrowserContext[] = [];
let card: string;
beforeEach(async () => {
  card = await putText(bench.stick, 'two-hands', cardText());
});
afterEach(async () => {
  for (const context of contexts.splice(0)) await context.close();
});

const cardText = ({ number = 'T-1', revision = 'A', last = 'Close the lid.' } = {}) => `
  gauge volts "bus voltage" in V { reads 0 to 32 by 0.5 }
  card tried "Tried" { number "${number}" revision "${revision}" on 2026-01-01 crew hand "Hand" crew mate "Mate"
    together {
      by hand { step "Look left." step read volts at least 24 V else stop "Low." }
      by mate { step "Look right." }
    }
    step "${last}"
  }`;

/** A device that keeps nothing of what another has kept. */
async function device(options: BrowserContextOptions = { viewport: { width: 820, height: 1180 }, hasTouch: true }) {
  const context = await bench.browser.newContext(options);
  contexts.push(context);
  return context;
}

/** A tablet of its own, with the work begun. */
async function tablet(address = card): Promise<Page> {
  const page = await openCard(await device(), address);
  await beginWork(page);
  return page;
}

const done = (page: Page, step: number) => now(page, step).getByRole('button', { name: 'Done', exact: true }).tap();
const press = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).tap();
const live = (page: Page) => page.locator('.live').innerText();
const question = (page: Page) => page.locator('.load-question');

async function read(page: Page, value: string): Promise<void> {
  await now(page, 2).getByLabel('Reading').fill(value);
  await done(page, 2);
}

async function saved(page: Page): Promise<string> {
  const download = page.waitForEvent('download');
  await press(page, 'Save the record as a file');
  return readFile(await (await download).path(), 'utf8');
}

async function load(page: Page, text: string): Promise<void> {
  const file = { name: 'record.json', mimeType: 'application/json', buffer: Buffer.from(text) };
  await page.getByLabel('Load a saved record').setInputFiles(file);
}

test('a record that is loaded over another asks first, and the other is kept', async () => {
  const one = await tablet();
  await done(one, 1);
  const file = await saved(one);
  const other = await tablet();
  await done(other, 3);
  await load(other, file);
  await expect.poll(() => question(other).innerText()).toContain('There are 2 entries on this device already');
  // With the keyboard: back, and nothing has changed.
  await question(other).getByRole('button', { name: 'Back' }).focus();
  await other.keyboard.press('Enter');
  expect(await other.locator('#step-3.is-done').count()).toBe(1);
  await load(other, file);
  await press(other, 'Put it in their place, and keep them');
  await expect.poll(() => other.locator('#step-1.is-done').count()).toBe(1);
  expect(await other.locator('#step-3.is-done').count()).toBe(0);
  await other.reload();
  await press(other, 'Go on with the work');
  await press(other, 'Back to the 2 entries from before');
  await expect.poll(() => other.locator('#step-3.is-done').count()).toBe(1);
  expect(await other.locator('#step-1.is-done').count()).toBe(0);
});

test('a record that was changed by hand says so, and goes on saying so', async () => {
  const one = await tablet();
  await done(one, 1);
  await read(one, '24');
  const file = await saved(one);
  const other = await openCard(await device(), card);
  await press(other, 'Work with this card');
  await load(other, file.replace('"value":"24"', '"value":"28"'));
  await expect.poll(() => question(other).innerText()).toContain('changed by hand');
  await press(other, 'Load it all the same');
  await expect.poll(() => other.locator('#step-2.is-done').count()).toBe(1);
  await press(other, 'Undo the last entry');
  await expect.poll(() => other.locator('#step-2.is-now').count()).toBe(1);
  const again = JSON.parse(await saved(other)) as { entries: readonly { type: string; doubt?: string }[] };
  expect(again.entries.filter(({ type }) => type === 'loaded')).toMatchObject([{ doubt: 'changed' }]);
});

test('a record of another card, another revision or another state of this one says which', async () => {
  const page = await tablet();
  await done(page, 1);
  const file = await saved(page);
  for (const [of, words] of [
    [{ number: 'T-2' }, 'another card: T-1 Tried'],
    [{ revision: 'B' }, 'revision A of this card, and this is revision B'],
    [{ last: 'Shut the lid.' }, 'without a new revision'],
  ] as const) {
    const other = await tablet(await putText(bench.stick, 'other', cardText(of)));
    await load(other, file);
    await expect.poll(() => live(other)).toContain(words);
    expect(await other.locator('#step-1.is-done').count()).toBe(0);
  }
});

test('a file that is too large to be a record is refused, and nothing is lost', async () => {
  const page = await tablet();
  await done(page, 1);
  const file = join(mkdtempSync(join(tmpdir(), 'cardwright-large-')), 'record.json');
  writeFileSync(file, '{');
  truncateSync(file, 100 * 1024 * 1024);
  await page.getByLabel('Load a saved record').setInputFiles(file);
  await expect.poll(() => live(page)).toContain('not a record of this program');
  expect(await page.locator('#step-1.is-done').count()).toBe(1);
});

test('a card that was altered says so on the screen and on paper, and one that was not carries its digest on each page', async () => {
  const page = await tablet();
  const digest = await page.locator('meta[name=digest]').getAttribute('content');
  expect(await page.locator('.altered, .not-compared').count()).toBe(0);
  const short = `Digest of this card: ${digest?.slice(0, 4)} ${digest?.slice(4, 8)}`;
  for (const sheet of await pageTexts(await page.pdf({ preferCSSPageSize: true }))) expect(sheet).toContain(short);
  const html = await readFile(new URL(card), 'utf8');
  for (const [from, to] of [
    ['at least 24', 'at least 22'],
    ['Look right.', 'Look up.'],
    ['class=step ', 'class="gone step" '],
  ] as const) {
    expect(html).toContain(from);
    const other = await openCard(page.context(), await bench.stick.write('altered', html.replace(from, to)));
    await expect.poll(() => other.locator('.altered').innerText()).toContain('was altered after it was exported');
    const [sheet = ''] = await pageTexts(await other.pdf({ preferCSSPageSize: true }));
    expect(sheet).toContain('was altered after it was exported');
    await other.close();
  }
});

test('a browser without the means for digests says that it cannot tell', async () => {
  const file = await saved(await tablet());
  const context = await device({});
  await context.addInitScript(() => Object.defineProperty(Crypto.prototype, 'subtle', { get: () => undefined }));
  const page = await openCard(context, card);
  await expect.poll(() => page.locator('.not-compared').innerText()).toContain('cannot tell');
  await page.getByRole('button', { name: 'Work with this card' }).click();
  await load(page, JSON.stringify({ ...JSON.parse(file), digest: undefined }));
  await expect.poll(() => question(page).innerText()).toContain('Nobody can tell whether it was changed');
});

test('two tablets: one record is read into the other, and only where they differ a person says what counts', async () => {
  const one = await tablet();
  await done(one, 1);
  await read(one, '24.5');
  const two = await tablet();
  await done(two, 3);
  await now(two, 1).getByRole('button', { name: 'Done', exact: true }).tap();
  await read(two, '28');
  const file = await saved(two);
  await load(one, file);
  await press(one, 'Add it to them');
  await expect.poll(() => one.locator('.conflict').count()).toBe(1);
  expect(await one.locator('#step-1.is-done').count()).toBe(1);
  expect(await one.locator('#step-3.is-done').count()).toBe(1);
  await expect.poll(() => now(one, 4).count()).toBe(1);
  await done(one, 4);
  expect(await one.locator('.work-record').innerText()).toContain('Decide first what counts');
  const conflict = one.locator('.conflict');
  expect(await conflict.innerText()).toMatch(/24\.5 V[\s\S]*28 V/);
  await one.reload();
  await press(one, 'Go on with the work');
  await conflict.getByRole('button', { name: 'This counts' }).nth(1).focus();
  await one.keyboard.press('Enter');
  await one.keyboard.press('Enter');
  expect(await conflict.locator('.fault').innerText()).toBe('Write the name.');
  await one.keyboard.type('L. Brandt');
  await one.keyboard.press('Enter');
  await expect.poll(() => one.locator('.conflict').count()).toBe(0);
  await press(one, 'Finish and make the record');
  const record = one.locator('.work-record');
  expect(await record.innerText()).toContain('L. Brandt decided what counts');
  expect(await record.locator('del').allInnerTexts()).toEqual(
    expect.arrayContaining([expect.stringContaining('24.5 V'), 'Done.']),
  );
  const file2 = await saved(one);
  await expect
    .poll(() => record.locator('.digest').innerText())
    .toContain((JSON.parse(file2) as { digest: string }).digest.slice(0, 4));
  await load(one, file2);
  await press(one, 'Add it to them');
  await expect.poll(() => live(one)).toContain('All entries of this file are here already');
});
