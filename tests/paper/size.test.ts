import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { renderCard } from '../../server/render/render.ts';
import { openBrowser } from '../support/browser.ts';
import * as b from '../support/card-builder.ts';
import { inputOf } from '../support/rinse.ts';
import { beginWork, workCopyScript } from '../support/work-copy.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

/** Steps as a card has them: orders, checks, readings, admonitions. */
function cardOfSteps(count: number) {
  const valve = b.kind('valve', { closed: 'Close {}', open: 'Open {}' });
  const pressure = b.gauge('p', 'psi', 'oil pressure', { at: 'control desk' });
  const crew = [b.role('first', 'First hand'), b.role('second', 'Second hand')];
  const step = (index: number) => {
    const item = b.item(`v${index}`, valve, `the drain valve of tank ${index}`, {
      at: 'pump house, east wall',
      normal: 'closed',
    });
    if (index % 5 === 0)
      return b.step(crew[0], [
        b.read(pressure, b.reading(pressure, b.range(40, 60, 'psi')), b.stop('Report the pressure.')),
      ]);
    return index % 5 === 1
      ? b.step(crew[1], [b.check(b.is(item, 'closed'))])
      : b.step(crew[1], [b.set([item, 'open'])]);
  };
  const body = Array.from({ length: count }, (_, index) =>
    index % 10 === 0 ? [b.admonition('warning', 'Mind the hot pipes.'), step(index)] : [step(index)],
  ).flat();
  return b.card('A card of its size', [b.stage('Work', body)], { number: b.words('S-1'), crew });
}

test('50 steps with their work copy are under 150 kB', async () => {
  const html = renderCard(inputOf(cardOfSteps(50), { workCopy: await workCopyScript() }));
  expect(Buffer.byteLength(html)).toBeLessThan(150_000);
});

/** The most that one step done changes on the page: what has to be laid out again grows with it. */
async function mostChangedByOneStep(count: number): Promise<number> {
  const html = renderCard(inputOf(cardOfSteps(count), { workCopy: await workCopyScript() }));
  const page = await browser.newPage();
  await page.setContent(html);
  await beginWork(page);
  const changes = await page.evaluate(() => {
    const observer = new MutationObserver(() => {});
    observer.observe(document.body, { subtree: true, childList: true, attributes: true, characterData: true });
    return Array.from({ length: 20 }, () => {
      document.querySelector<HTMLElement>('.is-now .done')?.click();
      return observer.takeRecords().length;
    });
  });
  await page.close();
  return Math.max(...changes);
}

test('a step done in a long card changes no more of the page than in a short one', async () => {
  const inShort = await mostChangedByOneStep(30);
  expect(inShort).toBeGreaterThan(0);
  expect(await mostChangedByOneStep(300)).toBeLessThanOrEqual(inShort);
});
