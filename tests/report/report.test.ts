/** The report of a folder: what it says, and how it works in a browser. */
import { execFileSync } from 'node:child_process';
import AxeBuilder from '@axe-core/playwright';
import { buildSync } from 'esbuild';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Folder, folder } from '../command-line/support.ts';
import { openBrowser } from '../support/browser.ts';

const plant = `item drain : valve "the drain valve" normally closed
item vent  : valve "the vent valve"  normally closed
rule vent-first "Open the vent before the drain" { before drain open require vent open source "Plant manual, 4.2" }
rule drained "The drain is closed at the end" { at end require drain closed }
`;
const card = (number: number, body: string, fields = '') => `use "../plant.card"
card c${number} "Card ${number}" { number "P-${number}"  revision "A"  crew hand "Hand" ${fields}
${body}
}
`;
const kept = 'step set vent open  step set drain open  step set drain closed  step set vent closed';

const shop = () =>
  folder()
    .write('plant.card', plant)
    .write('cards/1.card', card(1, kept))
    .write('cards/2.card', card(2, 'step set drain open  step set drain closed'))
    .write(
      'cards/3.card',
      card(3, 'accept safety.rule because "The vent is blocked today."\nstep set drain open  step set drain closed'),
    )
    .write('cards/10.card', card(10, 'step "Look at <b>the hose</b>."'));

async function report(here: Folder, ...more: string[]): Promise<string> {
  expect(await here.run(['report', 'cards', ...more], '.', { reportScript: () => script })).toMatchObject({
    out: 'report.html\n',
  });
  return here.read('report.html');
}

const script = new TextDecoder().decode(
  buildSync({ entryPoints: ['client/report/page.ts'], bundle: true, format: 'iife', write: false }).outputFiles[0]
    ?.contents,
);

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

async function open(html: string) {
  const page = await (await browser.newContext()).newPage();
  await page.route('**/*', (route) => route.fulfill({ contentType: 'text/html', body: html }));
  await page.goto('http://report.example/');
  const rows = async (caption: string) => {
    const found = page
      .locator('table', { has: page.locator('caption', { hasText: caption }) })
      .locator('tbody tr:visible');
    return (await found.allInnerTexts()).map((text) => text.split(/\s*\t\s*|\s*\n\s*/));
  };
  return { page, rows };
}

