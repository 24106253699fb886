/** Who answers for what in the work copy: inspections, stops and the record. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { giveReason, now, workbench } from '../support/work-copy.ts';

const desk = workbench();

const begin = (body: string) =>
  desk.begin(
    `card tried "Tried" { number "T-1" revision "A" on 2026-01-01 crew hand "Hand" crew inspector "Inspector" ${body} }`,
  );

const press = (page: Page, name: string) => page.locator('.is-now').getByRole('button', { name, exact: true }).click();
const fault = (page: Page) => page.locator('.is-now .fault').textContent();

test('nobody inspects their own work, however they write their name', async () => {
  const page = await begin('step by hand "Fit the pin." { sign hand   sign inspector independent "Pin fitted" }');
  const own = now(page, 1);
  await own.getByLabel('Name', { exact: true }).fill('R. Vogel');
  await own.getByRole('button', { name: 'Sign', exact: true }).first().click();
  await expect.poll(() => own.getByLabel('Name of whoever did the work').inputValue()).toBe('R. Vogel');
  await own.getByLabel('Name of the inspector').fill(' r.vogel');
  await press(page, 'Sign');
  expect(await fault(page)).toContain('another person signs here');
  await own.getByLabel('Name of the inspector').fill('L. Brandt');
  await press(page, 'Sign');
  await press(page, 'Done');
  await page.getByRole('button', { name: 'Finish and make the record' }).click();
  expect(await page.locator('.work-record').innerText()).toContain(
    'Inspected by L. Brandt; the work was done by R. Vogel',
  );
});

test('an inspection that stands by itself asks who did the work', async () => {
  const page = await begin('step by hand "Fit the pin." sign inspector independent "Pin fitted"');
  await press(page, 'Done');
  await page.getByLabel('Name of the inspector').fill('L. Brandt');
  await press(page, 'Sign');
  expect(await fault(page)).toBe('Write the name.');
  await page.getByLabel('Name of whoever did the work').fill('l brandt');
  await press(page, 'Done');
  expect(await fault(page)).toContain('another person signs here');
});

test('a failed check that stops the work has its reason asked after the emergency steps, and a record its name', async () => {
  const page = await begin(
    `step by hand check "Is it dry?" else stop "a leak"
     stage "Make safe" when stopped { step by hand "Close the tap." }`,
  );
  await press(page, 'No');
  await press(page, 'Go there');
  await expect.poll(() => now(page, 2).count()).toBe(1);
  expect(await page.getByLabel('Reason').count()).toBe(0);
  await press(page, 'Done');
  await giveReason(page, 'Oil below the pump.');
  const finish = page.getByRole('button', { name: 'Finish and make the record' });
  const doneBy = page.locator('.work-record').getByLabel('Done by (name)');
  await doneBy.fill(' ');
  await finish.click();
  expect(await page.locator('.work-record .fault').textContent()).toBe('Write the name.');
  await doneBy.fill('R. Vogel');
  await finish.click();
  const record = await page.locator('.work-record').innerText();
  expect(record).toContain('Oil below the pump.');
});
