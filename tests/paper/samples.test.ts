import { readFile } from 'node:fs/promises';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { defaultSettings } from '../../shared/settings.ts';
import { openBrowser } from '../support/browser.ts';
import { found, htmlFaults } from '../support/html.ts';
import { pageTexts, printed } from '../support/paper.ts';
import { sampleCards } from '../support/samples.ts';
import { plugIn, workCopyScript } from '../support/work-copy.ts';

let browser: Browser;
let script: string;
beforeAll(async () => {
  browser = await openBrowser();
  script = await workCopyScript();
});
afterAll(() => browser.close());

const cards = () => ['merganser', 'heron-dyke', 'bakery'].flatMap((world) => sampleCards(world, script));

/** 150 kB for each 50 steps, with all drawings and figures. */
function mostBytes(html: string): number {
  const steps = found(html, 'step').length;
  return 150_000 * Math.max(1, steps / 50);
}

describe('every sample', () => {
  test('is a finished card, valid HTML, and small', async () => {
    const rendered = cards();
    expect(rendered.length).toBeGreaterThanOrEqual(5);
    for (const { name, html, errors } of rendered) {
      expect(errors, name).toEqual([]);
      expect(await htmlFaults(html), name).toEqual([]);
      expect(Buffer.byteLength(html), name).toBeLessThan(mostBytes(html));
    }
  });

  test.each(['de', 'fr'])('is small in %s too', (language) => {
    const rendered = ['merganser', 'heron-dyke'].flatMap((world) => sampleCards(world, script, undefined, language));
    for (const { name, html } of rendered) {
      expect(html, name).toContain(`<html lang="${language}"`);
      expect(Buffer.byteLength(html), name).toBeLessThan(mostBytes(html));
    }
  });

  test('has the digest that a browser makes of it', async () => {
    const stick = await plugIn(script);
    for (const { name, html } of cards()) {
      const page = await browser.newPage();
      await page.goto(await stick.write(name, html));
      await page.getByRole('button', { name: 'Work with this card' }).click();
      const download = page.waitForEvent('download');
      await page.getByRole('button', { name: 'Save the record as a file' }).click();
      const record: unknown = JSON.parse(await readFile(await (await download).path(), 'utf8'));
      const digest = await page.locator('meta[name=digest]').getAttribute('content');
      expect(record, name).toMatchObject({ card: { digest } });
      expect(await page.locator('.altered').count(), name).toBe(0);
      await page.close();
    }
    await stick.remove();
  });

  test('prints with its number on each page, and never a name of the language', async () => {
    for (const { name, html } of cards()) {
      const pages = await pageTexts(await printed(browser, html, 'A4'));
      pages.forEach((page, index) => {
        expect(page, name).toContain(`Page ${index + 1} of ${pages.length}`);
        expect(bodyOf(page).at(-1), name).not.toMatch(listIntroduction);
        expect(bodyOf(page)[0], name).not.toMatch(/^Keep everyone out of the marked area\.$/);
      });
      // Hyphens join words only in numbers and in words that a person would write so.
      expect(pages.join(' '), name).not.toMatch(/\b[a-z]+-\d\b|undefined|\[object|NaN/);
    }
  });
});

/** What stands between the margins. */
const bodyOf = (page: string) =>
  page
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '' && !running.test(line));

const running =
  /^(Page|Seite) \d+|^(Digest|Prüfsumme|Empreinte) |^(Work order|Auftrag|Ordre de travail)|(Revision|Ausgabe|Révision) [A-Z] \d{4}-\d\d-\d\d/;
const tableHead = /^(Where|Item|Revision|Role|Wo|Teil|Ausgabe|Funktion|Où|Élément|Révision|Fonction) {2,}/;
const listIntroduction = /^(Put back by this card|Left as this card sets it):$/;
const ifYouStop = { en: 'If you stop', de: 'Bei Abbruch', fr: 'En cas d’arrêt' };
const signatureLine = /^(Name|Nom)\s?: .*(Signature|Unterschrift)\s?:/;

test.each([
  ['A4', 'en'],
  ['A4', 'de'],
  ['A4', 'fr'],
  ['Letter', 'en'],
  ['Letter', 'de'],
  ['Letter', 'fr'],
] as const)(
  'on %s in %s the longest samples take eight pages at most, and no head or signature stands alone',
  async (format, language) => {
    const own = language === 'en' ? undefined : language;
    const longest = ['merganser', 'heron-dyke']
      .flatMap((world) => sampleCards(world, script, { ...defaultSettings, record: '14 CFR 43.9' }, own))
      .filter(({ name }) => ['run-up', 'change-packing-1'].includes(name));
    expect(longest).toHaveLength(2);
    for (const { name, html } of longest) {
      const sheets = await pageTexts(await printed(browser, html, format));
      // At its head, and along its edge.
      expect(sheets.at(-1)?.split(ifYouStop[language]), name).toHaveLength(3);
      const pages = sheets.map(bodyOf);
      expect(pages.length, name).toBeLessThanOrEqual(8);
      for (const page of pages) {
        expect(page.at(-1), name).not.toMatch(tableHead);
        expect(page[0], name).not.toMatch(signatureLine);
        expect(page.length, name).toBeGreaterThan(3);
      }
    }
  },
);

describe.each(['A4', 'Letter'] as const)('on %s', (format) => {
  test('letters in drawings are of 8 pt at least', async () => {
    const page = await browser.newPage({ viewport: { width: format === 'A4' ? 703 : 725, height: 1000 } });
    await page.emulateMedia({ media: 'print' });
    for (const { name, html } of cards()) {
      await page.setContent(html);
      const sizes = await page.evaluate(() =>
        [...document.querySelectorAll<SVGTextElement>('svg.picture text')].map(
          (text) => Number.parseFloat(getComputedStyle(text).fontSize) * (text.getScreenCTM()?.a ?? 0) * 0.75,
        ),
      );
      expect(Math.min(9, ...sizes), name).toBeGreaterThanOrEqual(7.99);
    }
    await page.close();
  });
});

test('a compact print has every step on fewer sheets', async () => {
  const compact = sampleCards('merganser', script, { ...defaultSettings, print: 'compact' });
  const [rinse = '', run = ''] = ['rinse-left', 'run-up'].map(
    (name) => compact.find((card) => card.name === name)?.html,
  );
  const pagesOf = async (html: string, paper: 'A4' | 'Letter') => pageTexts(await printed(browser, html, paper));
  expect((await pagesOf(rinse, 'A4')).length).toBeLessThanOrEqual(2);
  expect(await pagesOf(run, 'Letter')).toHaveLength(2);
  const pages = await pagesOf(run, 'A4');
  expect(pages).toHaveLength(2);
  const text = pages.join(' ').replace(/\s+/g, ' ');
  for (let step = 1; step <= 45; step++) expect(text).toMatch(new RegExp(`\\b${step}\\b`));
  expect(text).toContain('If you stop');
  expect(text).not.toContain('The way through the card');
});
