import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { renderCard } from '../../server/render/render.ts';
import { openBrowser } from '../support/browser.ts';
import * as b from '../support/card-builder.ts';
import { pageTexts, printed } from '../support/paper.ts';
import { inputOf, rinseInput } from '../support/rinse.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const oneLine = (text: string) => text.replace(/\s+/g, ' ');
const pagesOf = async (html: string, format?: 'A4' | 'Letter') =>
  (await pageTexts(await printed(browser, html, format))).map(oneLine);

/** 12 stages of 25 steps, an admonition before every fifth. */
function longCard() {
  const crew = [b.role('first', 'First hand'), b.role('second', 'Second hand')];
  const steps = (stage: number) =>
    Array.from({ length: 25 }, (_, index) => {
      const name = `${stage}-${index + 1}`;
      const step = b.step(
        crew[index % 2],
        `Do the work called W${name} with care and look at the result before you go on.`,
      );
      return index % 5 === 4 ? [b.admonition('warning', `Mind the thing called M${name}.`), step] : [step];
    }).flat();
  return b.card(
    'A very long job',
    Array.from({ length: 12 }, (_, index) => b.stage(`Part ${index + 1}`, steps(index + 1))),
    { number: b.words('LJ-1'), revision: b.words('A'), crew },
  );
}

describe('every page', () => {
  test.each(['A4', 'Letter'] as const)('carries number, title, revision and its own number on %s', async (paper) => {
    const html = renderCard(
      rinseInput({ settings: { secondUnits: 'metric', paper, print: 'full', record: 'neutral' } }),
    );
    const pages = await pagesOf(html);
    expect(pages.length).toBeGreaterThan(2);
    pages.forEach((page, index) => {
      expect(page).toContain('MG-72-03 Rinse the left compressor after a salt-water sortie');
      expect(page).toContain('Revision B 2026-10-02');
      expect(page).toContain(`Page ${index + 1} of ${pages.length}`);
    });
  });

  test('takes the sheet that the printer holds where no paper is set', async () => {
    const html = renderCard(
      rinseInput({ settings: { secondUnits: 'none', paper: 'printer', print: 'full', record: 'neutral' } }),
    );
    const letter = (await printed(browser, html, 'Letter')).toString('latin1');
    expect(letter).toMatch(/MediaBox \[0 0 612 792\]/);
    const a4 = (await printed(browser, html, 'A4')).toString('latin1');
    expect(a4).toMatch(/MediaBox \[0 0 59[45]\.\d+ 84[12]\.\d+\]/);
  });

  test('says how many warnings are open', async () => {
    const input = rinseInput();
    const warning = {
      code: 'prose.vague',
      level: 'warning',
      place: input.card.place,
      message: 'Say how much.',
      path: [],
      fixes: [],
    } as const;
    const pages = await pagesOf(renderCard({ ...input, findings: [warning, { ...warning, level: 'hint' }] }));
    expect(pages.length).toBeGreaterThan(2);
    expect(pages.filter((page) => !/1 warning is open.*Page/.test(page))).toEqual([]);
    expect(pages[0]).toContain('Say how much.');
    const draft = await pagesOf(renderCard({ ...input, findings: [warning, { ...warning, level: 'error' }] }));
    expect(draft.join()).not.toContain('open');
  });

  test('of a draft says so, and its findings stand at the end with their steps', async () => {
    const input = rinseInput();
    const stage = input.card.body[3] as ReturnType<typeof b.stage>;
    const step = stage.body[1] as ReturnType<typeof b.step>;
    const finding = {
      code: 'duty.short-rest',
      level: 'error',
      message: 'The left starter rests 40 s and needs 60 s.',
      path: [],
      fixes: [],
    } as const;
    const pages = await pagesOf(renderCard({ ...input, findings: [{ ...finding, place: step.place }] }));
    for (const page of pages) expect(page.match(/DRAFT/g)?.length).toBeGreaterThanOrEqual(1);
    const list = pages.join(' ').split('Findings in this draft')[1];
    expect(list).toContain('step 8');
    expect(list).toContain('The left starter rests 40 s and needs 60 s.');
  });
});

