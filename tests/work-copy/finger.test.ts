import type { Locator, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { isNext, now, openCard, openWork, putText, workbench } from '../support/work-copy.ts';

const desk = workbench();

const steps = Array.from({ length: 12 }, (_, index) => `step by fitter "Turn nut ${index + 1} by one flat."`);
const cardOf = (body: string) => `card tried "Tried" { number "T-1" revision "A" on 2026-01-01 crew fitter "Fitter"
  ${body}
}`;
const text = cardOf(steps.join('\n'));

async function tapInPlace(button: Locator, times: number): Promise<void> {
  await button.scrollIntoViewIfNeeded();
  const { x = 0, y = 0, width = 0, height = 0 } = (await button.boundingBox()) ?? {};
  for (let count = 0; count < times; count++) await button.page().touchscreen.tap(x + width / 2, y + height / 2);
}

const rows = (page: Page, what: string) => page.locator('.work-record td', { hasText: what }).count();

test('a hand that taps three times does one step', async () => {
  const page = await desk.begin(text);
  for (const step of [1, 2, 3]) {
    await isNext(page, step);
    await tapInPlace(now(page, step).getByRole('button', { name: 'Done', exact: true }), 3);
    await isNext(page, step + 1);
  }
});

describe.each([
  ['a tablet', { width: 820, height: 1180 }],
  ['a telephone', { width: 360, height: 780 }],
])('on %s', (_, viewport) => {
  test.each([
    ['before a stage for it', 'step by fitter "Look." stage "Leave" when stopped { step by fitter "Close it." }'],
    ['where nothing is to be done after it', 'step by fitter "Look."'],
    ['in lanes', 'together { by fitter { step "Look." } by mate { step "Look up." } }'],
  ])('a hand that taps Stop twice stops once, %s, and takes nothing back', async (_case, body) => {
    const page = await desk.begin(cardOf(`crew mate "Mate" ${body}`));
    await page.setViewportSize(viewport);
    await tapInPlace(page.locator('.work-bar').getByRole('button', { name: 'Stop the work' }), 3);
    expect(await page.locator('.work-bar button').allInnerTexts()).not.toContain('Stop the work');
    const done = page.locator('.is-now').getByRole('button', { name: 'Done', exact: true });
    if ((await done.count()) > 0) await done.tap();
    expect(await rows(page, 'The work was stopped.')).toBe(1);
    expect(await rows(page, 'Taken back')).toBe(0);
  });

  test('a hand that taps twice on what asks once more is asked, and has not answered', async () => {
    const page = await desk.begin(text);
    await page.setViewportSize(viewport);
    await tapInPlace(page.getByRole('button', { name: 'Begin a new record' }), 2);
    expect(await page.locator('.work-head form').count()).toBe(0);
    await isNext(page, 1);

    const other = await openCard(
      desk.context,
      await putText(desk.stick, `roles-${viewport.width}`, cardOf('crew mate "Mate" step by mate "Look."')),
    );
    await other.setViewportSize(viewport);
    await openWork(other);
    const head = other.locator('.work-head form');
    await head.getByLabel(/^Machine type/).fill('Merganser 7');
    for (const name of await head.getByLabel(/^Name/).all()) await name.fill('R. Vogel');
    const begin = head.getByRole('button', { name: 'Begin the work' });
    await tapInPlace(begin, 2);
    expect(await head.locator('.fault').innerText()).toContain('more than one role');
  });
});

test('a key that is held down does one step', async () => {
  const page = await desk.begin(text);
  const done = now(page, 1).getByRole('button', { name: 'Done', exact: true });
  await done.focus();
  for (let count = 0; count < 3; count++) await page.keyboard.down('Enter');
  await isNext(page, 2);
  expect(await page.locator('.is-done').count()).toBe(1);
});
