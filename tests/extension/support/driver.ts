/** What a person does in the editor, in words. */
import type { FrameLocator, Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Editor, Theme } from './editor.ts';

/** How often one asks again, and how long one waits each time: longer each time, as the machine may be busy. */
const attempts = 20;
const patience = (attempt: number) => 3_000 + attempt * 1_000;

export async function runCommand(page: Page, name: string): Promise<void> {
  await pick(page, 'F1', `>${name}`, name);
}

export async function openFile(page: Page, path: string): Promise<void> {
  const name = path.split('/').at(-1) as string;
  await pick(page, 'Control+P', path, name);
  await page.locator('.tab.active', { hasText: name }).waitFor();
  const focused = page.locator('.editor-group-container.active .monaco-editor.focused').first();
  for (let attempt = 0; attempt < attempts; attempt++) {
    await runCommand(page, 'View: Focus First Editor Group');
    // A list that fades out meanwhile may take the keyboard back.
    if (await isThere(focused, patience(attempt))) return;
  }
  throw new Error(`The keyboard does not come to ${name}.`);
}

function isThere(what: Locator, timeout: number): Promise<boolean> {
  return what.waitFor({ timeout }).then(
    () => true,
    () => false,
  );
}

/** Opens the list of commands or files, and takes an entry; where it is not there yet, asks again. */
async function pick(page: Page, key: string, typed: string, entry: string): Promise<void> {
  const row = page.locator('.quick-input-widget:visible .monaco-list-row.focused', { hasText: entry }).first();
  for (let attempt = 0; attempt < attempts; attempt++) {
    await leaveWebview(page);
    await page.keyboard.press(key);
    const isTaken = await quickInput(page)
      .fill(typed, { timeout: patience(attempt) })
      .then(() => row.waitFor({ timeout: patience(attempt) }))
      // In the list itself: where it has closed meanwhile, the key must not write a line into the text.
      .then(() => quickInput(page).press('Enter', { timeout: patience(attempt) }))
      .then(
        () => true,
        () => false,
      );
    if (isTaken) return;
    await page.keyboard.press('Escape');
  }
  throw new Error(`There is no "${entry}" to choose.`);
}

/** Keys that are pressed in a webview stay there. */
async function leaveWebview(page: Page): Promise<void> {
  await page.evaluate(() => {
    if (document.activeElement instanceof HTMLIFrameElement) document.activeElement.blur();
    window.focus();
  });
}

export function quickInput(page: Page): Locator {
  return page.locator('.quick-input-widget input:visible').first();
}

/** Puts the cursor at the end of the first text that matches. */
export async function goToText(page: Page, text: string): Promise<void> {
  const widget = page.locator('.editor-group-container.active .find-widget.visible');
  await page.keyboard.press('Control+Home');
  await page.keyboard.press('Control+F');
  const box = widget.locator('.find-part textarea').first();
  const found = widget.locator('.matchesCount', { hasText: ' of ' });
  // What is filled in before the file is there is looked for in what was there before, and not again.
  await expect
    .poll(async () => {
      await box.fill('');
      await box.fill(text);
      return found.waitFor({ timeout: 2_000 }).then(
        () => true,
        () => false,
      );
    })
    .toBe(true);
  await page.keyboard.press('Escape');
  await widget.waitFor({ state: 'detached' });
  await page.locator('.editor-group-container.active .monaco-editor.focused').first().waitFor();
  await page.keyboard.press('ArrowRight');
}

/** Writes something else in the place of the first text that matches. */
export async function replaceText(page: Page, text: string, newText: string): Promise<void> {
  await goToText(page, text);
  for (const _ of text) await page.keyboard.press('Shift+ArrowLeft');
  await page.keyboard.type(newText);
  await page.keyboard.press('Escape');
  // A long line goes on in the next, and a hint behind it may make it long.
  const shown = async () => withoutBreaks(await textOfEditor(page));
  for (const line of newText.split('\n')) await expect.poll(shown).toContain(withoutBreaks(line));
}

function withoutBreaks(text: string): string {
  return text.replaceAll(/\s+/g, ' ');
}

/** Waits for what stands above the first lines; a window that has just been loaded may scroll back to where it was. */
export async function seeLensAtTheTop(page: Page, text: string): Promise<void> {
  const lens = page.locator('.editor-group-container.active .codelens-decoration', { hasText: text }).first();
  const isSeen = async () => {
    await page.keyboard.press('Control+Home');
    return lens.isVisible();
  };
  await expect.poll(isSeen, { interval: 500 }).toBe(true);
}

