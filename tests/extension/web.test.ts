/** The browser build: the extension in the editor's worker host, the server in a worker of its own. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { goToText, openFile, previewPage, replaceText, runCommand, squiggles } from './support/driver.ts';
import { canRunEditor, type Editor, openEditor } from './support/editor.ts';

const sample = (name: string) =>
  readFileSync(join(resolve(import.meta.dirname, '../..'), 'samples/merganser', name), 'utf8');

describe.skipIf(!canRunEditor)('in a browser', () => {
  let editor: Editor;

  beforeAll(async () => {
    editor = await openEditor({
      files: {
        'merganser.card': sample('merganser.card'),
        'marked-area.svg': sample('marked-area.svg'),
        'rinse.card': sample('rinse.card'),
      },
      settings: { 'remote.extensionKind': { 'cardwright.cardwright': ['web'] } },
    });
  });

  afterAll(() => editor.close());

  it('finds, shows and walks', async () => {
    const { page } = editor;
    await openFile(page, 'rinse.card');
    // The card has a figure, which the worker fetches by way of the extension.
    await page.locator('.codelens-decoration', { hasText: 'no findings' }).waitFor();
    expect(await squiggles(page).count()).toBe(0);
    await replaceText(page, 'check bus-tie closed', 'set bus-tie pulled');
    await squiggles(page).first().waitFor();
    await goToText(page, 'set bus-tie pulled');
    await runCommand(page, 'Cardwright: Walk the Path of the Finding Here');
    await previewPage(page).locator('.path .here').waitFor();
    await previewPage(page).locator('img[src^="data:image/svg"]').first().waitFor({ state: 'attached' });
    // The worker host has an iframe of its own; a Node host has none.
    expect(page.frames().some((frame) => frame.url().includes('webWorkerExtensionHostIframe'))).toBe(true);
  });
});
