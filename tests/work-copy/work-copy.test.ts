import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { violations } from '../support/axe.ts';
import * as b from '../support/card-builder.ts';
import { inputOf, rinseInput } from '../support/rinse.ts';
import {
  beginWork,
  confirm,
  enterReading,
  faultsOf,
  giveReason,
  isNext,
  now,
  openCard,
  tickThrough,
  workbench,
} from '../support/work-copy.ts';

const desk = workbench({ viewport: { width: 1000, height: 1300 }, acceptDownloads: true });
let rinse: string;

beforeAll(async () => {
  rinse = await desk.stick.put('rinse', rinseInput());
});

async function finish(page: Page): Promise<void> {
  await confirm(page, 'left');
  await page.getByRole('button', { name: 'Finish and make the record' }).click();
}

const press = (page: Page, step: number, name: string) =>
  now(page, step).getByRole('button', { name, exact: true }).click();
const bar = (page: Page) => page.locator('.work-bar');

/** Up to the first run of the starter. */
async function toFirstRun(page: Page): Promise<void> {
  await beginWork(page);
  await tickThrough(page, 1, 6);
  await enterReading(page, 7, '25.5');
  await press(page, 7, 'Done');
  await enterReading(page, 8, '300', 'kPa');
  await press(page, 8, 'Done');
}

async function runFor(page: Page, seconds: number): Promise<void> {
  await press(page, 9, 'Begin');
  await page.clock.fastForward(8000);
  await press(page, 9, 'Reached');
  await page.clock.fastForward((seconds - 8) * 1000);
  await press(page, 9, 'End');
}

test('a whole job: ticks, readings, runs with their rests, signature, record, file', async () => {
  const page = await openCard(desk.context, rinse);
  const faults = faultsOf(page);
  await toFirstRun(page);
  await runFor(page, 25);
  await press(page, 9, 'Done');
  await press(page, 10, 'Start the clock');
  await page.clock.fastForward(60_000);
  await press(page, 10, 'End');
  await press(page, 10, 'Done');
  await runFor(page, 25);
  await press(page, 9, 'Done');
  await press(page, 10, 'Start the clock');
  await page.clock.fastForward(60_000);
  await press(page, 10, 'End');
  await press(page, 10, 'Done');
  await tickThrough(page, 11, 14);
  await page.getByLabel('Name').fill('R. Vogel');
  await page.getByRole('button', { name: 'Sign', exact: true }).click();
  await page.locator('.is-now').getByRole('button', { name: 'Done', exact: true }).click();
  await confirm(page, 'left');
  await page.getByLabel('Remarks').fill('All clean.');
  await finish(page);
  const record = await page.locator('.work-record').innerText();
  for (const part of [
    'Merganser 7',
    'All clean.',
    'Signed by R. Vogel',
    '25.5 V is inside the limit: at least 24 V.',
    '300 kPa is inside the limit',
    'Step 14, Cockpit, R. Vogel',
  ]) {
    expect(record).toContain(part);
  }
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the record as a file' }).click();
  const saved = await readFile(await (await download).path(), 'utf8');
  expect((await download).suggestedFilename()).toBe('MG-72-03-2026-11-25.json');
  expect(JSON.parse(saved)).toMatchObject({
    format: 'cardwright work record',
    card: { number: 'MG-72-03', revision: 'B' },
  });

  const other = await openCard(await desk.browser.newContext(), rinse);
  await beginWork(other);
  await other
    .getByLabel('Load a saved record')
    .setInputFiles({ name: 'record.json', mimeType: 'application/json', buffer: Buffer.from(saved) });
  await other.getByRole('button', { name: 'Put it in their place, and keep them' }).click();
  await expect.poll(() => other.locator('.work-record').innerText()).toContain('Merganser 7');
  await other.context().close();
  expect(faults).toEqual([]);
});

