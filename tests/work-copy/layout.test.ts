/** The work copy on a telephone and on a tablet: nothing runs out of its box, and the bar leaves the room to the work. */
import { expect, test } from 'vitest';
import { sampleCards } from '../support/samples.ts';
import { walkThrough } from '../support/walker.ts';
import { workbench } from '../support/work-copy.ts';

const desk = workbench();

const phone = { width: 360, height: 640 };
const tablet = { width: 820, height: 1180 };
const tabletOnItsSide = { width: 1180, height: 820 };

async function walked(address: string, viewport: typeof phone) {
  const context = await desk.browser.newContext({ viewport, hasTouch: true, isMobile: viewport === phone });
  try {
    const page = await context.newPage();
    await page.goto(address);
    return await page.evaluate(walkThrough);
  } finally {
    await context.close();
  }
}

test.each([
  ['merganser', phone],
  ['heron-dyke', phone],
  ['recipes', phone],
  ['bakery', phone],
  ['bakery', tablet],
  ['recipes', tablet],
  ['merganser', tablet],
  ['heron-dyke', tablet],
  ['merganser', tabletOnItsSide],
] as const)('the cards of %s fit in every state: %o', async (world, size) => {
  for (const { name, html } of sampleCards(world, desk.stick.script)) {
    const { faults, stuckAt } = await walked(await desk.stick.write(name, html), size);
    expect({ name, faults, stuckAt }).toEqual({ name, faults: [] });
  }
});

test('the bar says what is asked of whom, in lanes and at choices', async () => {
  const card = `
card signals "Agree on a signal" {
  number "S-1"
  revision "A"
  crew pilot "Pilot"
  crew ground "Ground observer"
  together {
    by pilot { step "Switch on the radio." }
    by ground {
      choose { "By hand" { step "Show the hand." } or "By lamp" { step "Show the lamp." } }
      if "Does the pilot answer?" { step "Nod." }
    }
  }
  step by pilot "Start." { sign ground "Seen" }
}`;
  const page = await desk.begin(card);
  const bar = () => page.locator('.work-bar .now').allInnerTexts();
  expect(await bar()).toEqual(['Step 1, Pilot', 'Ground observer: Do one of these: By hand / By lamp']);
  await page.getByRole('button', { name: 'Do this one: By hand' }).click();
  await page.locator('#step-2').getByRole('button', { name: 'Done', exact: true }).click();
  expect(await bar()).toEqual(['Step 1, Pilot', 'Ground observer: Does the pilot answer?']);
  await page.getByRole('button', { name: 'No', exact: true }).click();
  await page.locator('#step-1').getByRole('button', { name: 'Done', exact: true }).click();
  expect(await bar()).toEqual(['Now: Step 5, Pilot']);
});
