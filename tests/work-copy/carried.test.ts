import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { enterReading, giveReason, isNext, now, press, workbench } from '../support/work-copy.ts';

const desk = workbench();

const equipment = `
item lamp : valve "the valve" normally closed
gauge air "outside air temperature" in degC { reads -40 to 60 by 1 }
gauge left "left torque" in % { reads 0 to 120 by 1 }
gauge right "right torque" in % { reads 0 to 120 by 1 }
gauge split "torque split" in % = left - right { limit matched -4 % to 4 % }
item fan : pump "the fan" normally stopped
gauge oil "oil pressure" in bar { reads 0 to 10 by 1   moved by lamp }
gauge load "load" in % { reads 0 to 100 by 1   moved by lamp }
gauge power "power" in kW {
  limit now by air { below 5 degC: at least 70 kW, at least 5 degC: at least 60 kW }
}
`;
const cardOf = (body: string) => `${equipment}
card test "Test" {
  number "T-1"
  revision "A" on 2026-01-01
  crew fitter "Fitter"
  stage "Work" {
${body}
  }
}`;

const done = (page: Page, step: number) => press(page, step, 'Done');

test('a limit takes its row from what was read of the other gauge, and with nothing read it starts empty', async () => {
  const page = await desk.begin(
    cardOf(`
    step by fitter read power in now
    step by fitter read air
    step by fitter read power in now
    step by fitter "Look out of the window."
    step by fitter read power in now`),
  );
  const which = (step: number) => now(page, step).getByLabel('Which of these is so now?');
  await enterReading(page, 1, '65');
  expect(await now(page, 1).locator('.fault').innerText()).toBe('Choose which of them is so now.');
  expect(await now(page, 1).locator('.verdict').count()).toBe(0);
  await which(1).selectOption({ index: 2 });
  await now(page, 1).getByRole('button', { name: 'Enter' }).tap();
  await done(page, 1);
  await enterReading(page, 2, '-3');
  await done(page, 2);
  expect(await which(3).count()).toBe(0);
  expect(await now(page, 3).locator('.row-from').innerText()).toContain('the one for -3 °C (Step 2, ');
  await enterReading(page, 3, '65');
  expect(await now(page, 3).locator('.verdict').innerText()).toContain('OUTSIDE the limit: at least 70 kW');
  await enterReading(page, 3, '72');
  await done(page, 3);
  await done(page, 4);
  expect(await which(5).count()).toBe(1);
});

test('a gauge is worked out from two others, carried over where they still stand', async () => {
  const page = await desk.begin(
    cardOf(`
    step by fitter { read left   read right }
    step by fitter read split in matched
    step by fitter set lamp open
    step by fitter read split in matched
    step by fitter set lamp closed`),
  );
  const fields = (step: number) => now(page, step).locator('input');
  await fields(1).nth(0).fill('70.5');
  await fields(1).nth(1).fill('68');
  await done(page, 1);
  expect(await fields(2).nth(0).inputValue()).toBe('70.5');
  expect(await now(page, 2).locator('.unit').first().innerText()).toContain('Step 1');
  await done(page, 2);
  await isNext(page, 3);
  expect(await page.locator('#step-2 .entry').innerText()).toContain('2.5 %');
  await done(page, 3);
  expect(await fields(4).nth(0).inputValue()).toBe('');
  await fields(4).nth(0).fill('75');
  await fields(4).nth(1).fill('70');
  await page.keyboard.press('Enter');
  expect(await now(page, 4).locator('.verdict').innerText()).toContain('5 % = 75 % − 70 % is OUTSIDE the limit');
});

test('questions about a gauge that was just read answer themselves and say from which entry', async () => {
  const page = await desk.begin(
    cardOf(`
    step by fitter read air
    if air below 5 degC {
      step by fitter "Warm the oil."
    } else {
      step by fitter "Leave the oil."
    }
    step by fitter read air
    step by fitter { check air below 10 degC   wait until air below 20 degC within 5 min }
    repeat at most 3 times until left at least 50 % {
      step by fitter read left
    } else stop "Report it."
    step by fitter "Go home."`),
  );
  await enterReading(page, 1, '12');
  await done(page, 1);
  await isNext(page, 3);
  await done(page, 3);
  await enterReading(page, 4, '9');
  await done(page, 4);
  await expect.poll(() => now(page, 5).locator('.verdict').count()).toBe(2);
  expect(await now(page, 5).locator('.verdict').first().innerText()).toMatch(
    /Step 4, .*: outside air temperature 9 °C/,
  );
  await done(page, 5);
  await enterReading(page, 6, '40');
  await done(page, 6);
  await enterReading(page, 6, '55');
  await done(page, 6);
  await done(page, 7);
  const record = await page.locator('.work-record').innerText();
  expect(record).toContain('No: it follows from what was read. Step 1');
  // Undo takes the answer with what it followed from.
  await page.getByRole('button', { name: 'Undo the last entry' }).tap();
  await page.getByRole('button', { name: 'Undo the last entry' }).tap();
  await isNext(page, 6);
});