test('the printed record holds what was entered, and no controls', async () => {
  const page = await openCard(desk.context, rinse);
  await beginWork(page);
  await bar(page).getByRole('button', { name: 'Stop the work' }).click();
  await press(page, 15, 'Done');
  await giveReason(page, 'A thunderstorm came up.');
  await finish(page);
  await page.emulateMedia({ media: 'print' });
  const text = await page.locator('body').innerText();
  expect(text).toContain('Reason: A thunderstorm came up.');
  expect(await page.locator('button:visible').count()).toBe(0);
});

describe('readings', () => {
  test('are judged at once in either unit, as the card prints the limit', async () => {
    const page = await openCard(desk.context, rinse);
    await beginWork(page);
    await tickThrough(page, 1, 6);
    await enterReading(page, 7, '24');
    await press(page, 7, 'Done');
    const verdicts: [string, string, string][] = [
      ['40', 'psi', 'inside'],
      ['60.5', 'psi', 'OUTSIDE'],
      ['275.9', 'kPa', 'OUTSIDE'],
      ['276', 'kPa', 'inside'],
      ['413', 'kPa', 'inside'],
      ['413,5', 'kPa', 'OUTSIDE'],
    ];
    for (const [value, unit, verdict] of verdicts) {
      await enterReading(page, 8, value, unit);
      expect(await now(page, 8).locator('.verdict').innerText()).toContain(`${value} ${unit} is ${verdict} the limit`);
    }
  });

  test('that are no number are not taken', async () => {
    const page = await openCard(desk.context, rinse);
    await beginWork(page);
    await tickThrough(page, 1, 6);
    await enterReading(page, 7, 'about 24');
    expect(await now(page, 7).locator('.fault').innerText()).toBe('Enter a number, such as 24.5.');
  });

  test('outside their limit show where to go, and lead there', async () => {
    const page = await openCard(desk.context, rinse);
    await beginWork(page);
    await tickThrough(page, 1, 6);
    await enterReading(page, 7, '23.5');
    expect(await now(page, 7).locator('.exit').innerText()).toContain(
      'It is not so. Go to step 11, “Put everything back”.',
    );
    await press(page, 7, 'Done');
    await isNext(page, 7);
    await press(page, 7, 'Go there');
    await isNext(page, 11);
  });

  test('may be passed over with a reason of substance and a second name, which mark the step and the signature', async () => {
    const page = await openCard(desk.context, rinse);
    await beginWork(page);
    await tickThrough(page, 1, 6);
    await enterReading(page, 7, '23.5');
    await press(page, 7, 'Go on here all the same');
    await giveReason(page, 'ok');
    expect(await now(page, 7).locator('.exit .fault').innerText()).toContain('Say in a few words');
    await giveReason(page, 'The gauge reads 1 V low.');
    expect(await now(page, 7).locator('.exit .fault').innerText()).toBe('Write the name.');
    await page.getByLabel('Name of a second person who agrees').fill('L. Brandt');
    await giveReason(page, 'The gauge reads 1 V low.');
    await press(page, 7, 'Done');
    await isNext(page, 8);
    const mark = 'Gone on although it was not so: The gauge reads 1 V low. Agreed by L. Brandt.';
    expect(await page.locator('#step-7 .went-on').innerText()).toBe(mark);
    await bar(page).getByRole('button', { name: 'Stop the work' }).click();
    await press(page, 15, 'Done');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('#step-7 .went-on').innerText()).toBe(mark);
  });
});

