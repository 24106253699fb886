/**
 * What is typed is what stands there: a typist in the real editor, at human speed, who looks at the suggestions or does not.
 * The editor indents, and the typist leaves that to it. At the end the text is brought into the usual layout, which the samples have.
 *
 * `TYPE_ALL=1 npx vitest run --project tests tests/extension/typing.test.ts` types every sample from nothing (about an hour).
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { format } from '../../server/api.ts';
import { closeAllEditors, openFile } from './support/driver.ts';
import { canRunEditor, type Editor, onceMore, openEditor } from './support/editor.ts';

const equipment = `item pump  : pump  "the wash pump"   at "pit" normally stopped
item drain : valve "the drain valve" normally closed
gauge oil "oil pressure" in bar { reads 0 to 10 by 0.5   limit working at least 2 bar }
`;
const stretch = `use "pit.card"

rule shut-first "The drain is shut before the pump runs" {
  before pump running
  require drain closed
  because "Water on the floor is slippery."
}
card rinse "Rinse the pit" {
  number "R-1"   revision "A" on 2026-11-02
  crew fitter "Fitter"

  step by fitter "Look at it."
  step by fitter { set drain open   check "Is it dry?" else stop "Call the office." }
  repeat at most 2 times until oil in working {
    step by fitter takes 1 min read oil
  } else finish
}
`;

const words: readonly string[] = ['drain', 'closed', 'running', 'fitter', 'pump'];

interface Manner {
  /** Milliseconds from one key to the next. */
  readonly pace: number;
  /** Takes names and states out of the list, where it shows them. */
  readonly looks: boolean;
}

/** An editor that closes quotation marks does not let one be forgotten. */
const cannotBeTyped = 'with-faults/slips.card';

const everything = process.env.TYPE_ALL
  ? readdirSync('samples', { recursive: true, encoding: 'utf8' }).filter(
      (file) => file.endsWith('.card') && file !== cannotBeTyped,
    )
  : [];

describe.skipIf(!canRunEditor)('typing', { timeout: 4 * 3_600_000, sequential: true, retry: onceMore }, () => {
  let editor: Editor;

  beforeAll(async () => {
    const empty = ['typed.card', ...everything.map((file) => `typed/${file}`)].map((file) => [file, '']);
    editor = await openEditor({ files: { 'pit.card': equipment, ...Object.fromEntries(empty) } });
  });

  afterAll(() => editor?.close());

  async function typed(file: string, text: string, manner: Manner): Promise<string> {
    const { page, workspace } = editor;
    await openFile(page, file);
    await page.keyboard.press('Control+A');
    await page.keyboard.press('Delete');
    await typeText(page, text, manner);
    for (let press = 0; press < 2; press++) await page.keyboard.press('Escape');
    // A shortcut may be lost where the machine is busy: whoever sees it presses it again.
    const isSaved = async () => {
      await page.keyboard.press('Control+S');
      return (await page.locator('.tab.active.dirty').count()) === 0;
    };
    await expect.poll(isSaved, { interval: 1_000 }).toBe(true);
    await closeAllEditors(page);
    return readFileSync(join(workspace, file), 'utf8');
  }

  it.each<[string, string, Manner]>([
    ['60 ms a key', stretch, { pace: 60, looks: false }],
    ['120 ms a key', stretch.slice(0, stretch.indexOf('card rinse')), { pace: 120, looks: false }],
    [
      '400 ms a key',
      stretch.slice(stretch.indexOf('  step by fitter "Look'), stretch.indexOf('  step by fitter {')),
      { pace: 400, looks: false },
    ],
    ['60 ms a key, looking', stretch.slice(stretch.indexOf('rule')), { pace: 60, looks: true }],
  ])('at %s', async (_, text, manner) => {
    expect(layout(await typed('typed.card', text, manner))).toBe(layout(text));
  });

  it('a text whose quotation mark was forgotten ends with its line', async () => {
    // What the server sends for an Enter is dropped by the editor where the next letter comes first, as it may on a busy machine.
    const typedText = await typed('typed.card', 'step "Look.\nstep "Dry it."', { pace: 400, looks: false });
    expect(layout(typedText)).toBe('step "Look."\nstep "Dry it."');
  });

  it('pastes what was copied', async () => {
    const { page, workspace } = editor;
    await page.evaluate((text) => navigator.clipboard.writeText(text), stretch);
    await openFile(page, 'typed.card');
    await page.keyboard.press('Control+A');
    await page.keyboard.press('Control+V');
    // What is on its way may be saved too early: the text before this one is still there then.
    const saved = async () => {
      await page.keyboard.press('Control+S');
      return readFileSync(join(workspace, 'typed.card'), 'utf8');
    };
    await expect.poll(saved).toBe(stretch);
  });

  it.each(everything)('%s from nothing', async (file) => {
    const text = readFileSync(join('samples', file), 'utf8');
    expect(layout(await typed(`typed/${file}`, text, { pace: 60, looks: false }))).toBe(layout(text));
  });
});

/** Without indents and blank lines at the end; in the usual layout where the text parses. */
function layout(text: string): string {
  return (format(text) ?? text)
    .split('\n')
    .map((line) => line.trim())
    .join('\n')
    .trim();
}

async function typeText(page: Page, text: string, manner: Manner): Promise<void> {
  const lines = text.trimEnd().split('\n');
  for (const [index, line] of lines.entries()) {
    await typeLine(page, line.trim(), manner);
    if (index < lines.length - 1) await page.keyboard.press('Enter', { delay: manner.pace });
  }
}

async function typeLine(page: Page, line: string, manner: Manner): Promise<void> {
  for (const piece of line.match(/"(?:\\.|[^"])*"|[\p{L}\p{N}-]+|\s+|[^\s]/gu) ?? []) {
    if (manner.looks && words.includes(piece)) await choose(page, piece, manner);
    else await page.keyboard.type(piece, { delay: manner.pace });
  }
}

/** Types two letters, and takes the word from the list by its arrow keys; where the list has it not, types on. */
async function choose(page: Page, word: string, { pace }: Manner): Promise<void> {
  await page.keyboard.type(word.slice(0, 2), { delay: pace });
  const rows = page.locator('.suggest-widget.visible .monaco-list-row');
  const isThere = await rows
    .first()
    .waitFor({ timeout: 1_500 })
    .then(
      () => true,
      () => false,
    );
  if (isThere) await atRest(() => rows.allInnerTexts());
  const marked = rows.and(page.locator('.focused')).locator('.label-name');
  for (let press = isThere ? await rows.count() : 0; press > 0; press--) {
    // A list that closed by itself leaves the arrow keys to the text.
    if ((await rows.count()) === 0) break;
    await page.keyboard.press('ArrowDown', { delay: pace });
    if ((await marked.allInnerTexts()).includes(word)) return page.keyboard.press('Enter', { delay: pace });
  }
  // Nobody goes on typing beside a row that was marked and is not meant.
  if (isThere) await page.keyboard.press('Escape', { delay: pace });
  return page.keyboard.type(word.slice(2), { delay: pace });
}

/** Nobody chooses from a list that still changes. */
async function atRest(look: () => Promise<readonly string[]>): Promise<void> {
  let last: readonly string[] = [];
  const isAsBefore = async () => {
    const before = last;
    last = await look();
    return last.join('\n') === before.join('\n');
  };
  await expect.poll(isAsBefore, { interval: 200 }).toBe(true);
}
