/**
 * Each view in each theme: that it comes up, that what it is there for can be seen and read in it, and that nothing of ours lies over
 * another; and a picture of it in `.cache/pictures`, to be looked at.
 */
import { mkdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  clearScreen,
  closeSideBar,
  goToText,
  openFile,
  openFixes,
  previewPage,
  runCommand,
  setTheme,
  showHover,
  squiggles,
} from './support/driver.ts';
import { canRunEditor, type Editor, openEditor } from './support/editor.ts';
import { overlaps, ownFrame, tooFaint, unseen } from './support/seen.ts';

const root = resolve(import.meta.dirname, '../..');
const pictures = join(root, '.cache/pictures');
const sample = (name: string) => readFileSync(join(root, 'samples/merganser', name), 'utf8');

const files = {
  'merganser.card': sample('merganser.card'),
  'marked-area.svg': sample('marked-area.svg'),
  'rinse.card': sample('rinse.card').replace('check bus-tie closed', 'set bus-tie pulled'),
  'run-up.card': sample('run-up.card'),
};

const themes = [
  ['light', 'Default Light Modern'],
  ['dark', 'Default Dark Modern'],
  ['contrast', 'Default High Contrast'],
] as const;

/** What brings each view up. Each begins with the card that has a finding in front, and nothing else open. */
const views: Readonly<Record<string, (page: Page) => Promise<unknown>>> = {
  async findings(page) {
    await goToText(page, 'set bus-tie pulled');
    await runCommand(page, 'Problems: Focus on Problems View');
    await page.locator('.markers-panel .monaco-list-row', { hasText: 'bus tie' }).first().waitFor();
  },
  async fixes(page) {
    await goToText(page, 'set bus-tie pulled');
    await openFixes(page, 'Accept');
  },
  async hover(page) {
    await goToText(page, 'read wash-pressure in spray');
    const picture = (await showHover(page, 'wash water pressure')).locator('img');
    await picture.waitFor();
  },
  async 'hover-item'(page) {
    await goToText(page, 'set power-cart running');
    await page.keyboard.press('Control+ArrowLeft');
    await page.keyboard.press('Control+ArrowLeft');
    await showHover(page, 'over all paths');
  },
  async completion(page) {
    await goToText(page, 'set fire-detection passed');
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    await page.keyboard.type('step by cockpit set ignition-breakers ');
    await page.locator('.suggest-widget .monaco-list-row', { hasText: 'Pull and tag' }).first().waitFor();
  },
  async preview(page) {
    await runCommand(page, 'Cardwright: Preview the Card Beside the Text');
    await previewPage(page).locator('.finding').first().waitFor();
    await goToText(page, 'check fuel-lever-1');
    await previewPage(page).locator('.cw-cursor').waitFor();
  },
  async walk(page) {
    await goToText(page, 'set bus-tie pulled');
    await runCommand(page, 'Cardwright: Walk the Path of the Finding Here');
    await previewPage(page).locator('.path .here').waitFor();
    await previewPage(page).getByRole('button', { name: 'On', exact: true }).press('ArrowRight');
    await previewPage(page).locator('.cw-walked').first().waitFor();
  },
  async situation(page) {
    await goToText(page, 'wait 60 s');
    await runCommand(page, 'Cardwright: Show What May Be So at This Step');
    await previewPage(page).locator('.situation tr').first().waitFor();
  },
  async supplies(page) {
    await views.situation?.(page);
    await previewPage(page).locator('.situation .of-supply').first().scrollIntoViewIfNeeded();
  },
  async rests(page) {
    await goToText(page, 'set ignition-breakers closed');
    await runCommand(page, 'Cardwright: Show What May Be So at This Step');
    await previewPage(page).locator('.situation .of-timeline').first().scrollIntoViewIfNeeded();
    await previewPage(page).getByRole('heading', { name: 'Rinse', exact: true }).waitFor();
    await expect
      .poll(() =>
        previewPage(page)
          .locator('.scroller')
          .evaluate(({ scrollTop }) => scrollTop),
      )
      .toBeGreaterThan(500);
  },
  async configurations(page) {
    await openFile(page, 'run-up.card');
    await runCommand(page, 'Cardwright: Preview the Card Beside the Text');
    const choice = previewPage(page).locator('.choices select').last();
    await choice.waitFor();
    await choice.selectOption({ index: 1 });
    await previewPage(page).locator('dd', { hasText: 'serial 1 to 12' }).waitFor();
  },
  async outline(page) {
    await runCommand(page, 'Go to Symbol in Editor');
    await page.locator('.quick-input-widget .monaco-list-row', { hasText: 'rinse-left' }).first().waitFor();
  },
  async settings(page) {
    await runCommand(page, 'Preferences: Open Settings (UI)');
    await page.locator('.settings-editor .monaco-editor').first().click();
    await page.keyboard.type('@ext:cardwright.cardwright');
    await page.locator('.settings-editor .setting-item-label', { hasText: 'Second Units' }).first().waitFor();
    await page.keyboard.press('Escape');
  },
  async walkthrough(page) {
    await runCommand(page, 'Welcome: Open Walkthrough');
    const row = page.locator('.quick-input-widget:visible .monaco-list-row', { hasText: 'Learn Cardwright in Ten' });
    await row.first().click();
    await page.locator('.gettingStartedContainer', { hasText: 'See a slip and mend it' }).waitFor();
    await page
      .frameLocator('iframe.webview.ready')
      .frameLocator('iframe#active-frame')
      .locator('body h1, body h2, body p')
      .first()
      .waitFor();
  },
};