describe('runs and rests', () => {
  test('a rest counts down and keeps the next run shut until it is over, over a reload and a sleep', async () => {
    const page = await openCard(desk.context, rinse);
    await toFirstRun(page);
    await runFor(page, 25);
    await press(page, 9, 'Done');
    await press(page, 10, 'Leave out');
    await giveReason(page, 'Counted on the floor below.');
    await isNext(page, 9);
    expect(await now(page, 9).getByText('Shut until the rest is over').count()).toBe(1);
    expect(await now(page, 9).getByRole('button', { name: 'Begin', exact: true }).count()).toBe(0);
    expect(await bar(page).innerText()).toContain('Rest of the left starter switch: 1:00 left');
    await page.clock.fastForward(20_000);
    expect(await bar(page).innerText()).toContain('0:40 left');
    await page.reload();
    await beginWork(page);
    expect(await now(page, 9).getByText('Shut until the rest is over').count()).toBe(1);
    await page.clock.fastForward(39_000);
    expect(await now(page, 9).getByRole('button', { name: 'Begin', exact: true }).count()).toBe(0);
    await page.clock.fastForward(1000);
    expect(await now(page, 9).getByRole('button', { name: 'Begin', exact: true }).count()).toBe(1);
    expect(await page.locator('.live.signals').innerText()).toBe('The rest of the left starter switch is over.');
  });

  test('the end of a rest is heard, and felt', async () => {
    await desk.context.addInitScript(() => {
      const heard = { tones: 0, shakes: 0 };
      Object.assign(window, { heard });
      const start = OscillatorNode.prototype.start;
      OscillatorNode.prototype.start = function (...when) {
        heard.tones++;
        start.apply(this, when);
      };
      Object.defineProperty(navigator, 'vibrate', { value: () => ++heard.shakes > 0 });
    });
    const signals = (page: Page) => page.evaluate(() => (window as unknown as { heard: object }).heard);
    const page = await openCard(desk.context, rinse);
    await toFirstRun(page);
    await runFor(page, 25);
    await press(page, 9, 'Done');
    await page.clock.fastForward(59_000);
    const before = (await signals(page)) as { tones: number; shakes: number };
    await page.clock.fastForward(1000);
    const after = (await signals(page)) as { tones: number; shakes: number };
    expect(after.tones).toBeGreaterThan(before.tones);
    expect(after.shakes).toBeGreaterThan(before.shakes);
  });

  test('who begins before the rest is over says why', async () => {
    const page = await openCard(desk.context, rinse);
    await toFirstRun(page);
    await runFor(page, 25);
    await press(page, 9, 'Done');
    await press(page, 10, 'Leave out');
    await giveReason(page, 'There is no time for it.');
    await press(page, 9, 'Begin before the rest is over');
    for (const nothing of ['', '5', 'ok', 'No time.']) {
      await giveReason(page, nothing);
      expect(await now(page, 9).locator('.fault').innerText()).toContain('Say in a few words');
    }
    await giveReason(page, 'Fire watch asks for it.');
    expect(await now(page, 9).locator('.clock').innerText()).toBe('Running 0:00 of 0:25');
  });

  test('a run that is cut short asks why, one that is too long says so', async () => {
    const page = await openCard(desk.context, rinse);
    await toFirstRun(page);
    await press(page, 9, 'Begin');
    await page.clock.fastForward(5000);
    // What ends it early is never what a thumb finds first.
    expect(await now(page, 9).locator('.timed .main').count()).toBe(0);
    await press(page, 9, 'End it now');
    await giveReason(page, 'Water came back.');
    expect(await now(page, 9).locator('.verdict').innerText()).toBe('Ran for 0:05');
    await bar(page).getByRole('button', { name: 'Undo the last entry' }).click();
    await page.clock.fastForward(20_000);
    expect(await now(page, 9).locator('.alarm').innerText()).toBe('Time is up. End it now.');
    await page.clock.fastForward(6000);
    expect(await now(page, 9).locator('.alarm').innerText()).toBe('TOO LONG: end it now. Never longer than 0:30.');
    await press(page, 9, 'End');
    expect(await now(page, 9).locator('.verdict').innerText()).toBe('Ran for 0:31, too long by 0:01');
  });

  test('a watch that fails leads to the stop, and its run ends', async () => {
    const page = await openCard(desk.context, rinse);
    await toFirstRun(page);
    await press(page, 9, 'Begin');
    await page.clock.fastForward(11_000);
    expect(await now(page, 9).locator('.watch').innerText()).toContain('The time for it is over.');
    await press(page, 9, 'Not reached');
    expect(await now(page, 9).locator('.exit').innerText()).toContain(
      'STOP. Do step 15 (last page). Then report the starter.',
    );
    await press(page, 9, 'Go there');
    await isNext(page, 15);
    expect(await bar(page).innerText()).toContain('Rest of the left starter switch: 1:00 left');
  });
});

