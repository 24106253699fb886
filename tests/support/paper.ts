/** Prints a document in the browser and reads the pages back. */
import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { Browser } from 'playwright-core';
import { asRead } from './html.ts';

const run = promisify(execFile);

export async function printed(browser: Browser, html: string, format?: 'A4' | 'Letter'): Promise<Buffer> {
  const page = await browser.newPage();
  try {
    await page.setContent(html, { waitUntil: 'load' });
    return await page.pdf(format ? { format, displayHeaderFooter: false } : { preferCSSPageSize: true });
  } finally {
    await page.close();
  }
}

/** The text of each page, laid out as on the page. */
export async function pageTexts(pdf: Buffer): Promise<readonly string[]> {
  const folder = await mkdtemp(join(tmpdir(), 'cardwright-paper-'));
  try {
    const file = join(folder, 'card.pdf');
    await writeFile(file, pdf);
    const { stdout } = await run('pdftotext', ['-layout', file, '-'], { maxBuffer: 50_000_000 });
    return asRead(stdout).split('\f').slice(0, -1);
  } finally {
    await rm(folder, { recursive: true });
  }
}