describe('a report', () => {
  test('says how each card stands, with its findings, its acceptances and its rules', async () => {
    const { rows } = await open(await report(shop()));
    const cards = await rows('All cards');
    expect(cards.map((cells) => [cells[0], cells[3]])).toEqual([
      ['P-1', 'clean'],
      ['P-10', 'clean'],
      ['P-2', '1 error'],
      ['P-3', 'clean'],
    ]);
    expect(await rows('All steps that the proof does not follow')).toEqual([
      expect.arrayContaining(['P-10 · Card 10', '1. Look at <b>the hose</b>.', 'for people']),
    ]);
    expect(await rows('All findings')).toEqual([expect.arrayContaining(['P-2 · Card 2', 'error', 'safety.rule'])]);
    expect(await rows('All acceptances')).toEqual([
      expect.arrayContaining(['P-3 · Card 3', 'safety.rule', 'The vent is blocked today.']),
    ]);
    expect(await rows('Each rule in each card')).toEqual([
      ['Open the vent before the drain', 'holds', 'not begun', 'broken', 'accepted'],
      ['The drain is closed at the end', 'holds', 'holds', 'holds', 'holds'],
    ]);
    expect(await rows('Rules in force')).toEqual([
      ['Open the vent before the drain', '–', 'Plant manual, 4.2', 'plant.card:3'],
      ['The drain is closed at the end', '–', 'no source', 'plant.card:4'],
    ]);
    expect((await rows('Files that cards use'))[0]?.slice(0, 2)).toEqual(['plant.card', '4']);
  });

  test('says of each card whether it was released, and has changed since', async () => {
    const here = shop();
    await here.run(['release', 'cards/1.card', 'cards/10.card', '--to', 'out']);
    here.write('cards/10.card', card(10, 'step "Look again."'));
    const { rows } = await open(await report(here, '--released', 'out'));
    expect((await rows('All cards')).map((cells) => [cells[0], cells[4]])).toEqual([
      ['P-1', 'released as A'],
      ['P-10', 'released as A, changed since'],
      ['P-2', 'never released'],
      ['P-3', 'never released'],
    ]);
  });

  test('names the checks that the settings switch off, and calls no such card clean', async () => {
    const here = shop().write('cards/cardwright.json', '{"levels":{"safety":"off"}}');
    const { page, rows } = await open(await report(here));
    expect((await rows('All cards'))[0]?.[3]).toBe('checks lowered');
    expect(await page.locator('#settings ~ ul').innerText()).toContain('safety: off for P-1 · Card 1');
  });

  test('sorts by a column, numbers as numbers, and shows only the rows that have the words', async () => {
    const { page, rows } = await open(await report(shop()));
    const numbers = async () => (await rows('All cards')).map(([number]) => number);
    const head = page.locator('table').first().getByRole('button', { name: 'Number' });
    await head.click();
    expect(await numbers()).toEqual(['P-1', 'P-2', 'P-3', 'P-10']);
    await head.click();
    expect(await numbers()).toEqual(['P-10', 'P-3', 'P-2', 'P-1']);
    await page.getByLabel('Show only rows with').fill('p-2 ERROR');
    expect(await numbers()).toEqual(['P-2']);
    expect(await rows('All acceptances')).toEqual([]);
  });

  test('tells from Git by whom and when an acceptance was written, how old it is, and sorts by that', async () => {
    const here = shop();
    const on = new Date(Date.now() - 40.5 * 86_400_000);
    const day = on.toISOString().slice(0, 10);
    const git = (...args: readonly string[]) =>
      execFileSync('git', ['-c', 'user.name=Ann Other', '-c', 'user.email=a@b', ...args], {
        cwd: here.path,
        env: { ...process.env, GIT_AUTHOR_DATE: on.toISOString() },
      });
    const acceptances = async () => (await open(await report(here))).rows('All acceptances');
    expect((await acceptances())[0]).not.toContain('not committed');
    git('init', '--quiet');
    expect((await acceptances())[0]).toEqual(expect.arrayContaining(['not committed', '–']));
    git('add', '.');
    git('commit', '--quiet', '-m', 'All');
    expect((await acceptances())[0]).toEqual(expect.arrayContaining([`Ann Other · ${day}`, '40']));
    on.setTime(Date.now() - 9.5 * 86_400_000);
    here.write(
      'cards/5.card',
      card(5, 'accept safety.rule because "A trial."\nstep set drain open  step set drain closed'),
    );
    git('add', '.');
    git('commit', '--quiet', '-m', 'More');
    const { page, rows } = await open(await report(here));
    const ages = async () => (await rows('All acceptances')).map((cells) => [cells[0], cells.at(-2)]);
    await page.getByRole('button', { name: 'Age in days' }).click();
    expect(await ages()).toEqual([
      ['P-5 · Card 5', '9'],
      ['P-3 · Card 3', '40'],
    ]);
    await page.getByRole('button', { name: 'Age in days' }).click();
    expect((await ages()).map(([name]) => name)).toEqual(['P-3 · Card 3', 'P-5 · Card 5']);
  });

  test('loses nothing on paper, with as many cards in the matrix as stand across it', async () => {
    const here = shop();
    for (let number = 11; number < 40; number++) here.write(`cards/${number}.card`, card(number, kept));
    const { page } = await open(await report(here));
    // A4 across, without its margins, at 96 points to the inch.
    await page.setViewportSize({ width: 1032, height: 703 });
    await page.emulateMedia({ media: 'print' });
    const widths = await page.locator('table').evaluateAll((tables) => tables.map((table) => table.scrollWidth));
    expect(widths.filter((width) => width > 1032)).toEqual([]);
    const across = page.locator('table', { has: page.locator('caption', { hasText: 'Each rule in each card' }) });
    expect(await across.evaluateAll((all) => all.map((table) => table.querySelectorAll('thead th').length))).toEqual([
      33, 2,
    ]);
    expect(await across.locator('thead th').allInnerTexts()).toEqual(expect.arrayContaining(['P-11', 'P-39']));
  });

  test('asks nothing of the network, makes no markup of a text, and can be used without seeing it', async () => {
    const { page } = await open(await report(shop()));
    expect(await page.locator('b').count()).toBe(0);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
  });
});