test('a step out of order asks why, and is not asked for again', async () => {
  const page = await openCard(desk.context, rinse);
  await beginWork(page);
  await page.getByRole('button', { name: 'Step 3: Done' }).click();
  await giveReason(page, 'The lever is near.');
  expect(await page.locator('#step-3 .entry').innerText()).toContain('The lever is near.');
  await tickThrough(page, 1, 2);
  await isNext(page, 4);
});

test('each round of a repeat ticks its own box', async () => {
  const page = await openCard(desk.context, rinse);
  await toFirstRun(page);
  await runFor(page, 25);
  await press(page, 9, 'Done');
  expect(
    await page
      .locator('#step-9 .times .box')
      .evaluateAll((boxes) => boxes.map((box) => box.classList.contains('is-ticked'))),
  ).toEqual([true, false]);
});

test('undo takes back one entry at a time', async () => {
  const page = await openCard(desk.context, rinse);
  await beginWork(page);
  await tickThrough(page, 1, 3);
  const undo = bar(page).getByRole('button', { name: 'Undo the last entry' });
  await undo.click();
  await isNext(page, 3);
  await undo.click();
  await undo.click();
  await isNext(page, 1);
  await isNext(page, 1);
});

test('a closed page loses nothing', async () => {
  const page = await openCard(desk.context, rinse);
  await beginWork(page);
  await tickThrough(page, 1, 6);
  await enterReading(page, 7, '25');
  await page.close();
  const again = await openCard(desk.context, rinse);
  await again.getByRole('button', { name: 'Go on with the work' }).click();
  await isNext(again, 7);
  expect(await now(again, 7).getByLabel('Reading').inputValue()).toBe('25');
});

test('two cards in two windows keep apart, one card in two windows stays together', async () => {
  const small = inputOf(
    b.card('Small', [b.stage('Work', [b.step(undefined, 'One'), b.step(undefined, 'Two')])], {
      number: b.words('S-1'),
    }),
  );
  const first = await openCard(desk.context, rinse);
  const second = await openCard(desk.context, await desk.stick.put('small', small));
  await beginWork(first);
  await beginWork(second);
  await tickThrough(first, 1, 2);
  await tickThrough(second, 1, 1);
  await isNext(first, 3);
  await isNext(second, 2);
  const third = await openCard(desk.context, rinse);
  await beginWork(third);
  await tickThrough(third, 3, 3);
  await isNext(first, 4);
  expect(await first.locator('.live').innerText()).toContain('changed in another window');
});

describe('a device that keeps nothing', () => {
  const refuse = {
    full: () => {
      Storage.prototype.setItem = () => {
        throw new DOMException('full', 'QuotaExceededError');
      };
    },
    forbidden: () => {
      Object.defineProperty(window, 'localStorage', {
        get() {
          throw new DOMException('no', 'SecurityError');
        },
      });
    },
  };
  test.each(['full', 'forbidden'] as const)(
    'is said plainly where its storage is %s, and the job goes on',
    async (how) => {
      await desk.context.addInitScript(refuse[how]);
      const page = await openCard(desk.context, rinse);
      await beginWork(page);
      await tickThrough(page, 1, 2);
      await isNext(page, 3);
      expect(await page.locator('.work-tools .fault').innerText()).toContain('does not keep what you enter');
      const warned = page.waitForEvent('dialog');
      await page.close({ runBeforeUnload: true });
      expect((await warned).type()).toBe('beforeunload');
      await (await warned).accept();
    },
  );
});

