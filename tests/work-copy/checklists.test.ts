/** What is made sure of before the first step and after the last one. */
import { expect, test } from 'vitest';
import { openText } from '../support/check.ts';
import { found, textIn } from '../support/html.ts';
import {
  confirm,
  fillHead,
  giveReason,
  isNext,
  now,
  openCard,
  openWork,
  press,
  putText,
  workbench,
} from '../support/work-copy.ts';

const desk = workbench();

const text = `
kind breaker { closed "Close {}", pulled "Pull {}" }
item pump : pump "the pump" at "the cellar" normally stopped
item valve : valve "the valve" normally closed
item drain : valve "the drain" normally closed
item tag : breaker "the tagged breaker" normally closed
item lamp : breaker "the lamp breaker" normally closed
rule fed "The pump runs only with the drain closed" { before pump running require drain closed }
card test "Test" {
  number "T-1"
  revision "A" on 2026-01-01
  crew fitter "Fitter"
  tools "Spanner"
  leaves valve open because "The tank fills over night."
  assume drain closed because "The last crew closed it."
  step by fitter set pump running
  step by fitter { set tag pulled  accept safety.left-changed because "The next shift goes on." }
  step by fitter set pump stopped
  step by fitter set valve open
}`;

const lists = (html: string) =>
  ['before', 'left'].map((name) =>
    found(html, name).flatMap((section) => found(section, 'li').map((item) => textIn(item).trim())),
  );

test('the lists name what the card relies on, and what it changed: put back or left, and why', () => {
  const [page] = openText(text).render('main.card');
  expect(lists(page?.html ?? '')).toEqual([
    [
      'Everything that this card lists under tools, parts and materials is at hand.',
      'The drain is closed. Why: The last crew closed it.',
    ],
    [
      'The pump (the cellar) is stopped.',
      'The tagged breaker is pulled. Why: The next shift goes on.',
      'The valve is open. Why: The tank fills over night.',
    ],
  ]);
});

test('they are worked through, ticked and recorded, and nobody goes on past what the card relies on', async () => {
  const page = await openCard(desk.context, await putText(desk.stick, 'lists', text));
  await openWork(page);
  await fillHead(page);
  const before = page.locator('section.before.is-now');
  const relied = before.locator('.line').nth(1);
  await relied.getByRole('button', { name: 'Not OK' }).tap();
  expect(await relied.locator('.exit').innerText()).toContain('Put it right, then say here that it is so.');
  expect(await relied.getByRole('button', { name: /Go/ }).count()).toBe(0);
  await before.getByRole('button', { name: 'Done', exact: true }).tap();
  expect(await before.count()).toBe(1);
  await confirm(page, 'before');
  expect(await page.locator('.before .box.is-ticked').count()).toBe(2);
  await isNext(page, 1);
  for (const step of [1, 2, 3, 4]) await press(page, step, 'Done');
  const left = page.locator('section.left.is-now');
  await left.locator('.line').nth(2).getByRole('button', { name: 'Not OK' }).tap();
  await left.getByRole('button', { name: 'Go on here all the same' }).tap();
  await page.getByLabel('Name of a second person who agrees').fill('L. Brandt');
  await giveReason(page, 'The next shift has closed it already.');
  for (const line of [0, 1])
    await left.locator('.line').nth(line).getByRole('button', { name: 'OK', exact: true }).tap();
  await left.getByRole('button', { name: 'Done', exact: true }).tap();
  const record = await page.locator('.work-record').innerText();
  for (const part of [
    'Before you start',
    'The drain is closed',
    'How the machine is left',
    'The pump (the cellar) is stopped. OK.',
    'closed it already. Agreed by L. Brandt',
  ])
    expect(record).toContain(part);
  expect(await now(page, 4).count()).toBe(0);
});
