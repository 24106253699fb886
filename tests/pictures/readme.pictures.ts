/** `npm run pictures`: takes the README's pictures anew from the samples. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'vitest';
import { closeSideBar, goToText, openFile, previewPage, runCommand, squiggles } from '../extension/support/driver.ts';
import { openEditor } from '../extension/support/editor.ts';
import { openBrowser } from '../support/browser.ts';
import { printed } from '../support/paper.ts';
import { finishedCard, slipped, stamp } from './sources.ts';

const folder = 'client/pictures';

test('the editor, with a finding and the card beside the text', async () => {
  const editor = await openEditor({ files: slipped, settings: { 'workbench.colorTheme': 'Default Light Modern' } });
  try {
    const { page } = editor;
    await openFile(page, 'rinse.card');
    await closeSideBar(page);
    await squiggles(page).first().waitFor();
    await runCommand(page, 'Cardwright: Preview the Card Beside the Text');
    await goToText(page, 'set bus-tie pulled');
    await runCommand(page, 'Cardwright: Walk the Path of the Finding Here');
    await previewPage(page).locator('.path .here').waitFor();
    await page.keyboard.press('ArrowRight');
    // On a busy machine a key may have gone into the text: then another finding is walked.
    await previewPage(page).getByText('The bus tie contactor may still be pulled').first().waitFor();
    await page.screenshot({ path: `${folder}/editor.png` });
  } finally {
    await editor.close();
  }
});

test('the first two pages of the finished card', async () => {
  const browser = await openBrowser();
  const work = mkdtempSync(join(tmpdir(), 'cardwright-pictures-'));
  try {
    writeFileSync(join(work, 'card.pdf'), await printed(browser, finishedCard(), 'A4'));
    execFileSync('pdftoppm', ['-png', '-r', '75', '-l', '2', 'card.pdf', 'page'], { cwd: work });
    const pages = ['page-1.png', 'page-2.png'].map((name) => readFileSync(join(work, name), 'base64'));
    const images = pages.map((data) => `<img src="data:image/png;base64,${data}">`).join('');
    const page = await browser.newPage({ viewport: { width: 1288, height: 912 } });
    await page.setContent(`<body style="margin:0;padding:16px;display:flex;gap:16px;background:#868686">${images}`);
    await page.screenshot({ path: `${folder}/card.png` });
  } finally {
    rmSync(work, { recursive: true });
    await browser.close();
  }
  writeFileSync(`${folder}/made-from.txt`, `${stamp()}\n`);
});