test('a file of another card is refused and changes nothing', async () => {
  const page = await openCard(desk.context, rinse);
  await beginWork(page);
  await tickThrough(page, 1, 2);
  const content = JSON.stringify({ format: 'cardwright work record', version: 1, card: { id: 'other' }, entries: [] });
  await page
    .getByLabel('Load a saved record')
    .setInputFiles({ name: 'x.json', mimeType: 'application/json', buffer: Buffer.from(content) });
  await expect.poll(() => page.locator('.live').innerText()).toContain('another card');
  await isNext(page, 3);
});

test('the keyboard alone is enough', async () => {
  const page = await openCard(desk.context, rinse);
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  for (const text of ['W-17', 'Merganser 7', 'Hangar 2', 'R. Vogel', 'M. Anders']) {
    await page.keyboard.type(text);
    await page.keyboard.press('Tab');
  }
  for (const _ of ['begin', 'tools', 'rest', 'done']) await page.keyboard.press('Enter');
  for (let step = 1; step <= 6; step++) await page.keyboard.press('Enter');
  await isNext(page, 7);
  await page.keyboard.type('25');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Enter');
  await isNext(page, 8);
});

/** A card with a statement of every sort. */
function everySort(text = (plain: string) => plain) {
  const valve = b.kind('valve', { closed: 'Close {}', open: 'Open {}' });
  const drain = b.item('drain', valve, text('the drain valve'), { normal: 'closed' });
  const vents = ['left', 'right'].map((side) =>
    b.item(side, valve, text(`the ${side} vent`), { at: text('pump house') }),
  );
  const first = b.role('first', text('First hand'));
  const second = b.role('second', text('Second hand'));
  const end = b.label('end');
  const step = (plain: string) => b.step(first, text(plain));
  return b.card(
    text('Every sort'),
    [
      b.admonition('note', text('Read all of it first.')),
      b.stage(text('Work'), [
        b.when(text('it rains'), [step('Fit the cover.')], [step('Put the cover aside.')]),
        b.keep(b.is(drain, 'closed'), b.goTo(end)),
        b.choose([text('by hand'), [step('Pump ten strokes.')]], [text('by motor'), [step('Start the motor.')]]),
        b.forEach(vents, (vent) => [b.step(first, [b.set([vent, 'open'])])]),
        b.together([first, [step('Watch the gauge.')]], [second, [b.step(second, text('Watch the seal.'))]]),
        b.repeatUntil(
          3,
          text('the water is clear'),
          [b.step(first, [b.record(text('the colour of the water'))])],
          b.stop(text('Report the water.')),
        ),
        b.step(first, [b.check(text('no water runs'), b.goTo(end)), b.sign(first, text('Dry'))]),
      ]),
      b.stage(text('End'), [step('Tidy up.')], { label: end }),
      b.stage(text('Make safe'), [step('Shut the main valve.')], { whenStopped: true }),
    ],
    { number: b.words(text('E-1')), crew: [first, second] },
  );
}

