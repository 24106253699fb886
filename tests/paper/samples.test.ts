import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBrowser } from '../support/browser.ts';
import { htmlFaults } from '../support/html.ts';
import { pageTexts, printed } from '../support/paper.ts';
import { sampleCards } from '../support/samples.ts';
import { workCopyScript } from '../support/work-copy.ts';

let browser: Browser;
let script: string;
beforeAll(async () => {
  browser = await openBrowser();
  script = await workCopyScript();
});
afterAll(() => browser.close());

const cards = () => ['merganser', 'heron-dyke'].flatMap((world) => sampleCards(world, script));

describe('every sample', () => {
  test('is a finished card, valid HTML, and small', async () => {
    const rendered = cards();
    expect(rendered.length).toBeGreaterThanOrEqual(5);
    for (const { name, html, errors } of rendered) {
      expect(errors, name).toEqual([]);
      expect(await htmlFaults(html), name).toEqual([]);
      // With its drawings and figure; `size.test.ts` holds the 150 kB of 50 plain steps.
      expect(Buffer.byteLength(html), name).toBeLessThan(180_000);
    }
  });

  test('prints with its number on each page, and never a name of the language', async () => {
    for (const { name, html } of cards()) {
      const pages = await pageTexts(await printed(browser, html, 'A4'));
      pages.forEach((page, index) => {
        expect(page, name).toContain(`Page ${index + 1} of ${pages.length}`);
      });
      // Hyphens join words only in numbers and in words that a person would write so.
      expect(pages.join(' '), name).not.toMatch(/\b[a-z]+-\d\b|undefined|\[object|NaN/);
    }
  });
});