test('a reading is not carried over what may have changed it', async () => {
  const page = await desk.begin(
    cardOf(`
    step by fitter read air
    step by fitter set lamp open
    if air below 5 degC {
      step by fitter "Warm the oil."
    }
    step by fitter { set lamp closed   check air below 10 degC }`),
  );
  await enterReading(page, 1, '-12');
  await done(page, 1);
  await done(page, 2);
  await page.locator('.is-now').getByRole('button', { name: 'No', exact: true }).tap();
  expect(await now(page, 4).locator('.verdict').count()).toBe(0);
  await done(page, 4);
  await answerFor(page, 'Nobody has looked.');
});

const answerFor = async (page: Page, reason: string) => {
  await page.getByLabel('Name of a second person who agrees').fill('L. Brandt');
  await giveReason(page, reason);
};

test('what is to be kept is judged by what was read, and holds the work up', async () => {
  const page = await desk.begin(
    cardOf(`
    step by fitter read air
    keep air at most 30 degC else stop "Report the heat."
    step by fitter check "Is it dry?"
    step by fitter read air
    step by fitter check "Is it clean?"`),
  );
  await enterReading(page, 1, '12');
  await done(page, 1);
  const keep = (step: number) => now(page, step).locator('.keep-note');
  expect(await keep(2).innerText()).toMatch(/OK: it follows from what was read. Step 1, .*12 °C/);
  await press(page, 2, 'Yes');
  await done(page, 2);
  await enterReading(page, 3, '35');
  expect(await keep(3).innerText()).toMatch(/Not OK: it follows from what was read. Step 3, .*35 °C/);
  expect(await now(page, 3).getByRole('button', { name: 'Leave out' }).count()).toBe(0);
  await done(page, 3);
  await press(page, 3, 'Go on here all the same');
  await answerFor(page, 'The sun stands on the gauge.');
  await done(page, 3);
  await isNext(page, 4);
  expect(await keep(4).locator('.exit').count()).toBe(0);
  expect(await page.locator('#step-3 .went-on').innerText()).toContain('The sun stands on the gauge.');
});

test('what is watched, and what a run is for, follows from what was read and cannot have moved', async () => {
  const page = await desk.begin(
    cardOf(`
    step by fitter { read oil   read load }
    step by fitter run fan running for 10 s {
      watch oil reaches at least 1 bar within 5 s else stop "Report the oil."
      watch load stays below 50 % else stop "Report the load."
      watch air stays below 40 degC else stop "Report the heat."
    }
    step by fitter run fan running until oil at least 1 bar within 20 s else stop "Report the oil."`),
  );
  await now(page, 1).locator('input').nth(0).fill('2');
  await now(page, 1).locator('input').nth(1).fill('60');
  await done(page, 1);
  await press(page, 2, 'Begin');
  const watch = (index: number) => now(page, 2).locator('.watch').nth(index);
  expect(await watch(0).locator('.verdict').innerText()).toMatch(/Reached: it follows .*oil pressure 2 bar/);
  expect(await watch(1).locator('.verdict').innerText()).toMatch(/Not OK: it follows .*load 60 %/);
  expect(await watch(2).locator('.verdict').count()).toBe(0);
  await page.clock.fastForward(10_000);
  await press(page, 2, 'End');
  await watch(1).getByRole('button', { name: 'Go on here all the same' }).tap();
  await answerFor(page, 'The load was taken off meanwhile.');
  // Each answers for itself: what fails later is not covered.
  await watch(2).getByRole('button', { name: 'Not OK' }).tap();
  await done(page, 2);
  await watch(2).getByRole('button', { name: 'Go on here all the same' }).tap();
  await answerFor(page, 'The sun stands on the gauge.');
  await done(page, 2);
  await press(page, 3, 'Begin');
  await press(page, 3, 'End');
  await expect.poll(() => now(page, 3).locator('.verdict').last().innerText()).toMatch(/Reached: it follows .*2 bar/);
});
