/** What a person does in the editor, in words. */
import type { FrameLocator, Locator, Page } from 'playwright-core';
import type { Editor, Theme } from './editor.ts';

export async function runCommand(page: Page, name: string): Promise<void> {
  await page.keyboard.press('F1');
  await quickInput(page).waitFor();
  await quickInput(page).fill(`>${name}`);
  await page.locator('.quick-input-list .monaco-list-row').filter({ hasText: name }).first().waitFor();
  await page.keyboard.press('Enter');
}

export async function openFile(page: Page, path: string): Promise<void> {
  await page.keyboard.press('Control+P');
  await quickInput(page).waitFor();
  await quickInput(page).fill(path);
  await page
    .locator('.quick-input-list .monaco-list-row')
    .filter({ hasText: path.split('/').at(-1) })
    .first()
    .waitFor();
  await page.keyboard.press('Enter');
  await page
    .locator('.tab.active')
    .filter({ hasText: path.split('/').at(-1) })
    .waitFor();
  await page.locator('.editor-group-container.active .monaco-editor .view-lines').first().waitFor();
}

export function quickInput(page: Page): Locator {
  return page.locator('.quick-input-widget input:visible').first();
}

export async function goToLine(page: Page, line: number, column = 1): Promise<void> {
  await page.keyboard.press('Control+G');
  await quickInput(page).fill(`:${line}:${column}`);
  await page.keyboard.press('Enter');
}

/** Puts the cursor at the end of the first text that matches. */
export async function goToText(page: Page, text: string): Promise<void> {
  await page.keyboard.press('Control+F');
  await page.locator('.find-widget.visible .find-part textarea').first().fill(text);
  await page.keyboard.press('Enter');
  await page.keyboard.press('Escape');
  await page.keyboard.press('ArrowRight');
}

export function squiggles(page: Page, level: 'error' | 'warning' | 'info' | 'hint' = 'error'): Locator {
  return page.locator(`.monaco-editor .squiggly-${level}`);
}

/** The page inside the webview. */
export function previewPage(page: Page): FrameLocator {
  return page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
}

export async function setTheme({ page, setSettings }: Editor, theme: Theme): Promise<void> {
  setSettings({ 'workbench.colorTheme': theme });
  await page.locator(`.monaco-workbench.${themeClasses[theme]}`).waitFor();
}

const themeClasses: Readonly<Record<Theme, string>> = {
  'Default Light Modern': 'vs',
  'Default Dark Modern': 'vs-dark',
  'Default High Contrast': 'hc-black',
};