describe('a card with a statement of every sort', () => {
  const answer = (page: Page, name: string) => page.locator('.is-now').getByRole('button', { name }).first().click();

  test('is walked through, with its questions, choices, lanes and rounds', async () => {
    const page = await openCard(desk.context, await desk.stick.put('sorts', inputOf(everySort())));
    const faults = faultsOf(page);
    await beginWork(page);
    await answer(page, 'No');
    await tickThrough(page, 2, 2);
    await answer(page, 'Do this one: by motor');
    expect(await now(page, 4).locator('.keep-note').innerText()).toContain(
      'see to it at all times that the drain valve is closed',
    );
    await tickThrough(page, 4, 6);
    await isNext(page, 7);
    await isNext(page, 8);
    await tickThrough(page, 8, 8);
    await tickThrough(page, 7, 7);
    for (const [round, colour] of ['brown', 'clear'].entries()) {
      expect(await now(page, 9).locator('.round').innerText()).toBe(`Time ${round + 1} of 3`);
      await now(page, 9).getByLabel('Value').fill(colour);
      await press(page, 9, 'Enter');
      await press(page, 9, 'Done');
      await answer(page, colour === 'clear' ? 'Yes' : 'No');
    }
    await press(page, 10, 'Yes');
    await now(page, 10).getByLabel('Name').fill('R. Vogel');
    await press(page, 10, 'Sign');
    await press(page, 10, 'Done');
    await tickThrough(page, 11, 11);
    expect(await page.locator('.work-record').innerText()).toContain('the colour of the water clear');
    expect(faults).toEqual([]);
  });

  test('leads out of what is to be kept when it is no longer so', async () => {
    const page = await openCard(desk.context, await desk.stick.put('sorts', inputOf(everySort())));
    await beginWork(page);
    await answer(page, 'Yes');
    await tickThrough(page, 1, 1);
    await answer(page, 'by hand');
    await press(page, 3, 'It is no longer so');
    await press(page, 3, 'Go there');
    await isNext(page, 11);
  });

  test.each([
    '<img src=x onerror=alert(1)>',
    '</script><script>alert(1)</script>',
    '"><svg onload=alert(1)>',
    ['{name} {{ $', '{alert(1)} $& \\u003c'].join(''),
    '\u202e\u2066\u0000\u0007',
  ])('runs nothing that its texts say: %j', async (nasty) => {
    const page = await openCard(
      desk.context,
      await desk.stick.put('nasty', inputOf(everySort((plain) => `${plain} ${nasty}`))),
    );
    const faults = faultsOf(page);
    let alerts = 0;
    page.on('dialog', (dialog) => {
      alerts++;
      void dialog.dismiss();
    });
    await beginWork(page);
    await answer(page, 'No');
    await tickThrough(page, 2, 2);
    await bar(page).getByRole('button', { name: 'Stop the work' }).click();
    await press(page, 12, 'Done');
    await giveReason(page, `It was found so: ${nasty}`);
    await finish(page);
    expect(await page.locator('.work-record img, .work-record script, .step img').count()).toBe(0);
    expect([alerts, faults]).toEqual([0, []]);
  });
});

describe('accessibility', () => {
  test('of the card as printed, the work copy, a failed reading, a run and the record', async () => {
    const page = await openCard(desk.context, rinse);
    expect(await violations(page)).toEqual([]);
    await beginWork(page);
    await tickThrough(page, 1, 6);
    expect(await violations(page)).toEqual([]);
    await enterReading(page, 7, '20');
    expect(await violations(page)).toEqual([]);
    await enterReading(page, 7, '25');
    await press(page, 7, 'Done');
    await enterReading(page, 8, '50');
    await press(page, 8, 'Done');
    await press(page, 9, 'Begin');
    await page.clock.fastForward(26_000);
    expect(await violations(page)).toEqual([]);
    await bar(page).getByRole('button', { name: 'Stop the work' }).click();
    await press(page, 15, 'Done');
    expect(await violations(page)).toEqual([]);
    await giveReason(page, 'It is clean enough.');
    await finish(page);
    expect(await violations(page)).toEqual([]);
  });

  test('of a card with a statement of every sort', async () => {
    const page = await openCard(desk.context, await desk.stick.put('sorts', inputOf(everySort())));
    expect(await violations(page)).toEqual([]);
    await beginWork(page);
    expect(await violations(page)).toEqual([]);
  });

  test('of the tools that are asked for first, and of the form of a hand-over', async () => {
    const page = await desk.begin(`card tried "Tried" { number "T-1" revision "A" on 2026-01-01 crew fitter "Fitter"
      tools "Torque wrench" calibrated step by fitter "Look." }`);
    await page.locator('.facts .is-now').waitFor();
    await page.getByRole('button', { name: 'Hand over the work' }).click();
    expect(await violations(page)).toEqual([]);
  });

  test('targets are big enough for gloves', async () => {
    const page = await openCard(desk.context, rinse);
    await beginWork(page);
    await tickThrough(page, 1, 6);
    const sizes = await page
      .locator('button:visible, input:visible')
      .evaluateAll((targets) =>
        targets.map((target) => target.getBoundingClientRect()).map(({ width, height }) => Math.min(width, height)),
      );
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(44);
  });
});
