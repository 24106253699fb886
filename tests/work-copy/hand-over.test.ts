/** The work changes hands in the middle, and what is known of the machine then. */
import { expect, test } from 'vitest';
import { pageTexts } from '../support/paper.ts';
import { beginWork, giveReason, isNext, now, openCard, press, putText, workbench } from '../support/work-copy.ts';

const desk = workbench();

const text = `
item valve : valve "the valve" at "the cellar" normally closed
item drain : valve "the drain" normally closed
item pump : pump "the pump" normally stopped { duty running at most 30 min }
card test "Test" {
  number "T-1"
  revision "A" on 2026-01-01
  crew fitter "Fitter"
  assume drain closed because "The last crew closed it."
  step by fitter set valve open
  step by fitter "Sweep the floor."
  step by fitter takes 1 min set pump running
  step by fitter takes 1 min set pump stopped
  step by fitter set valve closed
}`;

test('a page says who, what is open and how the machine stands; it is recorded, printed, and the rows name the next person', async () => {
  const page = await openCard(desk.context, await putText(desk.stick, 'hand-over', text));
  await beginWork(page);
  await press(page, 1, 'Done');
  await press(page, 2, 'Leave out');
  await giveReason(page, 'No broom here.');
  await press(page, 3, 'Done');
  await page.getByRole('button', { name: 'Hand over the work' }).tap();
  // With the keyboard: the name of whoever takes over is asked first.
  await page.keyboard.type('r vogel');
  await page.keyboard.press('Enter');
  const asked = page.locator('.work-hand-over');
  expect(await asked.locator('.fault').innerText()).toBe('Somebody else takes over: write another name.');
  await page.getByLabel('Takes over (name)').fill('L. Brandt');
  await page.getByLabel('What the next one must know').fill('The tank is nearly full.');
  // In the remarks Enter begins a line; the button comes next.
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await isNext(page, 4);
  await press(page, 4, 'Done');
  const handed = page.locator('.hand-over');
  const said = await handed.innerText();
  for (const part of [
    'R. Vogel',
    'L. Brandt',
    'The tank is nearly full.',
    'Step 4, Fitter',
    'Step 2: Left out. No broom here.',
    'The pump: Begun at',
    'The valve (the cellar) is open. (Step 1,',
    'The drain is closed. (Before you start,',
    'The pump is running. (Step 3,',
  ])
    expect(said).toContain(part);
  await press(page, 5, 'Done');
  for (const line of await page.locator('.left.is-now .line').all())
    await line.getByRole('button', { name: 'OK', exact: true }).tap();
  await page.locator('.left.is-now').getByRole('button', { name: 'Done', exact: true }).tap();
  const rows = await page.locator('.work-record tbody tr').allInnerTexts();
  const row = (what: string) => rows.find((one) => one.includes(what));
  expect(row('Step 3')).toContain('R. Vogel');
  expect(row('Step 4')).toContain('L. Brandt');
  expect(row('Handed over')).toContain('Handed over by R. Vogel to L. Brandt. The tank is nearly full.');
  const sheets = await pageTexts(await page.pdf({ preferCSSPageSize: true }));
  expect(sheets.filter((sheet) => sheet.includes('Hand-over of the work'))).toHaveLength(1);
  await page.evaluate(() => Object.assign(window, { print: () => {} }));
  await handed.getByRole('button', { name: 'Print' }).tap();
  const alone = await pageTexts(await page.pdf({ preferCSSPageSize: true }));
  expect(alone).toHaveLength(1);
  expect(alone[0]).toContain('The tank is nearly full.');
  expect(await now(page, 5).count()).toBe(0);
});
