import { expect, test } from 'vitest';
import { isNext, now, workbench } from '../support/work-copy.ts';

const desk = workbench();

const steps = Array.from({ length: 12 }, (_, index) => `step by fitter "Turn nut ${index + 1} by one flat."`);
const text = `card tried "Tried" { number "T-1" revision "A" on 2026-01-01 crew fitter "Fitter"
  ${steps.join('\n')}
}`;

test('a hand that taps three times does one step', async () => {
  const page = await desk.begin(text);
  for (const step of [1, 2, 3]) {
    await isNext(page, step);
    const place = await now(page, step).getByRole('button', { name: 'Done', exact: true }).boundingBox();
    const { x = 0, y = 0, width = 0, height = 0 } = place ?? {};
    for (let count = 0; count < 3; count++) await page.touchscreen.tap(x + width / 2, y + height / 2);
    await isNext(page, step + 1);
  }
});

test('a key that is held down does one step', async () => {
  const page = await desk.begin(text);
  const done = now(page, 1).getByRole('button', { name: 'Done', exact: true });
  await done.focus();
  for (let count = 0; count < 3; count++) await page.keyboard.down('Enter');
  await isNext(page, 2);
  expect(await page.locator('.is-done').count()).toBe(1);
});