/** The text of the editor that has the keyboard, without what is scrolled far away. */
export async function textOfEditor(page: Page): Promise<string> {
  const lines = page.locator('.editor-group-container.active .monaco-editor .view-lines').first().locator('.view-line');
  // They stand in the document as they were drawn.
  const inOrder = await lines.evaluateAll((drawn) =>
    drawn
      .map((line) => ({ top: line.getBoundingClientRect().top, text: (line as HTMLElement).innerText }))
      .sort((a, b) => a.top - b.top)
      .map(({ text }) => text),
  );
  return inOrder.join('\n').replaceAll('\u00a0', ' ');
}

/** What the window says, in the text and below it: for the log of a machine whose pictures nobody sees. */
export async function seenIn(page: Page): Promise<string> {
  const below = await page.locator('.part.statusbar').innerText();
  return `${await textOfEditor(page)}\n\n${below.replaceAll('\n', ' ')}`;
}

/** Opens the list of quick fixes, of which one says this. Right after the cursor moved the editor may give the question up: one asks again. */
export async function openFixes(page: Page, title: string): Promise<void> {
  const row = page.locator('.action-widget .monaco-list-row', { hasText: title }).first();
  const isOpen = async (attempt: number) => {
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+.');
    return row.waitFor({ timeout: patience(attempt) }).then(
      () => true,
      () => false,
    );
  };
  for (let attempt = 0; attempt < attempts; attempt++) if (await isOpen(attempt)) return;
  throw new Error(`There is no fix "${title}".`);
}

/** Shows what the editor tells of the text at the cursor. */
export async function showHover(page: Page, text: string): Promise<Locator> {
  await page.keyboard.press('Control+K');
  await page.keyboard.press('Control+I');
  const hover = page.locator('.monaco-hover:visible', { hasText: text }).first();
  await hover.waitFor();
  return hover;
}

/** Leaves what is typed or chosen, and gives changes up. */
export async function clearText(page: Page): Promise<void> {
  for (let press = 0; press < 3; press++) await page.keyboard.press('Escape');
  if (await page.locator('.tab.active.dirty').isVisible()) await runCommand(page, 'File: Revert File');
}

/** Ends when nothing is open: a command that is chosen may be done later. */
export async function closeAllEditors(page: Page): Promise<void> {
  await runCommand(page, 'View: Close All Editors');
  await expect.poll(() => page.locator('.tab').count()).toBe(0);
}

/** Gives changes up, and closes all editors and lists. */
export async function clearScreen(page: Page): Promise<void> {
  await clearText(page);
  if (await page.locator('.part.panel').isVisible()) await runCommand(page, 'View: Hide Panel');
  if (await page.locator('.tab').first().isVisible()) await closeAllEditors(page);
}

export async function closeSideBar(page: Page): Promise<void> {
  if (await page.locator('.part.sidebar').isVisible()) await runCommand(page, 'View: Close Primary Side Bar');
}

/** Saves; where a busy window has lost the key, a person sees the mark at the tab and presses it again. */
export async function saveFile(page: Page): Promise<void> {
  const isSaved = async () => {
    await page.keyboard.press('Control+S');
    const saved = page.locator('.tab.active.dirty').waitFor({ state: 'detached', timeout: patience(0) });
    return saved.then(
      () => true,
      () => false,
    );
  };
  await expect.poll(isSaved).toBe(true);
}

export function squiggles(page: Page, level: 'error' | 'warning' | 'info' | 'hint' = 'error'): Locator {
  return page.locator(`.monaco-editor .squiggly-${level}`);
}

/** The page inside the webview. */
export function previewPage(page: Page): FrameLocator {
  return page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
}

export async function setTheme({ page, setSettings }: Editor, theme: Theme): Promise<void> {
  await setSettings({ 'workbench.colorTheme': theme });
  await page.locator(`.monaco-workbench.${themeClasses[theme]}`).waitFor();
}

const themeClasses: Readonly<Record<Theme, string>> = {
  'Default Light Modern': 'vs',
  'Default Dark Modern': 'vs-dark',
  'Default High Contrast': 'hc-black',
};
