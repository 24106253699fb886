/** The short form of `npm run fuzz`, and every input that once did harm. */
import { afterAll, describe, expect, test } from 'vitest';
import { cardInPage, closeBrowser } from './page.ts';
import { keptInputs, tryInputs } from './run.ts';
import { sorts } from './sorts.ts';

const seed = Number(process.env.SEED ?? Math.floor(Math.random() * 1_000_000));

afterAll(() => closeBrowser());

describe.each(sorts)('$name', (sort) => {
  test(`hold, whatever they are (SEED=${seed})`, { timeout: 600_000 }, async () => {
    const { inputs, crashes } = await tryInputs(sort, { runs: sort.runs.short, seed, seconds: 3600 });
    expect(crashes).toEqual([]);
    expect(inputs).toBe(sort.runs.short);
  });

  test('that once did harm do none', async () => {
    for (const { input } of keptInputs(sort)) await sort.holds(input);
  });
});

test.each([
  ['<img src="//harm.example/x.png">', 'asked for http://harm.example/x.png'],
  ['<script>alert(1)</script>', 'asked 1'],
  ['<script>nothing()</script>', 'failed: nothing is not defined'],
])('a page with %s is told from a card', async (html, did) => {
  expect(await cardInPage(html)).toEqual([did]);
});
