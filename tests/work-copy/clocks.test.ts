import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { asRead } from '../support/html.ts';
import { enterReading, giveReason, isNext, now, press, workbench } from '../support/work-copy.ts';

const desk = workbench();

const text = `
kind turner { off "Release {}", cranking "Hold {}" }
item starter : turner "the starter" normally off {
  duty cranking at most 30 s, then rest 60 s
}
gauge speed "speed" in % { reads 0 to 100 by 1 }
gauge torque "torque" in % { reads 0 to 100 by 1 }
card clocks "Clocks" {
  number "C-1"
  revision "A" on 2026-01-01
  crew fitter "Fitter"
  stage "Work" {
    step by fitter {
      set starter cranking
      wait until speed at least 12 % within 10 s else stop "Report the starter."
    }
    step by fitter takes 1 s to 3 s set starter off
    step by fitter bring torque 60 % to 70 % within 30 s
  }
  stage "Make safe" when stopped {
    step by fitter takes 1 s to 2 s set starter off
  }
}`;

const record = (page: Page) => page.locator('.work-record').innerText();

test('a state begun by a set has a clock from its own tick, an alarm at its limit, and its overtime in the record', async () => {
  const page = await desk.begin(text);
  expect(asRead(await page.locator('#step-1 .remark').first().innerText())).toContain('30 s');
  await press(page, 1, 'This is done');
  await page.clock.fastForward(4000);
  expect(await page.locator('.work-bar .clock').innerText()).toBe('The starter: 0:04 of 0:30');
  expect(await now(page, 1).locator('.clock').innerText()).toBe('0:06 to wait');
  await press(page, 1, 'Reached');
  await press(page, 1, 'Done');
  await page.clock.fastForward(27_000);
  expect(await page.locator('.work-bar .clock').innerText()).toContain('TOO LONG');
  expect(await page.locator('.live.signals').innerText()).toContain('The starter: TOO LONG');
  await page.clock.fastForward(5000);
  await press(page, 2, 'Done');
  expect(await page.locator('.work-bar .clock.is-running').count()).toBe(0);
  await page.getByRole('button', { name: 'Stop the work' }).tap();
  await press(page, 4, 'Done');
  expect(await record(page)).toContain('The starter: too long by 0:06');
});

test('a clock that is set back during a run is told, and the run is too long when it is', async () => {
  const page = await desk.begin(text);
  await press(page, 1, 'This is done');
  await page.clock.fastForward(20_000);
  await page.clock.setSystemTime('2026-11-25T07:00:00Z');
  await page.clock.fastForward(1000);
  expect(await page.locator('.live').innerText()).toContain('clock of this device was set back');
  expect(await page.locator('.work-bar .clock').innerText()).toBe('The starter: 0:20 of 0:30');
  await page.clock.fastForward(11_000);
  expect(await page.locator('.work-bar .clock').innerText()).toContain('TOO LONG');
});

test('a wait that runs out is a failed check', async () => {
  const page = await desk.begin(text);
  await press(page, 1, 'This is done');
  await page.clock.fastForward(10_400);
  await expect.poll(() => now(page, 1).locator('.exit').count()).toBe(1);
  expect(await now(page, 1).locator('.verdict.is-outside').innerText()).toContain('the time for it is over');
  expect(await now(page, 1).getByRole('button', { name: 'Reached' }).count()).toBe(0);
  await press(page, 1, 'Go there');
  await press(page, 4, 'Done');
  expect(await record(page)).toContain('Not reached: the time for it is over.');
});

test('a state is not begun again before its rest is over, without a reason', async () => {
  const again = `${text.slice(0, text.indexOf('card clocks'))}
card again "Again" {
  number "C-2"
  revision "A" on 2026-01-01
  crew fitter "Fitter"
  stage "Work" {
    step by fitter takes 5 s set starter cranking
    step by fitter takes 5 s set starter off
    step by fitter wait 60 s
    step by fitter takes 5 s set starter cranking
    step by fitter takes 5 s set starter off
  }
}`;
  const page = await desk.begin(again);
  await press(page, 1, 'Done');
  await press(page, 2, 'Done');
  await press(page, 3, 'Leave out');
  await giveReason(page, 'Counted by hand.');
  await press(page, 4, 'Done');
  expect(await now(page, 4).locator('.question').innerText()).toContain('1:00 left');
  await giveReason(page, 'The fire watch asks for it.');
  await isNext(page, 5);
});

test('what is brought about too late has failed, and says by how much, and what it reads', async () => {
  const page = await desk.begin(text);
  await press(page, 1, 'This is done');
  await press(page, 1, 'Reached');
  await press(page, 1, 'Done');
  await press(page, 2, 'Done');
  await press(page, 3, 'Begin');
  await page.clock.fastForward(35_000);
  expect(await now(page, 3).locator('.clock').innerText()).toBe('The time for it is over.');
  await enterReading(page, 3, '65');
  expect(await now(page, 3).locator('.verdict').first().innerText()).toBe('Too late by 0:05.');
  await enterReading(page, 3, '75');
  const verdicts = await now(page, 3).locator('.verdict').allInnerTexts();
  expect(verdicts).toEqual(['Too late by 0:05.', '75 % is OUTSIDE the limit: 60 to 70 %.']);
  expect(await now(page, 3).locator('.exit').count()).toBe(1);
});