test('the parts stand in the order in which a crew needs them', async () => {
  const text = (await pagesOf(renderCard(rinseInput()))).join(' ');
  const order = [
    'Crew',
    'Before you start',
    'For the whole card',
    'Make the aircraft safe',
    'Bring power to the aircraft',
    'Rinse',
    'Put everything back',
    'When a check fails',
    'How the machine is left',
    'Revision record',
    'Record of the work',
    'If you stop',
  ];
  let from = text.indexOf('Crew');
  for (const part of order) {
    const found = text.indexOf(part, from);
    expect(found, part).toBeGreaterThanOrEqual(from);
    from = found;
  }
});

test('what to do on a stop is a page of its own, and its steps are numbered last', async () => {
  const pages = await pagesOf(renderCard(rinseInput()));
  const last = pages.at(-1);
  expect(last).toContain('If you stop');
  expect(last).toContain('15 Stop the ground power cart.');
  expect(last).not.toContain('Record of the work');
});

test('no step is torn from its admonition over 300 steps, and no step is torn in two', async () => {
  const pages = await pagesOf(renderCard(inputOf(longCard())));
  expect(pages.length).toBeGreaterThan(10);
  for (let stage = 1; stage <= 12; stage++) {
    for (let index = 1; index <= 25; index++) {
      const holding = pages.filter((page) => page.includes(`called W${stage}-${index} `));
      expect(holding, `step ${stage}-${index}`).toHaveLength(1);
      expect(holding[0]).toMatch(
        new RegExp(`called W${stage}-${index} with care and look at the result before you go on\\.`),
      );
      if (index % 5 === 0) expect(holding[0]).toContain(`called M${stage}-${index}.`);
    }
  }
});

test('table heads are repeated on each page that a table runs on to', async () => {
  const check = (name: number) => b.step(undefined, [b.check(`mark ${name} is green`, b.stop(`Report mark ${name}.`))]);
  const card = b.card('Many checks', [
    b.stage(
      'Marks',
      Array.from({ length: 90 }, (_, index) => check(index + 1)),
    ),
  ]);
  const pages = await pagesOf(renderCard(inputOf(card)));
  const withRows = pages.filter((page) => /Step \d+ Check: mark/.test(page));
  expect(withRows.length).toBeGreaterThan(1);
  for (const page of withRows) expect(page).toContain('Where What must be so If it is not');
});

test('lanes that go on over the page name their roles there too, and none stands alone', async () => {
  const [first, second] = [b.role('first', 'First hand'), b.role('second', 'Second hand')];
  const lane = (count: number) =>
    Array.from({ length: count }, (_, index) => b.step(undefined, `Turn nut ${index + 1}.`));
  for (const above of [0, 18, 21, 24]) {
    const card = b.card('Nuts', [...lane(above), b.together([first, lane(60)], [second, lane(50)])], {
      crew: [first, second],
    });
    const pages = await pagesOf(renderCard(inputOf(card)));
    const heads = pages.map((page) => page.match(/First hand Second hand (?:\d+ )?Turn nut/g)?.length ?? 0);
    const withLanes = heads.lastIndexOf(1) - heads.indexOf(1) + 1;
    expect(withLanes).toBeGreaterThan(1);
    expect(heads.slice(heads.indexOf(1), heads.lastIndexOf(1) + 1)).toEqual(Array(withLanes).fill(1));
    expect(pages.join(' ').match(/First hand Second hand/g)).toHaveLength(withLanes);
  }
});

test('long words, right-to-left and Chinese text stay on the sheet', async () => {
  const long = 'Kompressorschaufelreinigungsflüssigkeitsbehälterverschlussschraube'.repeat(3);
  const card = b.card(
    `${long}`,
    [
      b.stage('第一阶段：检查', [b.step(b.role('a', long), [b.check('压力表读数正常')])]),
      b.stage('افحص المضخة', [b.step(b.role('b', 'المشغّل'), 'أغلق الصمام الأيسر قبل البدء.')]),
    ],
    { crew: [b.role('a', long)], tools: [b.words(long)] },
  );
  const page = await browser.newPage({ viewport: { width: 794, height: 1123 } });
  await page.emulateMedia({ media: 'print' });
  await page.setContent(renderCard(inputOf(card)));
  const overflow = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(overflow).toBeLessThanOrEqual(0);
  const text = (await page.locator('body').innerText()).normalize();
  expect(text).toContain('压力表读数正常');
  expect(await page.locator('.line', { hasText: 'أغلق' }).evaluate((line) => getComputedStyle(line).direction)).toBe(
    'rtl',
  );
  await page.close();
});
