/** Parts of a card that are only for some machines. */
import { expect, test } from 'vitest';
import { pageTexts } from '../support/paper.ts';
import { fillHead, isNext, now, openCard, openWork, press, putText, workbench } from '../support/work-copy.ts';

const desk = workbench();

const text = `
variant lift 1 to 6
variant brake hand, motor
item lever : lever "the brake lever" normally off
item feed : valve "the brake's feed" normally open
card test-brake "Test the service brake" {
  number "T-1"
  revision "A" on 2026-01-01
  applies lift 1 to 4
  crew operator "Operator"
  repeat 2 times {
    step only brake hand set lever on
    step only brake motor set feed closed
    step check "Does the rope stand still?" else go to release
    warning "The second shoe is hot." only lift 3 to 4
    step only lift 3 to 4 "Look at the second brake shoe too."
    step release: only brake hand set lever off
    step only brake motor set feed open
  }
}`;

test('the machine is asked first, and what is not for it is neither shown nor asked', async () => {
  const page = await openCard(desk.context, await putText(desk.stick, 'brake', text));
  await openWork(page);
  const head = page.locator('.work-head');
  await fillHead(page);
  // Its number is asked once: where it is chosen.
  expect(await head.getByLabel(/serial number/).count()).toBe(0);
  expect(await head.locator('.fault').innerText()).toContain('Fill in the machine');
  expect(await head.getByLabel('Lift').locator('option').allInnerTexts()).toEqual(['–', '1', '2', '3', '4']);
  // With the keyboard: the field that is missing has it.
  await page.keyboard.type('2');
  await page.keyboard.press('Tab');
  await page.keyboard.type('motor');
  await head.getByRole('button', { name: 'Begin the work' }).tap();
  await isNext(page, 2);
  for (const step of [1, 4, 5]) expect(await page.locator(`#step-${step}`).isVisible()).toBe(false);
  expect(await page.getByText('The second shoe is hot.').isVisible()).toBe(false);
  for (const round of [1, 2]) {
    expect(await now(page, 2).locator('.round').innerText()).toBe(`Time ${round} of 2`);
    await press(page, 2, 'Done');
    await press(page, 3, 'No');
    await press(page, 3, 'Go there');
    await press(page, 6, 'Done');
  }
  const left = page.locator('.left.is-now');
  expect(await left.locator('.line:visible').allInnerTexts()).toEqual([
    expect.stringContaining("The brake's feed is open"),
  ]);
  await left.getByRole('button', { name: 'OK', exact: true }).tap();
  await left.getByRole('button', { name: 'Done', exact: true }).tap();
  const record = await page.locator('.work-record').innerText();
  expect(record).toContain('Machine type: Merganser 7.');
  expect(record).toContain('Lift: 2. Brake: motor.');
  for (const sheet of await pageTexts(await page.pdf({ preferCSSPageSize: true })))
    expect(sheet).toContain('Machine type, serial number: Merganser 7, 2');
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('#step-1').isVisible()).toBe(false);
});

test('what is for the machine is shown and asked', async () => {
  const page = await openCard(desk.context, await putText(desk.stick, 'brake', text));
  await openWork(page);
  await page.getByLabel('Lift').selectOption('4');
  await page.getByLabel('Brake').selectOption('hand');
  await fillHead(page);
  await isNext(page, 1);
  await press(page, 1, 'Done');
  await press(page, 3, 'Yes');
  await press(page, 3, 'Done');
  await isNext(page, 4);
  expect(await page.getByText('The second shoe is hot.').isVisible()).toBe(true);
});
