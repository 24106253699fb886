import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { typedNumber } from '../../client/work-copy/readings.ts';
import * as b from '../support/card-builder.ts';
import { inputOf } from '../support/rinse.ts';
import { beginWork, enterReading, isNext, now, openCard, press, workbench } from '../support/work-copy.ts';

describe('what a typed number may mean', () => {
  test.each([
    ['1,020', ['1020', '1.020']],
    ['1.020', ['1020', '1.020']],
    ['-12.500', ['-12500', '-12.500']],
    ['1,020.5', ['1020.5']],
    ['1.020,5', ['1020.5']],
    ['1.020.300', ['1020300']],
    ['1,020,3', []],
  ])('%s is asked back', (text, meanings) => {
    expect(typedNumber(text)).toEqual({ meanings, isSure: false });
  });
  test.each([
    ['1020', '1020'],
    ['1,02', '1.02'],
    ['0.125', '0.125'],
    ['12.5', '12.5'],
    ['+3', '3'],
    ['-3,1250', '-3.1250'],
  ])('%s is sure', (text, meaning) => {
    expect(typedNumber(text)).toEqual({ meanings: [meaning], isSure: true });
  });
});

const desk = workbench();

async function begin(): Promise<Page> {
  const page = await openCard(desk.context, await desk.stick.put('heat', inputOf(heatCard())));
  await beginWork(page);
  return page;
}

function heatCard() {
  const by = b.role('fitter', 'Fitter');
  const heat = b.gauge('heat', 'degC', 'turbine temperature', {
    reads: {
      from: b.range(0, 1000, 'degC').low?.value,
      to: b.range(0, 1000, 'degC').high?.value,
      place: b.place(),
    } as never,
  });
  const bus = b.gauge('bus', 'V', 'bus voltage', {
    reads: { from: b.range(0, 32, 'V').low?.value, to: b.range(0, 32, 'V').high?.value, place: b.place() } as never,
  });
  return b.card(
    'Heat',
    [
      b.stage('Work', [
        b.step(by, [b.read(heat, b.reading(heat, b.atMost(830, 'degC')))]),
        b.step(by, [b.read(bus, b.reading(bus, b.atLeast(24, 'V')))]),
        b.step(by, [b.record('gland temperature', 'degC'), b.record('serial number')]),
        b.step(by, [b.sign(by, 'Done')]),
      ]),
      b.stage('Make safe', [b.step(by, 'Close the valve.'), b.step(by, 'Ring the bell.')], { whenStopped: true }),
    ],
    { number: b.words('H-1'), crew: [by] },
  );
}

const done = (page: Page, step: number) => press(page, step, 'Done');

test('1,020 is asked back and judged as what was meant', async () => {
  const page = await begin();
  await enterReading(page, 1, '1,020');
  expect(await now(page, 1).locator('.verdict').count()).toBe(0);
  expect(await now(page, 1).locator('.fault').innerText()).toBe('Which number do you mean?');
  expect(await now(page, 1).locator('.which button').allInnerTexts()).toEqual(['1020 °C', '1.020 °C']);
  await done(page, 1);
  await isNext(page, 1);
  await now(page, 1).getByLabel('Reading').fill('1.000');
  await page.keyboard.press('Enter');
  await now(page, 1).getByRole('button', { name: '1000 °C' }).tap();
  expect(await now(page, 1).locator('.verdict').innerText()).toContain('1000 °C is OUTSIDE the limit');
});

test('what is understood is shown with its unit, and the last verdict goes with the entry that it was about', async () => {
  const page = await begin();
  await enterReading(page, 1, '800');
  expect(await now(page, 1).locator('.verdict').innerText()).toContain('inside');
  await now(page, 1).getByLabel('Reading').fill('850,5');
  expect(await now(page, 1).locator('.understood').innerText()).toBe('Understood: 850.5 °C');
  expect(await now(page, 1).locator('.verdict').count()).toBe(0);
  await now(page, 1).getByRole('button', { name: 'Enter' }).tap();
  expect(await now(page, 1).locator('.verdict').innerText()).toContain('OUTSIDE');
  await now(page, 1).getByLabel('Reading').fill('warm');
  expect(await now(page, 1).locator('.verdict, .exit').count()).toBe(0);
});

test('off the scale is refused', async () => {
  const page = await begin();
  await enterReading(page, 1, '800');
  await done(page, 1);
  await enterReading(page, 2, '240');
  expect(await now(page, 2).locator('.fault').innerText()).toBe('The scale ends at 32 V: read again.');
  await enterReading(page, 2, '-1');
  expect(await now(page, 2).locator('.fault').innerText()).toBe('The scale begins at 0 V: read again.');
  await enterReading(page, 2, '32');
  expect(await now(page, 2).locator('.verdict').innerText()).toContain('inside');
});

test('what is typed and not entered counts when the step is done, and is lost by no other entry', async () => {
  const page = await begin();
  await now(page, 1).getByLabel('Reading').fill('840');
  await done(page, 1);
  await isNext(page, 1);
  expect(await now(page, 1).locator('.verdict').innerText()).toContain('840 °C is OUTSIDE');
  await now(page, 1).getByLabel('Reading').fill('820');
  await done(page, 1);
  await now(page, 2).getByLabel('Reading').fill('28');
  await done(page, 2);
  const [heat, serial] = [now(page, 3).getByLabel('Value').nth(0), now(page, 3).getByLabel('Value').nth(1)];
  await heat.fill('hot');
  await serial.fill('A-17');
  await serial.press('Enter');
  expect(await heat.inputValue()).toBe('hot');
  await done(page, 3);
  expect(await now(page, 3).locator('.fault').first().innerText()).toBe('Enter a number, such as 24.5.');
  await heat.fill('41.5');
  await done(page, 3);
  await isNext(page, 4);
  expect(await page.locator('#step-3 .entry').innerText()).toContain('A-17 · 41.5 °C');
});

test('a signature without a name is refused', async () => {
  const page = await begin();
  await now(page, 1).getByLabel('Reading').fill('820');
  await done(page, 1);
  await now(page, 2).getByLabel('Reading').fill('28');
  await done(page, 2);
  await now(page, 3).getByLabel('Value').nth(0).fill('40');
  await now(page, 3).getByLabel('Value').nth(1).fill('A-17');
  await done(page, 3);
  for (const name of ['', '  ', '.']) {
    await now(page, 4).getByLabel('Name').fill(name);
    await now(page, 4).getByRole('button', { name: 'Sign', exact: true }).tap();
    expect(await now(page, 4).locator('.fault').innerText()).toBe('Write the name.');
  }
});

test('stopping shows the emergency steps at once and asks for the reason after them', async () => {
  const page = await begin();
  await page.getByRole('button', { name: 'Stop the work' }).tap();
  await isNext(page, 5);
  expect(await page.getByLabel('Reason').count()).toBe(0);
  await done(page, 5);
  await done(page, 6);
  await page.getByLabel('Reason').fill('A thunderstorm came up.');
  await page.getByRole('button', { name: 'Keep the reason and go on' }).tap();
  expect(await page.locator('.work-record').innerText()).toContain('Reason: A thunderstorm came up.');
});
