/** What must not pass a bad machine, and what the record must hold: each worked through by touch, and by keyboard alone. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { bothHands, type Hands } from '../support/hands.ts';
import { pageTexts } from '../support/paper.ts';
import { openCard, putText, workbench } from '../support/work-copy.ts';

const desk = workbench();

const equipment = `
item valve : valve "the valve" normally closed
item drain : valve "the drain" normally closed
item pump : pump "the pump" normally stopped { duty running at most 30 s, then rest 60 s }
gauge heat "turbine temperature" in degC { reads 0 to 900 by 10 }
gauge air "outside air temperature" in degC { reads -40 to 60 by 1 }
gauge left "left torque" in % { reads 0 to 120 by 1 }
gauge right "right torque" in % { reads 0 to 120 by 1 }
gauge split "torque split" in % = left - right { limit matched -4 % to 4 % }
item feed : pump "the feed pump" normally stopped
gauge level "tank level" in % { reads 0 to 100 by 1 }
rule dry "The feed pump never runs dry" { before feed running require level at least 20 % }
gauge power "power" in kW { limit now by air { below 5 degC: at least 70 kW, at least 5 degC: at least 60 kW } }
`;
const cardOf = (body: string) =>
  `${equipment} card tried "Tried" { number "T-1" revision "A" on 2026-01-01 crew fitter "Fitter" crew mate "Mate"\n${body}\n}`;

describe.each(bothHands)('by $name', (hands: Hands) => {
  let count = 0;
  /** Opens the card, fills in its head and makes sure of what the card relies on. */
  async function begin(body: string, context = desk.context): Promise<Page> {
    const page = await open(body, { context });
    await page.locator('.work-head form').waitFor({ state: 'detached' });
    const before = page.locator('section.before.is-now');
    if ((await before.count()) === 0) return page;
    for (const line of await before.locator('.line').all()) await hands.press(line, 'OK');
    await hands.press(before, 'Done');
    return page;
  }
  async function open(body: string, { mate = 'S. Ono', others = '', context = desk.context } = {}): Promise<Page> {
    const page = await openCard(context, await putText(desk.stick, `${hands.name}-${count++}`, cardOf(body) + others));
    await hands.press(page.locator('.work-tools'), 'Work with this card on this screen');
    const head = page.locator('.work-head');
    await hands.write(head, 'Machine type, serial number', 'Merganser 7');
    await hands.write(head, 'Name (Fitter)', 'R. Vogel');
    await hands.write(head, 'Name (Mate)', mate);
    await hands.press(head, 'Begin the work');
    return page;
  }
  const here = (page: Page) => page.locator('.is-now').first();
  const press = (page: Page, button: string) => hands.press(here(page), button);
  const isNext = (page: Page, step: number) =>
    expect.poll(() => page.locator('.is-now').first().getAttribute('id')).toBe(`step-${step}`);
  const faults = (page: Page) => here(page).locator('.fault').allInnerTexts();
  async function read(page: Page, value: string): Promise<void> {
    await hands.write(here(page), 'Reading', value);
    await press(page, 'Enter');
  }
  async function reason(page: Page, text: string, name?: string): Promise<void> {
    const place = page.locator('form', { hasText: 'Keep the reason and go on' });
    await hands.write(place, 'Reason', text);
    if (name !== undefined) await hands.write(place, 'Name of a second person who agrees', name);
    await hands.press(place, 'Keep the reason and go on');
  }

  test('A1: a doubtful number is asked back, one off the scale is refused, one over the limit fails', async () => {
    const page = await begin('step by fitter read heat at most 830 degC step by mate "Look."');
    await read(page, '1,020');
    expect((await faults(page)).join()).toContain('Which number do you mean?');
    await read(page, '1020');
    expect((await faults(page)).join()).toContain('The scale ends at 900 °C');
    await read(page, '850');
    expect(await here(page).locator('.verdict').innerText()).toContain('OUTSIDE the limit');
    expect(await here(page).locator('.verdict .glued').allInnerTexts()).toEqual(['850 °C', '830 °C.']);
    await press(page, 'Done');
    await isNext(page, 1);
    await read(page, '800');
    await press(page, 'Done');
    await isNext(page, 2);
  });

  test('A1: what is understood is shown before it counts, a verdict goes with its entry, a blank asks for a number', async () => {
    const page = await begin('step by fitter read heat at most 830 degC step by mate record "Oil" in degC');
    await hands.write(here(page), 'Reading', '850,5');
    expect(await here(page).locator('.understood').innerText()).toBe('Understood: 850.5 °C');
    expect(await here(page).locator('.verdict').count()).toBe(0);
    await press(page, 'Enter');
    expect(await here(page).locator('.verdict').innerText()).toContain('OUTSIDE');
    await hands.write(here(page), 'Reading', '80');
    expect(await here(page).locator('.verdict, .exit').count()).toBe(0);
    await press(page, 'Done');
    await isNext(page, 2);
    await hands.write(here(page), 'Value', 'warm');
    await press(page, 'Enter');
    expect((await faults(page)).join()).toContain('Enter a number');
    await hands.write(here(page), 'Value', '1.234.567');
    await press(page, 'Done');
    await isNext(page, 2);
  });

  test('A2: a limit takes its row from what was read, and a question on it answers itself', async () => {
    const page = await begin(`step by fitter read air
      step by fitter read power in now
      if air below 5 degC { step by mate "Warm the oil." } else { step by mate "Leave the oil." }`);
    await read(page, '-3');
    await press(page, 'Done');
    expect(await here(page).locator('.row-from').innerText()).toContain('-3 °C (Step 1');
    await read(page, '65');
    expect(await here(page).locator('.verdict').innerText()).toContain('OUTSIDE the limit: at least 70 kW');
    await read(page, '71');
    await press(page, 'Done');
    await isNext(page, 3);
  });

  test('A2: with nothing read a limit starts empty; what is worked out, waited for and repeated until follows from readings', async () => {
    const page = await begin(`step by fitter read power in now
      step by fitter { read left   read right }
      step by fitter read split in matched
      step by fitter { check left below 80 %   wait until right below 80 % within 5 min }
      repeat at most 3 times until air at least 5 degC { step by mate read air } else stop "Cold."
      step by mate "Look."`);
    await read(page, '65');
    expect((await faults(page)).join()).toBe('Choose which of them is so now.');
    await hands.choose(
      here(page),
      'Which of these is so now?',
      'the outside air temperature is below 5 °C: at least 70 kW',
    );
    await press(page, 'Enter');
    expect(await here(page).locator('.verdict').innerText()).toContain('OUTSIDE');
    await read(page, '72');
    await press(page, 'Done');
    for (const [index, value] of ['70', '67'].entries())
      await hands.write(here(page).locator('.line').nth(index), 'Reading', value);
    await press(page, 'Done');
    await isNext(page, 3);
    await press(page, 'Done');
    expect(await page.locator('#step-3 .entry').innerText()).toContain('3 %');
    await isNext(page, 4);
    expect(await here(page).locator('.verdict').allInnerTexts()).toEqual([
      expect.stringContaining('left torque 70 %'),
      expect.stringContaining('right torque 67 %'),
    ]);
    await press(page, 'Done');
    await read(page, '2');
    await press(page, 'Done');
    await isNext(page, 5);
    await read(page, '6');
    await press(page, 'Done');
    await isNext(page, 6);
  });

  test('A3: what was set running has a clock, an alarm at its limit and its overtime in the record', async () => {
    const page = await begin(`step by fitter takes 5 s set pump running
      step by fitter takes 5 s set pump stopped
      step by mate "Look."`);
    await press(page, 'Done');
    await page.clock.fastForward(36_000);
    expect(await page.locator('.work-bar .clock').innerText()).toContain('TOO LONG');
    expect(await page.locator('.live.signals').count()).toBe(1);
    await press(page, 'Done');
    expect(await page.locator('.work-bar').innerText()).not.toContain('TOO LONG');
    expect(await page.locator('.live.signals').count()).toBe(0);
    await hands.press(page.locator('.work-bar'), 'Stop the work');
    await reason(page, 'The pump ran too long.');
    expect(await page.locator('.work-record').innerText()).toContain('Done. The pump: too long by 0:06');
  });

  test('A3: a run has an alarm at its limit, and a wait that runs out is a failed check', async () => {
    const page = await begin(`step by fitter run pump running for 20 s
      step by fitter wait until heat at most 100 degC within 10 s else stop "Hot."
      step by mate "Look."`);
    await press(page, 'Begin');
    await page.clock.fastForward(33_000);
    expect(await here(page).locator('.alarm').innerText()).toContain('TOO LONG');
    await press(page, 'End');
    await press(page, 'Done');
    await press(page, 'Start the clock');
    await page.clock.fastForward(10_400);
    await expect.poll(() => here(page).locator('.exit').count()).toBe(1);
    await press(page, 'Done');
    await isNext(page, 2);
    await press(page, 'Go there');
    await reason(page, 'It does not cool down.');
    const record = await page.locator('.work-record').innerText();
    expect(record).toContain('too long by 0:03');
    expect(record).toContain('Not reached: the time for it is over.');
  });

  test('A4: stopping shows the emergency steps at once, and asks why after them', async () => {
    const page = await begin(`step by fitter "Look." step by fitter "Look again."
      stage "Make safe" when stopped { step by mate "Close the tap." }`);
    await hands.press(page.locator('.work-bar'), 'Stop the work');
    await isNext(page, 3);
    // Who has stopped has nothing to press for it once more.
    expect(await page.locator('.work-bar button').allInnerTexts()).not.toContain('Stop the work');
    expect(await page.getByLabel('Reason').count()).toBe(0);
    await press(page, 'Done');
    await reason(page, '5');
    expect(await page.locator('.work-record .fault').first().innerText()).toContain('Say in a few words');
    await reason(page, 'Oil runs from the hub.');
    expect(await page.locator('.work-record').innerText()).toContain('Oil runs from the hub.');
  });

  test('A5: going on over a failed check takes a reason of substance and a second person, and marks the signature', async () => {
    const page = await begin('step by fitter check drain closed step by mate "Look." { sign mate "Seen" }');
    await press(page, 'Not OK');
    await press(page, 'Done');
    await isNext(page, 1);
    await press(page, 'Go on here all the same');
    await reason(page, 'ok', 'L. Brandt');
    expect((await faults(page)).join()).toContain('Say in a few words');
    await reason(page, 'It is shut further down.', 'r vogel');
    expect((await faults(page)).join()).toContain('write another name');
    await reason(page, 'It is shut further down.', 'L. Brandt');
    await press(page, 'Done');
    await isNext(page, 2);
    expect(await here(page).locator('.went-on').innerText()).toContain('Step 1: Gone on although it was not so');
  });

  test('A5: past what a rule relies on nobody goes, nor by leaving the step out', async () => {
    const page = await begin('step by fitter check level at least 20 % step by fitter run feed running for 5 s');
    await press(page, 'Done');
    expect(await page.locator('.live').innerText()).toContain('The card relies on this. Answer it first');
    await press(page, 'Not OK');
    expect(await here(page).locator('.is-firm').count()).toBe(1);
    const offered = await here(page).getByRole('button').allInnerTexts();
    expect(offered).not.toContain('Go on here all the same');
    expect(offered).not.toContain('Leave out');
    await press(page, 'Done');
    await isNext(page, 1);
    await press(page, 'OK');
    await press(page, 'Done');
    await isNext(page, 2);
  });

  test('A6: what is typed counts when the step is done, and an empty name does not', async () => {
    const page = await begin('step by fitter read heat at most 830 degC step by mate "Look." { sign mate "Seen" }');
    await hands.write(here(page), 'Reading', '840');
    await press(page, 'Done');
    await isNext(page, 1);
    expect(await here(page).locator('.verdict').innerText()).toContain('OUTSIDE');
    await hands.write(here(page), 'Reading', '700');
    await press(page, 'Done');
    await isNext(page, 2);
    await hands.write(here(page), 'Name', ' ');
    await press(page, 'Sign');
    expect((await faults(page)).join()).toContain('Write the name.');
  });

  test('A6: a step for some machines asks the machine first, and is then shown or not', async () => {
    const text = `variant brake hand, motor\n${cardOf('step only brake hand by fitter "Pull." step by mate "Look."')}`;
    const page = await openCard(desk.context, await putText(desk.stick, `machines-${hands.name}`, text));
    await hands.press(page.locator('.work-tools'), 'Work with this card on this screen');
    const head = page.locator('.work-head');
    await hands.write(head, 'Machine type, serial number', 'Merganser 7');
    for (const role of ['Fitter', 'Mate'])
      await hands.write(head, `Name (${role})`, role === 'Mate' ? 'S. Ono' : 'R. Vogel');
    await hands.press(head, 'Begin the work');
    expect(await head.locator('.fault').innerText()).toContain('Fill in the machine');
    await hands.choose(head, 'Brake', 'motor');
    await hands.press(head, 'Begin the work');
    await isNext(page, 2);
    expect(await page.locator('#step-1').isVisible()).toBe(false);
  });

  test('A7: what the card relies on comes first, and how the machine is left comes last', async () => {
    const page = await open(`assume drain closed because "The last crew closed it."
      step by fitter set valve open step by fitter set valve closed`);
    await press(page, 'Done');
    expect(await page.locator('.live').innerText()).toContain('The card relies on this');
    await press(page, 'OK');
    await press(page, 'Done');
    await press(page, 'Done');
    await press(page, 'Done');
    expect(await page.locator('section.left.is-now .line').allInnerTexts()).toEqual([
      expect.stringContaining('The valve is closed.'),
    ]);
    await press(page, 'OK');
    await press(page, 'Done');
    const record = await page.locator('.work-record').innerText();
    expect(record).toContain('The drain is closed.');
    expect(record).toContain('The valve is closed.');
  });

  test('A8: a card that does another gathers what that one needs, and asks for it before its first step', async () => {
    const page = await open('step by mate "Look." do isolate', {
      others: `card isolate "Isolate the bus" { number "T-2" revision "C" on 2026-05-04 crew fitter "Fitter"
        tools "Torque wrench" calibrated materials "Grease" references "Manual 7"
        assume drain closed because "The last crew closed it."
        step by fitter set valve open  step by fitter set valve closed }`,
    });
    const front = await page.locator('header').innerText();
    for (const part of ['Torque wrench', 'Grease', 'Manual 7', 'T-2', 'Isolate the bus', 'C · 2026-05-04'])
      expect(front, part).toContain(part);
    expect(front.replace(/\s+/g, ' ')).toContain('Before it begins: the drain is closed.');
    await hands.write(here(page), 'Torque wrench · Tool number', 'W-17');
    await hands.write(here(page), 'Torque wrench · Due date', '2027-01-31');
    await press(page, 'Done');
    const before = page.locator('section.before.is-now');
    for (const line of await before.locator('.line').all()) await hands.press(line, 'OK');
    await press(page, 'Done');
    for (const step of [1, 2, 3]) {
      await isNext(page, step);
      await press(page, 'Done');
    }
    await hands.press(page.locator('.work-bar'), 'Stop the work');
    await reason(page, 'There is no light left.');
    const record = await page.locator('.work-record').innerText();
    expect(record).toContain('Torque wrench · Tool number: W-17');
    expect(record).toContain('Everything that this card lists under tools, parts and materials is at hand. OK.');
  });

  test('A9: of several actions each has its tick, and what is watched stands before the end of its run', async () => {
    const page = await begin(watched);
    await press(page, 'Begin');
    expect(await here(page).innerText()).toMatch(/While it runs:[\s\S]*Then stop the pump\./);
    await page.clock.fastForward(5000);
    await press(page, 'Reached');
    await press(page, 'End it now');
    await reason(page, 'The air came sooner.');
    await press(page, 'Done');
    await isNext(page, 2);
    expect(await here(page).locator('.letter').allInnerTexts()).toEqual(['a. ', 'b. ']);
  });
  const watched = `step by fitter run pump running for 10 s { watch air reaches at least 5 degC within 8 s else stop "Cold." }
    step by fitter { set valve open   set drain open }
    step by fitter set valve closed, drain closed`;

  test('B10 and B12: rows name who did it, and nobody inspects their own work', async () => {
    const page = await begin(
      'step by fitter "Fit the pin." { sign fitter  sign mate independent "Pin fitted" } step by mate "Look."',
    );
    await hands.write(here(page), 'Name', 'R. Vogel');
    await press(page, 'Sign');
    await hands.write(here(page), 'Name of the inspector', 'r.vogel');
    await press(page, 'Sign');
    expect((await faults(page)).join()).toContain('another person signs here');
    await hands.write(here(page), 'Name of the inspector', 'L. Brandt');
    await press(page, 'Sign');
    await press(page, 'Done');
    await hands.press(page.locator('.work-bar'), 'Stop the work');
    await reason(page, 'There is no light left.');
    const record = await page.locator('.work-record').innerText();
    expect(record).toContain('Pin fitted. Inspected by L. Brandt; the work was done by R. Vogel');
    expect(record).toContain('Step 1, Fitter, R. Vogel');
  });

  test('B10: machine and order stand in the head of each page and in the record, and rows of lanes name the person', async () => {
    const page = await begin('together { by fitter { step "Look." } by mate { step "Look up." } }');
    for (const step of [2, 1]) await hands.press(page.locator(`#step-${step}`), 'Done');
    await hands.write(page.locator('.work-record'), 'Done by (name)', ' ');
    await hands.press(page.locator('.work-record'), 'Finish and make the record');
    expect(await page.locator('.work-record .fault').innerText()).toContain('Write the name.');
    await hands.write(page.locator('.work-record'), 'Done by (name)', 'S. Ono');
    await hands.press(page.locator('.work-record'), 'Finish and make the record');
    const record = await page.locator('.work-record').innerText();
    for (const part of ['Merganser 7', 'Step 1, Fitter, R. Vogel', 'Step 2, Mate, S. Ono'])
      expect(record).toContain(part);
    for (const sheet of await pageTexts(await page.pdf({ preferCSSPageSize: true })))
      expect(sheet).toContain('Merganser 7');
  });

  test('B10: one person in two roles is asked for once, and stands in the record', async () => {
    const page = await open('step by fitter "Look." step by mate "Look again."', { mate: 'r.vogel' });
    const head = page.locator('.work-head');
    expect(await head.locator('.fault').innerText()).toContain('r.vogel stands for more than one role.');
    await hands.write(head, 'Name (Mate)', 'S. Ono');
    await hands.write(head, 'Name (Fitter)', 's.ono');
    await hands.press(head, 'Begin the work');
    expect(await head.locator('.fault').innerText()).toContain('S. Ono stands for more than one role.');
    await hands.press(head, 'Begin the work');
    await isNext(page, 1);
    await hands.press(page.locator('.work-bar'), 'Stop the work');
    await reason(page, 'There is no light left.');
    expect(await page.locator('.work-record').innerText()).toContain('S. Ono does the work of more than one role.');
  });

  test('B11 and B15: a record over another asks first, one changed by hand says so, and two are read together', async () => {
    const page = await begin('step by fitter "Look." step by fitter "Look again." step by mate "Look up."');
    await press(page, 'Done');
    const download = page.waitForEvent('download');
    await hands.press(page.locator('.work-tools'), 'Save the record as a file');
    const file = await readFile(await (await download).path(), 'utf8');
    await press(page, 'Done');
    const load = (content: string) =>
      page
        .getByLabel('Load a saved record')
        .setInputFiles({ name: 'record.json', mimeType: 'application/json', buffer: Buffer.from(content) });
    const question = page.locator('.load-question');
    await load(file.replace('Merganser 7', 'Merganser 9'));
    await expect.poll(() => question.innerText()).toContain('changed by hand');
    await hands.press(question, 'Back');
    await isNext(page, 3);
    await load(file);
    await expect.poll(() => question.innerText()).toContain('entries on this device already');
    await hands.press(question, 'Add it to them');
    await expect.poll(() => page.locator('.live').innerText()).toContain('All entries of this file are here already.');
    await isNext(page, 3);
  });

  test('B11: a record that another takes the place of is kept, and taken up again', async () => {
    const page = await begin('step by fitter "Look." step by mate "Look again."');
    const download = page.waitForEvent('download');
    await hands.press(page.locator('.work-tools'), 'Save the record as a file');
    const buffer = await readFile(await (await download).path());
    await press(page, 'Done');
    await page
      .getByLabel('Load a saved record')
      .setInputFiles({ name: 'record.json', mimeType: 'application/json', buffer });
    await page.locator('.load-question').waitFor();
    await hands.press(page.locator('.load-question'), 'Put it in their place, and keep them');
    await isNext(page, 1);
    await hands.press(page.locator('.work-tools'), 'Back to the 2 entries from before');
    await isNext(page, 2);
  });

  const unsaid = `step by fitter "Open the drain." step by mate "Open the valve." {
    accept prose.unsaid-action because "It is a dummy." by "R. Amsel, quality" }`;

  test('B14: an open warning stands on each page, an accepted one in its table, while the card is worked through', async () => {
    const page = await begin(unsaid);
    const open = page.locator('.open-warnings');
    expect(await open.innerText()).toMatch(/1 warning is open\s+step 1: .*the drain is still closed/);
    await expect.poll(() => page.locator('.accepted tbody tr').allInnerTexts()).toHaveLength(1);
    const [accepted = ''] = await page.locator('.accepted tbody tr').allInnerTexts();
    expect(accepted.split('\t').map((cell) => cell.trim())).toEqual([
      'step 2',
      expect.stringMatching(/the valve is still closed.*prose\.unsaid-action$/),
      'It is a dummy.',
      'R. Amsel, quality',
    ]);
    await press(page, 'Done');
    await press(page, 'Done');
    await hands.press(page.locator('.work-record'), 'Finish and make the record');
    const sheets = await pageTexts(await page.pdf({ preferCSSPageSize: true }));
    expect(sheets.filter((sheet) => !sheet.includes('1 warning is open'))).toEqual([]);
    expect(sheets.join()).toContain('Record of the work, as entered');
  });

  test('B14: a card of which settings switch checks off says which, and nobody can work with it', async () => {
    const levels = { 'prose.unsaid-action': 'hint' } as const;
    const address = await putText(desk.stick, `off-${hands.name}`, cardOf(unsaid), { levels });
    const page = await openCard(desk.context, address);
    expect(await page.locator('.draft-mark').innerText()).toContain(
      'switch off or lower checks of this card (prose.unsaid-action: hint)',
    );
    for (const sheet of await pageTexts(await page.pdf({ preferCSSPageSize: true }))) expect(sheet).toContain('DRAFT');
    expect(await page.getByRole('button').count()).toBe(0);
    // No key comes to anything either.
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement === document.body)).toBe(true);
  });

  test('B15: of two tablets both keep their entries, and only what differs is asked', async () => {
    const body = 'step by fitter "Look." step by fitter read heat at most 830 degC step by mate "Look again."';
    const context = await desk.browser.newContext({ viewport: { width: 820, height: 1180 }, hasTouch: true });
    const [here, there] = [await begin(body), await begin(body, context)];
    for (const [page, value] of [
      [here, '700'],
      [there, '720'],
    ] as const) {
      await press(page, 'Done');
      await read(page, value);
      await press(page, 'Done');
      await isNext(page, 3);
    }
    const download = there.waitForEvent('download');
    await hands.press(there.locator('.work-tools'), 'Save the record as a file');
    const buffer = await readFile(await (await download).path());
    await context.close();
    const file = { name: 'record.json', mimeType: 'application/json', buffer };
    await here.getByLabel('Load a saved record').setInputFiles(file);
    await here.locator('.load-question').waitFor();
    await hands.press(here.locator('.load-question'), 'Add it to them');
    const conflict = here.locator('.conflict');
    await expect.poll(() => conflict.count()).toBe(1);
    expect(await conflict.innerText()).toMatch(/700 °C[\s\S]*720 °C/);
    await hands.press(conflict, 'This counts');
    await hands.write(conflict, 'Name of whoever decides', 'L. Brandt');
    await hands.press(conflict.locator('form'), 'This counts');
    await expect.poll(() => conflict.count()).toBe(0);
    await isNext(here, 3);
  });

  test('B15: where the device keeps nothing it is said, and closing warns', async () => {
    await desk.context.addInitScript(() => {
      Storage.prototype.setItem = () => {
        throw new DOMException('full', 'QuotaExceededError');
      };
    });
    const page = await begin('step by fitter "Look." step by mate "Look again."');
    await press(page, 'Done');
    await isNext(page, 2);
    expect(await page.locator('.work-tools .fault').innerText()).toContain('does not keep what you enter');
    const warned = page.waitForEvent('dialog');
    await page.close({ runBeforeUnload: true });
    expect((await warned).type()).toBe('beforeunload');
    await (await warned).accept();
  });

  test('B13: the work is handed over in the middle, with what is open and how the machine stands', async () => {
    const page = await begin('step by fitter set valve open step by fitter set valve closed');
    await press(page, 'Done');
    await hands.press(page.locator('.work-tools'), 'Hand over the work');
    const form = page.locator('.work-hand-over form');
    const left = ({ x = 0 } = {}) => Math.round(x);
    const parts = await form.locator('h3, ul').all();
    for (const part of parts)
      expect(left((await part.boundingBox()) ?? {})).toBe(left((await form.boundingBox()) ?? {}));
    await hands.write(form, 'Takes over (name)', 'L. Brandt');
    await hands.write(form, 'Hands over (name)', 'L. Berg');
    await hands.press(form, 'Hand over the work');
    expect(await form.locator('.fault').innerText()).toContain('one of these: R. Vogel, S. Ono.');
    await hands.write(form, 'Hands over (name)', 'R. Vogel');
    await hands.write(form, 'Takes over (name)', 'R Vogel');
    await hands.press(form, 'Hand over the work');
    expect(await form.locator('.fault').innerText()).toContain('Somebody else takes over');
    await hands.write(form, 'Takes over (name)', 'L. Brandt');
    await hands.press(form, 'Hand over the work');
    const handed = await page.locator('.hand-over').innerText();
    expect(handed).toContain('The valve is open.');
    expect(handed).toContain('L. Brandt');
  });
});
