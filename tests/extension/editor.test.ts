/** The packaged extension in the real editor, driven as a person would. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  clearScreen,
  clearText,
  closeAllEditors,
  goToText,
  openFile,
  openFixes,
  previewPage,
  quickInput,
  replaceText,
  runCommand,
  saveFile,
  seeLensAtTheTop,
  seenIn,
  squiggles,
  textOfEditor,
} from './support/driver.ts';
import { canRunEditor, type Editor, onceMore, openEditor } from './support/editor.ts';

const root = resolve(import.meta.dirname, '../..');
const pictures = join(root, '.cache/pictures');
const sample = (name: string) => readFileSync(join(root, 'samples/merganser', name), 'utf8');

describe.skipIf(!canRunEditor)('in the editor', { sequential: true, retry: onceMore }, () => {
  let editor: Editor;

  const picture = (name: string) => editor.page.screenshot({ path: join(pictures, `${name}.png`) });

  beforeAll(async () => {
    mkdirSync(pictures, { recursive: true });
    const early = sample('rinse.card').replace('check bus-tie closed', 'set bus-tie pulled');
    const files = {
      'merganser.card': sample('merganser.card'),
      'marked-area.svg': sample('marked-area.svg'),
      'rinse.card': early,
    };
    editor = await openEditor({ files });
  });

  afterAll(() => editor?.close());

  /** Runs one scene; where it fails, a picture and the log say how the window looked. */
  const scene = (name: string, play: () => Promise<void>) =>
    it(name, async () => {
      try {
        await play();
      } catch (error) {
        await picture(`failed ${name}`);
        console.error(await seenIn(editor.page));
        await clearText(editor.page);
        throw error;
      }
    });

  scene('the first minute, by keyboard: a card with a slip, explained and mended', async () => {
    const { page } = editor;
    let strokes = 0;
    const press = async (...keys: string[]) => {
      for (const key of keys) await page.keyboard.press(key);
      strokes += keys.length;
    };
    // The list of commands is made when it opens: those of an extension that is still being loaded are not in it.
    await page.locator('[id="status.problems"]', { hasText: '2' }).waitFor();
    await press('F1');
    await quickInput(page).waitFor();
    await press(...'example');
    await page.locator('.quick-input-list .monaco-list-row.focused', { hasText: 'Open an Example' }).waitFor();
    await press('Enter');
    await squiggles(page).first().waitFor();
    await press('F8');
    await page.locator('.marker-widget', { hasText: 'drain valve' }).waitFor();
    await picture('first-minute');
    await press('Escape', 'Control+.');
    await page.locator('.action-widget .monaco-list-row.focused', { hasText: 'Insert' }).waitFor();
    await press('Enter');
    await expect.poll(() => squiggles(page).count()).toBe(0);
    expect(await textOfEditor(page)).toContain('set drain-valve open');
    await page.locator('.statusbar-item', { hasText: 'Lesson 2 of 6' }).waitFor();
    expect(strokes).toBeLessThanOrEqual(16);
    await runCommand(page, 'View: Revert and Close Editor');
  });

  scene('a finding that is typed, and its path', async () => {
    const { page } = editor;
    await openFile(page, 'rinse.card');
    await squiggles(page).first().waitFor();
    await runCommand(page, 'Cardwright: Preview the Card Beside the Text');
    await previewPage(page).locator('.finding').first().waitFor();
    await goToText(page, 'starter-1 cranking');
    await runCommand(page, 'Cardwright: Walk the Path of the Finding Here');
    const here = previewPage(page).locator('.path .here');
    await here.waitFor();
    const first = await here.innerText();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => here.innerText()).not.toBe(first);
  });

  scene('a step and what may be so there', async () => {
    const { page } = editor;
    await openFile(page, 'rinse.card');
    await goToText(page, 'read wash-pressure');
    await runCommand(page, 'Cardwright: Show What May Be So at This Step');
    await previewPage(page).locator('.situation tr').first().waitFor();
    await previewPage(page).locator('.situation .of-supply').first().scrollIntoViewIfNeeded();
  });

  scene('text and card follow each other, and a click goes to the text', async () => {
    const { page } = editor;
    const top = () =>
      previewPage(page)
        .locator('.scroller')
        .evaluate((element) => element.scrollTop);
    await openFile(page, 'rinse.card');
    // What is scrolled right after the page scrolled by itself counts as its echo, so a person's second try is made here too.
    const atTheStart = async () => {
      await page.keyboard.press('Control+End');
      await page.keyboard.press('Control+Home');
      return top();
    };
    await expect.poll(atTheStart, { interval: 500 }).toBeLessThan(50);
    await page.keyboard.press('Control+End');
    await expect.poll(top).toBeGreaterThan(1_000);
    const lines = () => page.locator('.editor-group-container .monaco-editor .view-lines').first().innerText();
    const atTheEnd = await lines();
    await previewPage(page).locator('.scroller').hover();
    await page.mouse.wheel(0, -8_000);
    await expect.poll(lines).not.toBe(atTheEnd);
    // The page may still be moving under the pointer: a person clicks again.
    const inText = (count: 'click' | 'dblclick') => async () => {
      await previewPage(page).locator('.sentence', { hasText: 'Put on ear defenders' })[count]();
      return (await page.locator('.statusbar-item').allInnerTexts()).join(' ');
    };
    await expect.poll(inText('dblclick'), { interval: 500 }).toContain('Ln 22,');
    // After a click the keys belong to the page: not one letter of them may reach the text.
    await inText('click')();
    await previewPage(page).locator('[data-step]:focus', { hasText: 'Put on ear defenders' }).waitFor();
    await page.keyboard.press('n');
    await page.keyboard.press('p');
    expect(await page.locator('.tab.dirty').count()).toBe(0);
  });

  scene('another file keeps the card in view where it has none of its own', async () => {
    const { page } = editor;
    // A file that is opened from the page would open over it.
    await runCommand(page, 'View: Focus First Editor Group');
    await openFile(page, 'merganser.card');
    await seeLensAtTheTop(page, 'used in');
    expect(await previewPage(page).locator('h1').innerText()).toContain('Rinse');
  });

  scene('a card that is typed stays where it is on the page', async () => {
    const { page } = editor;
    await openFile(page, 'rinse.card');
    await goToText(page, 'check wheel-chocks fitted');
    const step = previewPage(page).locator('.sentence', { hasText: 'the chocks at the main wheels' });
    const where = async () => (await step.boundingBox())?.y ?? 0;
    await step.waitFor();
    await page.keyboard.press('End');
    // The page has followed the cursor; before that it would come to rest twice.
    await previewPage(page).locator('.cw-cursor', { hasText: 'the chocks at the main wheels' }).waitFor();
    const version = async () => Number(await previewPage(page).locator('.card').getAttribute('data-version'));
    const first = await version();
    // In one go: at the first of the two strokes the step has an error, and the page makes room for what is said of it.
    await page.keyboard.insertText(' // ');
    await expect.poll(version).toBeGreaterThan(first);
    let before = Number.NaN;
    const isAtRest = async () => {
      const last = before;
      before = await where();
      return before === last;
    };
    await expect.poll(isAtRest, { interval: 500 }).toBe(true);
    const typed = 'quick';
    const shown = (await version()) + typed.length;
    await page.keyboard.type(typed);
    await expect.poll(version).toBeGreaterThanOrEqual(shown);
    await expect.poll(async () => Math.abs((await where()) - before)).toBeLessThan(5);
    await runCommand(page, 'File: Revert File');
  });

  scene('completion with the words that the card prints', async () => {
    const { page } = editor;
    await openFile(page, 'rinse.card');
    await goToText(page, 'set fire-detection passed');
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    await page.keyboard.type('step by cockpit set igni');
    await page.locator('.suggest-widget .monaco-list-row', { hasText: 'ignition-breakers' }).first().waitFor();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Tab');
    await page.keyboard.type(' ');
    await page.locator('.suggest-widget .monaco-list-row', { hasText: 'Pull and tag' }).first().waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.type('pulled');
    await expect.poll(() => squiggles(page, 'info').count()).toBeGreaterThan(0);
    await runCommand(page, 'File: Revert File');
  });

  scene('an item renamed in both files', async () => {
    const { page, workspace } = editor;
    await openFile(page, 'rinse.card');
    await goToText(page, 'ear-defenders');
    await page.keyboard.press('F2');
    await page.locator('.rename-box input').fill('ear-muffs');
    await page.keyboard.press('Enter');
    await runCommand(page, 'File: Save All Files');
    const files = ['rinse.card', 'merganser.card'].map((name) => join(workspace, name));
    await expect
      .poll(() => files.map((file) => readFileSync(file, 'utf8').includes('ear-muffs')))
      .toEqual([true, true]);
    expect(readFileSync(files[0] as string, 'utf8')).not.toContain('ear-defenders');
  });

  scene('a card with errors leaves only as a draft, and whole once it is mended', async () => {
    const { page, workspace } = editor;
    await openFile(page, 'rinse.card');
    await runCommand(page, 'Cardwright: Export the Card');
    await page.locator('.notification-toast', { hasText: 'is not for use' }).waitFor();
    expect(existsSync(join(workspace, 'rinse-left.html'))).toBe(false);
    await runCommand(page, 'Notifications: Clear All Notifications');
    await replaceText(page, 'set bus-tie pulled', 'check bus-tie closed');
    await expect.poll(() => squiggles(page).count()).toBe(0);
    await saveFile(page);
    const exported = join(workspace, 'rinse-left.html');
    writeFileSync(exported, '<p>Written by somebody else.</p>');
    await runCommand(page, 'Cardwright: Export the Card');
    const question = page.locator('.monaco-dialog-box', { hasText: 'is no exported card' });
    await question.getByText('Cancel', { exact: true }).click();
    await question.waitFor({ state: 'detached' });
    expect(readFileSync(exported, 'utf8')).toContain('somebody else');
    await runCommand(page, 'Cardwright: Export the Card');
    await question.getByText('Replace It', { exact: true }).click();
    await page.locator('.notification-toast', { hasText: 'The card is in' }).waitFor();
    expect(readFileSync(exported, 'utf8')).toContain('MG-72-03');
    expect(readdirSync(workspace).filter((name) => name.endsWith('.new'))).toEqual([]);
    await runCommand(page, 'Notifications: Clear All Notifications');
  });

  scene('a finding accepted with its reason', async () => {
    const { page } = editor;
    await openFile(page, 'rinse.card');
    await replaceText(page, 'check bus-tie closed', 'set bus-tie pulled');
    await squiggles(page).first().waitFor();
    await goToText(page, 'set bus-tie pulled');
    await openFixes(page, 'Accept safety.left-changed');
    const accept = page.locator('.action-widget .monaco-list-row.focused', { hasText: 'Accept safety.left-changed' });
    while (!(await accept.isVisible())) await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect.poll(() => textOfEditor(page)).toContain('because "…"');
    await page.locator('.statusbar-item', { hasText: '(1 selected)' }).waitFor();
    await page.keyboard.type('The next card needs it so.');
    expect(await textOfEditor(page)).toContain('The next card');
    await seeLensAtTheTop(page, '1 finding');
    await runCommand(page, 'File: Revert File');
  });

  scene('a list that was pasted', async () => {
    const { page } = editor;
    await page.evaluate(() => navigator.clipboard.writeText('1. Open the left wash valve.\n2. Wait for the water.'));
    await openFile(page, 'rinse.card');
    await goToText(page, 'check wheel-chocks fitted');
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    await runCommand(page, 'Cardwright: Paste a List as Steps');
    await expect.poll(() => textOfEditor(page)).toContain('step by ground "Open the left wash valve."');
    await runCommand(page, 'File: Revert File');
  });

  scene('a setting that turns a finding off', async () => {
    const { page } = editor;
    await openFile(page, 'rinse.card');
    await replaceText(page, 'check bus-tie closed', 'set bus-tie pulled');
    await squiggles(page).first().waitFor();
    await saveFile(page);
    await editor.setSettings({ 'cardwright.levels': { supply: 'off', safety: 'off' } });
    await openFile(page, 'rinse.card');
    await seeLensAtTheTop(page, 'no findings');
    expect(await squiggles(page).count()).toBe(0);
    await editor.setSettings({ 'cardwright.levels': {} });
    await openFile(page, 'rinse.card');
    await goToText(page, 'set bus-tie pulled');
    await squiggles(page).first().waitFor();
  });

  scene('the first page of the walkthrough', async () => {
    const { page } = editor;
    await clearScreen(page);
    await runCommand(page, 'Welcome: Open Walkthrough');
    await page
      .locator('.quick-input-widget:visible .monaco-list-row', { hasText: 'Learn Cardwright in Ten' })
      .first()
      .click();
    await page.locator('.gettingStartedContainer', { hasText: 'See a slip and mend it' }).waitFor();
    // The editor now and then leaves the side of the first step empty: a person chooses another step and comes back.
    // Frames of pages that were closed may still be there: the text is looked for in each.
    const isInSomeFrame = async () => {
      const found = page.frames().map((frame) => frame.getByText('A card with a slip').isVisible());
      return (await Promise.allSettled(found)).some((one) => one.status === 'fulfilled' && one.value);
    };
    const pictureOfTheFirstStep = async () => {
      const shown = await expect
        .poll(isInSomeFrame, { timeout: 5_000 })
        .toBe(true)
        .then(
          () => true,
          () => false,
        );
      if (shown) return true;
      for (const step of ['Add a step', 'See a slip and mend it'])
        await page.locator('.gettingStartedContainer').getByText(step, { exact: true }).click();
      return false;
    };
    await expect.poll(pictureOfTheFirstStep).toBe(true);
    await closeAllEditors(page);
  });

  scene('a lesson is ticked by what the writer has done, not by a click', async () => {
    const { page } = editor;
    await runCommand(page, 'Cardwright: Open an Example');
    const lesson = (count: number) => page.locator('.statusbar-item', { hasText: `Lesson ${count} of 6` }).waitFor();
    await lesson(1);
    await replaceText(page, 'step set pump-cover removed', 'step set drain-valve open\nstep set pump-cover removed');
    await replaceText(page, 'step set pump-switch on', 'step set drain-valve closed\nstep set pump-switch on');
    await lesson(2);
    await replaceText(page, 'step "Clean the strainer."', 'step "Clean the strainer."\nstep "Dry it."');
    await lesson(3);
    await runCommand(page, 'View: Revert and Close Editor');
  });

  scene('new cards and equipment ask only for what the writer knows', async () => {
    const { page, workspace } = editor;
    await runCommand(page, 'Cardwright: New Card');
    await quickInput(page).fill('Drain the wash cart');
    await page.keyboard.press('Enter');
    await page.locator('.quick-input-list .monaco-list-row:visible', { hasText: 'merganser.card' }).first().click();
    await page.locator('.tab.active', { hasText: 'drain-wash-cart.card' }).waitFor();
    const text = readFileSync(join(workspace, 'drain-wash-cart.card'), 'utf8');
    expect(text).toContain('use "merganser.card"');
    expect(text).toContain('number   "DWC-01"');
    await page.locator('.editor-group-container.active .codelens-decoration', { hasText: 'no findings' }).waitFor();
  });

  scene('checks that the settings switch off are named in the status bar until they are back', async () => {
    const { page, workspace } = editor;
    const settings = join(workspace, 'cardwright.json');
    const lowered = page.locator('.statusbar-item', { hasText: 'Checks lowered: safety: off' });
    writeFileSync(settings, '{ "levels": { "safety": "off" } }');
    await openFile(page, 'rinse.card');
    await lowered.waitFor();
    writeFileSync(settings, '{}');
    await lowered.waitFor({ state: 'hidden' });
    rmSync(settings);
  });
});
