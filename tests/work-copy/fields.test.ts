/** Values that are written down together in the work copy. */
import { expect, test } from 'vitest';
import { confirm, giveReason, isNext, now, press, workbench } from '../support/work-copy.ts';

const desk = workbench();

const begin = (body: string, fields = '') =>
  desk.begin(`card tried "Tried" { number "T-1" revision "A" crew hand "Hand" ${fields} ${body} step "Done." }`);

test('each cell of a table is entered, and one outside its bound is told until there is a reason', async () => {
  const page = await begin('step record "Gap" in mm 0.2 mm to 0.4 mm, "Colour" at "left", "right"');
  await now(page, 1).getByLabel('left · Gap (mm)').fill('0.3');
  await now(page, 1).getByLabel('right · Gap (mm)').fill('0.5');
  await now(page, 1).getByLabel('left · Colour').fill('red');
  await now(page, 1).getByLabel('right · Colour').fill('blue');
  await press(page, 1, 'Enter');
  await expect
    .poll(() => now(page, 1).locator('.is-outside').allTextContents())
    .toEqual(['right · Gap: 0.5 mm is OUTSIDE the limit: 0.2 to 0.4 mm.']);
  await press(page, 1, 'Done');
  await isNext(page, 1);
  await press(page, 1, 'Go on here all the same');
  await page.getByLabel('Name of a second person who agrees').fill('L. Brandt');
  await giveReason(page, 'A shim for it is ordered.');
  await press(page, 1, 'Done');
  await isNext(page, 2);
  expect(await page.locator('#step-1 .entry').first().textContent()).toContain(
    'left · Gap: 0.3 mm · left · Colour: red',
  );
});

test('a cell that is left empty, or no number, is asked for', async () => {
  const page = await begin('step record "Gap" in mm at "left", "right"');
  await now(page, 1).getByLabel('left · Gap (mm)').fill('wide');
  await press(page, 1, 'Enter');
  await expect.poll(() => now(page, 1).locator('.fault').textContent()).toContain('left · Gap: Enter a number');
  await now(page, 1).getByLabel('left · Gap (mm)').fill('0.3');
  await press(page, 1, 'Enter');
  await press(page, 1, 'Done');
  await giveReason(page, 'No access to the right.');
  await isNext(page, 2);
});

test('a torque is ticked without a value, and a value out of its tolerance is told', async () => {
  const page = await begin('step tighten "the bolts" to 25 N.m +/- 2 N.m step tighten "the nuts" to 30 N.m +/- 1 N.m');
  await press(page, 1, 'Done');
  await isNext(page, 2);
  await now(page, 2).getByLabel('Reading (N·m)').fill('28');
  await press(page, 2, 'Enter');
  await expect.poll(() => now(page, 2).locator('.is-outside').textContent()).toContain('28 N·m is OUTSIDE the limit');
});

test('the number and due date of a tool are asked first, and a day that is over is told', async () => {
  const page = await begin('step record part "Seal ring"', 'tools "Wrench" calibrated');
  const tools = page.locator('.head .is-now');
  await tools.getByLabel('Wrench · Tool number').fill('W-7');
  await tools.getByLabel('Wrench · Due date').fill('2026-11-24');
  await tools.getByRole('button', { name: 'Enter' }).click();
  await expect.poll(() => tools.locator('.is-outside').textContent()).toContain('2026-11-24 is OVER');
  await tools.getByLabel('Wrench · Due date').fill('2026-11-25');
  await tools.getByRole('button', { name: 'Enter' }).click();
  await tools.getByRole('button', { name: 'Done', exact: true }).click();
  await confirm(page, 'before');
  await isNext(page, 1);
  await now(page, 1).getByLabel('Part number').fill('SR-12');
  await now(page, 1).getByLabel('Batch').fill('B-3');
  await now(page, 1).getByLabel('Expiry date').fill('2026-11-01');
  await press(page, 1, 'Enter');
  await expect
    .poll(() => now(page, 1).locator('.is-outside').textContent())
    .toContain('Expiry date: 2026-11-01 is OVER');
});

test('a cell takes a number as a reading does: what may mean two things is asked back', async () => {
  const page = await begin('step record "Gap" in mm 0.2 mm to 0.4 mm at "left", "right"');
  await now(page, 1).getByLabel('left · Gap (mm)').fill('0.3');
  await now(page, 1).getByLabel('right · Gap (mm)').fill('1,020');
  await press(page, 1, 'Enter');
  await expect.poll(() => now(page, 1).locator('.fault').textContent()).toBe('right · Gap: Which number do you mean?');
  await press(page, 1, '1.020 mm');
  await press(page, 1, 'Enter');
  await expect
    .poll(() => now(page, 1).locator('.is-outside').allTextContents())
    .toEqual(['right · Gap: 1.020 mm is OUTSIDE the limit: 0.2 to 0.4 mm.']);
});

test('cells that are typed and not entered count when the step is done', async () => {
  const page = await begin('step record "Gap" in mm, "Colour" at "left"');
  await now(page, 1).getByLabel('left · Gap (mm)').fill('0.3');
  await now(page, 1).getByLabel('left · Colour').fill('red');
  await press(page, 1, 'Done');
  await isNext(page, 2);
  expect(await page.locator('#step-1 .entry').first().textContent()).toContain('left · Gap: 0.3 mm');
});

test('a tool that was not written down, or is over its date by the time of its use, is told at the torque', async () => {
  const page = await begin(
    'step tighten "the bolts" to 25 N.m +/- 2 N.m step tighten "the nuts" to 25 N.m +/- 2 N.m',
    'tools "Wrench" calibrated',
  );
  const tools = page.locator('.head .is-now');
  await tools.getByLabel('Wrench · Tool number').fill('W-7');
  await tools.getByLabel('Wrench · Due date').fill('2026-11-25');
  await tools.getByRole('button', { name: 'Done', exact: true }).click();
  await confirm(page, 'before');
  const outside = (step: number) => now(page, step).locator('.is-outside').allTextContents();
  await press(page, 1, 'Done');
  // Not without saying with which of them.
  expect(await now(page, 1).getByLabel('Tool number').count()).toBe(1);
  await now(page, 1).getByLabel('Tool number').fill('W-8');
  await press(page, 1, 'Enter');
  await expect
    .poll(() => outside(1))
    .toEqual(['Tool number: W-8 is none of the tools that were written down before the work.']);
  await now(page, 1).getByLabel('Tool number').fill('w-7');
  await press(page, 1, 'Enter');
  await expect.poll(() => outside(1)).toEqual([]);
  await press(page, 1, 'Done');
  await page.clock.fastForward('24:00:00');
  await now(page, 2).getByLabel('Tool number').fill('W-7');
  await press(page, 2, 'Enter');
  await expect.poll(() => outside(2)).toEqual([expect.stringContaining('Tool number: 2026-11-25 is OVER')]);
});