/** What can be read in each view: in the page of the preview, or around it in the editor. */
const readable: Readonly<
  Record<string, { readonly inPreview?: readonly string[]; readonly inEditor?: readonly string[] }>
> = {
  findings: { inEditor: ['The bus tie', 'safety.'] },
  fixes: { inEditor: ['Explain safety.', 'Accept safety.'] },
  hover: { inEditor: ['wash water pressure'] },
  'hover-item': { inEditor: ['over all paths'] },
  completion: { inEditor: ['Pull and tag'] },
  preview: { inPreview: ['The machine at a glance', 'the left fuel lever'] },
  walk: { inPreview: ['On', 'bus tie'] },
  situation: { inPreview: ['bus tie'] },
  supplies: { inPreview: ['28 V direct current', 'right bus'] },
  rests: { inPreview: ['Put everything back', 'rested 1 min'] },
  configurations: { inPreview: ['serial 1 to 12'] },
  outline: { inEditor: ['rinse-left'] },
  // Its list is the editor's own, drawn anew while it is searched: that our setting is seen is waited for above.
  settings: {},
  walkthrough: { inEditor: ['Learn Cardwright in Ten', 'See a slip and mend it'] },
};

/** What of a view cannot be read: texts that are not seen or too faint, and texts that lie over one another. */
async function unreadable(view: string, page: Page) {
  const { inPreview = [], inEditor = [] } = readable[view] ?? {};
  const frame = await ownFrame(page);
  return {
    unseen: [...(await unseen(page, page, inEditor)), ...(await unseen(previewPage(page), page, inPreview))],
    overlaps: frame ? await overlaps(frame) : [],
    faint: frame ? await tooFaint(frame) : [],
  };
}

describe.skipIf(!canRunEditor)('each view', { sequential: true }, () => {
  let editor: Editor;
  beforeAll(async () => {
    mkdirSync(pictures, { recursive: true });
    editor = await openEditor({ files });
  });
  afterAll(() => editor?.close());

  for (const [name, theme] of themes) {
    describe(`in the ${name} theme`, () => {
      beforeAll(() => setTheme(editor, theme));

      for (const [view, show] of Object.entries(views)) {
        it(view, async () => {
          const { page } = editor;
          await clearScreen(page);
          await openFile(page, 'rinse.card');
          await closeSideBar(page);
          await squiggles(page).first().waitFor();
          try {
            await show(page);
          } finally {
            // Lists and hovers fade in: the picture is of their end.
            await page.screenshot({ path: join(pictures, `${view}-${name}.png`), animations: 'disabled' });
          }
          // The list of settings is drawn anew while it is searched.
          await expect.poll(() => unreadable(view, page)).toEqual({ unseen: [], overlaps: [], faint: [] });
        });
      }
    });
  }
});
