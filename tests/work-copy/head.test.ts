import { expect, test } from 'vitest';
import { renderCard } from '../../server/render/render.ts';
import { pageTexts, printed } from '../support/paper.ts';
import { rinseInput } from '../support/rinse.ts';
import {
  beginWork,
  confirm,
  giveReason,
  now,
  openCard,
  openWork,
  press,
  putText,
  workbench,
} from '../support/work-copy.ts';

const desk = workbench();

const settings = { secondUnits: 'metric', paper: 'A4', print: 'full', record: 'neutral' } as const;
const own = { title: 'Ramp book', meaning: 'Rule 7.', fields: ['Hours run'], signatures: ['Mate on watch'] };

test('machine and names are asked before the first step, with the keyboard alone', async () => {
  const page = await openCard(desk.context, await desk.stick.put('rinse', rinseInput()));
  await openWork(page);
  expect(await page.locator('.is-now').count()).toBe(0);
  await page.locator('#step-1 .tick-button').tap();
  expect(await page.locator('.is-done').count()).toBe(0);
  await page.keyboard.type('W-17');
  await page.keyboard.press('Enter');
  expect(await page.locator('.work-head .fault').innerText()).toBe('Fill in the machine and each name.');
  for (const text of ['Merganser 7', 'Hangar 2', 'R. Vogel', 'M. Anders']) {
    await page.keyboard.type(text);
    await page.keyboard.press('Tab');
  }
  await page.keyboard.press('Enter');
  await expect.poll(() => page.locator('.before.is-now').count()).toBe(1);
  await confirm(page, 'before');
  await expect.poll(() => now(page, 1).count()).toBe(1);
  await page.reload();
  await page.getByRole('button', { name: 'Go on with the work' }).tap();
  expect(await page.locator('.work-head').innerText()).toContain('W-17');
  const pages = await pageTexts(await page.pdf({ preferCSSPageSize: true }));
  expect(pages[0]).toMatch(/R\. Vogel[\s\S]*M\. Anders/);
  for (const sheet of pages) {
    expect(sheet).toContain('Machine type, serial number: Merganser 7');
    expect(sheet).not.toContain('Work order: ____');
  }
});

test.each([
  ['neutral', ['Work done', 'Signature'], ['CFR', 'return to service']],
  ['14 CFR 43.9', ['14 CFR 43.9', 'return to service', 'Certificate'], []],
  [own, ['Ramp book', 'Rule 7.', 'Hours run', 'Mate on watch'], ['CFR', 'Certificate']],
] as const)('paper and tablet have the record that the settings ask for: %j', async (record, has, hasNot) => {
  const input = rinseInput({ settings: { ...settings, record } });
  const sheets = await pageTexts(await printed(desk.browser, renderCard(input)));
  expect(
    sheets.filter((sheet) => /Work order: _+\s+Machine type, serial number: _+\s+Station: _+/.test(sheet)),
  ).toEqual(sheets);
  const page = await openCard(desk.context, await desk.stick.put('record', input));
  await beginWork(page);
  await page.locator('.work-bar').getByRole('button', { name: 'Stop the work' }).tap();
  await press(page, 15, 'Done');
  await giveReason(page, 'Thunderstorm over the field.');
  await page.getByRole('button', { name: 'Finish and make the record' }).tap();
  const texts = [sheets.join('\n').replaceAll(/\s+/g, ' '), await page.locator('.work-record').innerText()];
  for (const text of texts) {
    for (const part of has.filter((one) => one !== 'Ramp book')) expect(text).toContain(part);
    for (const part of hasNot) expect(text).not.toContain(part);
  }
});

test('each row names the person, also of a lane and where nobody is named', async () => {
  const text = `card tried "Tried" {
    number "T-1" revision "A" on 2026-01-01 crew hand "First hand" crew mate "Second hand"
    step "Look at both."
    together { by hand { step "Look left." } by mate { step "Look right." } }
  }`;
  const page = await openCard(desk.context, await putText(desk.stick, 'lanes', text));
  await openWork(page);
  await page.getByLabel('Machine type, serial number').fill('Merganser 7');
  await page.getByLabel('Name (First hand)').fill('R. Vogel');
  await page.getByLabel('Name (Second hand)').fill('M. Anders');
  await page.getByRole('button', { name: 'Begin the work' }).tap();
  for (const step of [1, 3, 2]) await press(page, step, 'Done');
  await page.getByRole('button', { name: 'Finish and make the record' }).tap();
  const rows = await page.locator('.work-record tbody tr').allInnerTexts();
  expect(rows.map((row) => row.split('\t')[1])).toEqual([
    '',
    'Step 1, R. Vogel, M. Anders',
    'Step 3, Second hand, M. Anders',
    'Step 2, First hand, R. Vogel',
    '',
  ]);
});
