/** The browser that the tests of paper, preview and work copy run in. */
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

const names = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'chrome',
  'msedge',
  'microsoft-edge',
];
const places = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

export const browserArguments: readonly string[] = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Milliseconds that are passed by what hangs, not by a machine that is busy. */
export const untilHang = 120_000;

export async function openBrowser(): Promise<Browser> {
  const browser = await chromium.launch({ executablePath: browserExecutable(), args: [...browserArguments] });
  browser.on('context', (context) => context.setDefaultTimeout(untilHang));
  return browser;
}

/** The path of Chromium or Chrome: that of `CHROME_PATH`, else the first one on the search path. Throws, with what to install, where there is none. */
export function browserExecutable(): string {
  const wanted = process.env.CHROME_PATH;
  const folders = (process.env.PATH ?? '').split(delimiter);
  const candidates = [
    ...(wanted ? [wanted] : []),
    ...names.flatMap((name) => folders.map((folder) => join(folder, name))),
    ...places,
  ];
  const found = candidates.find(canRun);
  if (found === undefined)
    throw new Error(
      'No Chromium or Chrome found: install one (on Debian: apt-get install chromium) or set CHROME_PATH.',
    );
  return found;
}

function canRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
