/** Each sample on paper and at work, in every state that has something of its own to show. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { violations } from '../support/axe.ts';
import { sampleCards } from '../support/samples.ts';
import { confirm, openCard, openWork, workbench } from '../support/work-copy.ts';

const desk = workbench();

const press = (page: Page, place: string, name: string) =>
  page.locator(place).getByRole('button', { name, exact: true }).first().click();

async function begin(page: Page, machine: string): Promise<void> {
  for (const list of await page.locator('.work-head select').all()) await list.selectOption({ index: 1 });
  await page.locator('.work-head input').nth(1).fill(machine);
  for (const name of await page.locator('.work-head').getByLabel(/^Name/).all()) await name.fill('R. Vogel');
  const button = page.locator('.work-head').getByRole('button', { name: 'Begin the work' });
  await button.click();
  // With one person for all roles it is asked once.
  if ((await button.count()) > 0) await button.click();
}

/** Opens steps before their turn until one asks for a look, which then fails; some cards have none. */
async function failOne(page: Page): Promise<void> {
  const bad = page.locator('.step.is-now .buttons > [aria-pressed]:nth-child(2)');
  const steps = page.locator('.step:not(.is-now):has(.failure) .tick-button:visible');
  for (let left = await steps.count(); left > 0 && (await bad.count()) === 0; left--) {
    if ((await steps.count()) === 0) return;
    await steps.first().click();
    await page.getByLabel('Reason').last().fill('The lamp is near.');
    await page.getByRole('button', { name: 'Keep the reason and go on' }).last().click();
  }
  if ((await bad.count()) > 0) await bad.first().click();
}

async function saved(page: Page): Promise<Buffer> {
  const download = page.waitForEvent('download');
  await press(page, '.work-tools', 'Save the record as a file');
  return readFile(await (await download).path());
}

/** Two records of the same work that do not agree: the question first, then what differs. */
async function loadAnother(page: Page, look: (state: string) => Promise<void>): Promise<void> {
  const buffer = await saved(page);
  await press(page, '.work-tools', 'Begin a new record');
  await press(page, '.start-again', 'Begin a new record');
  await begin(page, 'Merganser 9');
  await page.getByLabel('Load a saved record').setInputFiles({ name: 'r.json', mimeType: 'application/json', buffer });
  await page.locator('.load-question').waitFor();
  await look('the question of what to do with a record');
  await press(page, '.load-question', 'Add it to them');
  await page.locator('.conflict').first().waitFor();
  await look('what two records say differently');
}

async function stopAndFinish(page: Page, look: (state: string) => Promise<void>): Promise<void> {
  await press(page, '.work-bar', 'Stop the work');
  await look('the emergency steps');
  while ((await page.locator('.is-now').count()) > 0) await page.locator('.is-now .done').first().click();
  await page.getByLabel('Reason').last().fill('A thunderstorm came up.');
  await page.getByRole('button', { name: 'Keep the reason and go on' }).last().click();
  await look('the form of the record');
  await press(page, '.work-record', 'Finish and make the record');
  await look('the record');
}

async function toTheRecord(page: Page, look: (state: string) => Promise<void>): Promise<void> {
  await press(page, '.work-hand-over form', 'Back');
  await stopAndFinish(page, look);
  await press(page, '.work-bar', 'Undo the last entry');
  await loadAnother(page, look);
}

test.each([
  ['merganser', false],
  ['heron-dyke', false],
  ['bakery', false],
  // Many small cards: what follows a failed check is the same in all.
  ['recipes', true],
])('the cards of %s', async (world, isShort) => {
  for (const { name, html } of sampleCards(world, desk.stick.script)) {
    const page = await openCard(desk.context, await desk.stick.write(`axe-${name}`, html));
    const look = async (state: string) =>
      expect({ name, state, found: await violations(page) }).toEqual({ name, state, found: [] });
    await look('as printed');
    await openWork(page);
    await press(page, '.work-head', 'Begin the work');
    await look('the head, not filled in');
    await begin(page, 'Merganser 7');
    await confirm(page, 'before');
    await failOne(page);
    await press(page, '.work-tools', 'Hand over the work');
    await look('a check that failed, and the form of a hand-over');
    if (!isShort) await toTheRecord(page, look);
    await page.close();
  }
});
