/** What is asked of each picture finds what it is there for. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser } from '../support/browser.ts';
import { overlaps, tooFaint, unseen } from './support/seen.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const over = 'position: absolute; top: 20px; left: 20px';

test('texts over one another, too faint, hidden or outside of the window', async () => {
  const page = await browser.newPage();
  await page.setContent(`<!DOCTYPE html><html lang="en"><title>T</title><main>
    <p style="${over}">Close the valve</p><p style="${over}">Open the drain</p>
    <p style="margin-top: 90px; color: #ccc; background: #fff">Hardly there</p>
    <p style="visibility: hidden; ${over}">Hidden</p>
    <p style="position: absolute; top: 9000px">Far below</p>
    <div style="${over}; top: 200px; height: 20px; overflow: hidden"><p style="margin: 0">Shown</p><p>Cut off</p></div>
    <p style="position: absolute; top: 236px; left: 20px; margin: 0">Below the cut</p></main>`);
  expect(await overlaps(page.mainFrame())).toEqual(['“Close the valve” and “Open the drain”']);
  expect(await tooFaint(page.mainFrame())).toEqual([expect.stringContaining('Hardly there')]);
  const texts = ['Close the valve', 'Hidden', 'Far below', 'Not written'];
  expect(await unseen(page, page, texts)).toEqual(['Hidden', 'Far below', 'Not written']);
});
