/** A card in a browser that refuses every request: what it did that a card does not. */
import type { Browser } from 'playwright-core';
import { openBrowser } from '../support/browser.ts';

let opened: Browser | undefined;

/** A browser that ends by itself, as on a machine without memory, tells nothing of a card: the card is opened again in a new one. */
export async function cardInPage(html: string): Promise<string[]> {
  try {
    return await inPage(html);
  } catch (error) {
    if (opened?.isConnected()) throw error;
    return inPage(html);
  }
}

async function inPage(html: string): Promise<string[]> {
  if (!opened?.isConnected()) opened = await openBrowser();
  const page = await opened.newPage();
  const did: string[] = [];
  try {
    const address = 'http://card.example/card.html';
    await page.route('**/*', (route) => {
      const url = route.request().url();
      if (url === address) return route.fulfill({ contentType: 'text/html; charset=utf-8', body: html });
      did.push(`asked for ${url}`);
      return route.abort();
    });
    page.on('dialog', (dialog) => {
      did.push(`asked ${dialog.message()}`);
      void dialog.dismiss();
    });
    page.on('pageerror', ({ message }) => did.push(`failed: ${message}`));
    await page.goto(address);
    if (page.url() !== address) did.push(`went to ${page.url()}`);
    return did;
  } finally {
    await page.close();
  }
}

export async function closeBrowser(): Promise<void> {
  await opened?.close();
  opened = undefined;
}
