import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Exit } from '../../shared/job.ts';
import { jobFrom } from '../support/job.ts';
import { enterReading, giveReason, now, press, workbench } from '../support/work-copy.ts';

const desk = workbench();

/** The texts of the checks of a card past which nobody goes on. */
function firmChecks(text: string): readonly string[] {
  const lines = jobFrom(text).moves.flatMap((move) => (move.type === 'unit' ? move.lines : []));
  return lines.flatMap((line) => {
    const { exit } = line as { readonly exit?: Exit };
    return exit?.firm ? [line.text] : [];
  });
}

const text = `
item valve : valve "the valve" at "hall" normally closed verify
item drain : valve "the drain" at "hall"
item pump : pump "the pump" normally stopped
gauge level "tank level" in % { reads 0 to 100 by 1   moved by drain }
rule dry "The pump runs only with its valve closed" {
  before pump running
  require valve closed and level at least 20 %
}
card test "Test" {
  number "T-1"
  revision "A" on 2026-01-01
  crew fitter "Fitter"
  step by fitter check valve closed
  step by fitter check drain closed
  step by fitter read level at least 30 %
  step by fitter check "Is the floor dry?"
  step by fitter run pump running for 5 s {
    watch level stays at least 10 % else stop "Report the level."
  }
}`;

test('a check that a rule or a hazard relies on is firm, and another is not', () => {
  const checks = firmChecks(text);
  expect(checks).toHaveLength(2);
  expect(checks.join(' ')).toContain('the valve');
  expect(checks.join(' ')).toContain('tank level');
});

const anyway = (page: Page, step: number) => now(page, step).getByRole('button', { name: 'Go on here all the same' });
const leaveOut = (page: Page, step: number) => now(page, step).getByRole('button', { name: 'Leave out' });

test('a check that nobody makes is left out by two people, and marked as one that was gone on over', async () => {
  const page = await desk.begin(text);
  await press(page, 1, 'OK');
  await press(page, 1, 'Done');
  for (const way of ['Done', 'Leave out']) {
    await press(page, 2, way);
    await giveReason(page, 'There is no light down there.');
    expect(await now(page, 2).locator('.unit-controls .fault').innerText()).toBe('Write the name.');
    await press(page, 2, 'Back');
  }
  await press(page, 2, 'Leave out');
  await page.getByLabel('Name of a second person who agrees').fill('L. Brandt');
  await giveReason(page, 'There is no light down there.');
  const mark = 'Gone on although nobody looked whether it was so: There is no light down there. Agreed by L. Brandt.';
  expect(await page.locator('#step-2 .went-on').innerText()).toBe(mark);
  await page.getByRole('button', { name: 'Stop the work' }).tap();
  await giveReason(page, 'The light is out.');
  expect(await page.locator('.work-record .went-on').innerText()).toContain(mark);
});

test('there is no way past a firm check, and past another only with two people', async () => {
  const page = await desk.begin(text);
  expect(await leaveOut(page, 1).count()).toBe(0);
  await press(page, 1, 'Done');
  expect(await page.locator('.live').innerText()).toContain('The card relies on this. Answer it first: Check that');
  await press(page, 1, 'Not OK');
  expect(await now(page, 1).locator('.is-firm').count()).toBe(1);
  expect(await anyway(page, 1).count()).toBe(0);
  await press(page, 1, 'Done');
  await press(page, 1, 'OK');
  await press(page, 1, 'Done');
  await press(page, 2, 'Not OK');
  expect(await leaveOut(page, 2).count()).toBe(0);
  await anyway(page, 2).tap();
  await page.getByLabel('Name of a second person who agrees').fill('r vogel');
  await giveReason(page, 'The drain is shut further down.');
  expect(await now(page, 2).locator('.exit .fault').innerText()).toContain('write another name');
  await page.getByLabel('Name of a second person who agrees').fill('L. Brandt');
  await giveReason(page, 'The drain is shut further down.');
  await press(page, 2, 'Done');
  await enterReading(page, 3, '25');
  expect(await anyway(page, 3).count()).toBe(0);
  await enterReading(page, 3, '35');
  await press(page, 3, 'Done');
  await press(page, 4, 'Yes');
  await press(page, 4, 'Done');
  await press(page, 5, 'Begin');
  const watch = now(page, 5).locator('.watch');
  await watch.getByRole('button', { name: 'Not OK' }).tap();
  await anyway(page, 5).tap();
  await giveReason(page, 'ok');
  expect(await now(page, 5).locator('.exit .fault').innerText()).toContain('Say in a few words');
  await page.getByLabel('Name of a second person who agrees').fill('L. Brandt');
  await giveReason(page, 'The float hangs on its wire.');
  await page.clock.fastForward(5000);
  await press(page, 5, 'End');
  await press(page, 5, 'Done');
  expect(await page.locator('#step-5 .went-on').innerText()).toContain('The float hangs on its wire.');
});
