/** Opens exported cards with their work copy in the browser, as a file from a stick, with a clock that the test turns. */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type BuildOptions, build } from 'esbuild';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect } from 'vitest';
import { bundles } from '../../.ci/bundles.mjs';
import { openWorkspace } from '../../server/api.ts';
import type { RenderInput } from '../../server/render/input.ts';
import { renderCard } from '../../server/render/render.ts';
import { defaultSettings, type Settings } from '../../shared/settings.ts';
import { openBrowser } from './browser.ts';

/** The script as it is bundled for export. */
export async function workCopyScript(): Promise<string> {
  const bundle = bundles.find(({ outfile }) => outfile === 'dist/work-copy.js');
  const { outputFiles } = await build({ ...bundle, write: false } as BuildOptions & { write: false });
  return outputFiles[0]?.text ?? '';
}

export interface Stick {
  readonly script: string;
  write(name: string, html: string): Promise<string>;
  /** Writes an exported card and gives its address. */
  put(name: string, card: RenderInput | string): Promise<string>;
  remove(): Promise<void>;
}

export async function plugIn(script: string): Promise<Stick> {
  const folder = await mkdtemp(join(tmpdir(), 'cardwright-stick-'));
  const write = async (name: string, html: string) => {
    const file = join(folder, `${name}.html`);
    await writeFile(file, html);
    return pathToFileURL(file).href;
  };
  return {
    script,
    write,
    put: (name, card) => write(name, typeof card === 'string' ? card : renderCard({ ...card, workCopy: script })),
    remove: () => rm(folder, { recursive: true }),
  };
}

export interface Workbench {
  readonly browser: Browser;
  readonly stick: Stick;
  /** New for each test. */
  readonly context: BrowserContext;
  /** Opens the only card of a text, and begins to work with it. */
  begin(text: string): Promise<Page>;
}

const tablet: BrowserContextOptions = { viewport: { width: 820, height: 1180 }, hasTouch: true };

/** The browser of a file of tests, a stick with its cards, and a tablet that is new for each test. */
export function workbench(device: BrowserContextOptions = tablet): Workbench {
  let browser: Browser;
  let stick: Stick;
  let context: BrowserContext;
  let count = 0;
  beforeAll(async () => {
    browser = await openBrowser();
    stick = await plugIn(await workCopyScript());
  });
  afterAll(async () => {
    await browser.close();
    await stick.remove();
  });
  beforeEach(async () => {
    context = await browser.newContext(device);
  });
  afterEach(() => context.close());
  return {
    get browser() {
      return browser;
    },
    get stick() {
      return stick;
    },
    get context() {
      return context;
    },
    async begin(text) {
      const page = await openCard(context, await putText(stick, `card-${count++}`, text));
      await beginWork(page);
      return page;
    },
  };
}

/** Everything that goes wrong on a page while a test looks at it. */
export function faultsOf(page: Page): readonly string[] {
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  page.on('request', (request) => {
    if (!/^(file|data|blob):/.test(request.url())) faults.push(`asked for ${request.url()}`);
  });
  return faults;
}

const start = new Date('2026-11-25T08:00:00Z');

export async function openCard(context: BrowserContext, address: string): Promise<Page> {
  const page = await context.newPage();
  // A minute ahead of the stop, so that no slow machine is past it.
  await page.clock.install({ time: start.getTime() - 60_000 });
  await page.clock.pauseAt(start);
  await page.goto(address);
  return page;
}

/** Opens the work copy, and makes sure of what the card relies on. */
export async function beginWork(page: Page): Promise<void> {
  await openWork(page);
  await fillHead(page);
  await confirm(page, 'before');
}

export const openWork = (page: Page) =>
  page.getByRole('button', { name: /Work with this card|Go on with the work/ }).click();

/** Nothing where it is filled in. */
export async function fillHead(page: Page): Promise<void> {
  const head = page.locator('.work-head form');
  if ((await head.count()) === 0) return;
  await head.getByLabel(/^Machine type/).fill('Merganser 7');
  for (const name of await head.getByLabel(/^Name/).all()) await name.fill('R. Vogel');
  await head.getByRole('button', { name: 'Begin the work' }).click();
  // With one person for all roles it is asked once.
  if ((await head.count()) > 0) await head.getByRole('button', { name: 'Begin the work' }).click();
}

/** Says that all is so which stands before the first step, or after the last one; nothing where it is not its turn. */
export async function confirm(page: Page, which: 'before' | 'left'): Promise<void> {
  const list = page.locator(`section.${which}.is-now`);
  if ((await list.count()) === 0) return;
  for (const line of await list.locator('.line:visible').all())
    await line.getByRole('button', { name: 'OK', exact: true }).click();
  await list.getByRole('button', { name: 'Done', exact: true }).click();
}

/** The unit that is next, by its number. */
export const now = (page: Page, step: number) => page.locator(`#step-${step}.is-now`);

export const isNext = (page: Page, step: number) => expect.poll(() => now(page, step).count()).toBe(1);

/** Touches a button of the unit that is next. */
export const press = (page: Page, step: number, name: string) =>
  now(page, step).getByRole('button', { name, exact: true }).tap();

export async function tickThrough(page: Page, first: number, last: number): Promise<void> {
  for (let step = first; step <= last; step++)
    await now(page, step).getByRole('button', { name: 'Done', exact: true }).click();
}

export async function enterReading(page: Page, step: number, value: string, unit?: string): Promise<void> {
  const place = now(page, step);
  await place.getByLabel('Reading').fill(value);
  if (unit) await place.getByLabel('Unit').selectOption({ label: unit });
  await place.getByRole('button', { name: 'Enter' }).click();
}

export async function giveReason(page: Page, reason: string): Promise<void> {
  await page.getByLabel('Reason').fill(reason);
  await page.getByRole('button', { name: 'Keep the reason and go on' }).click();
}

/** The only card of a text, as it is exported. */
export async function putText(
  stick: Stick,
  name: string,
  text: string,
  settings: Partial<Settings> = {},
): Promise<string> {
  const all = { ...defaultSettings, ...settings };
  const api = openWorkspace({ readText: (file) => (file === 'test.card' ? text : undefined) }, () => all);
  const [card] = api.render('test.card', { workCopy: stick.script });
  if (card === undefined || card.errors.length > 0)
    throw new Error(card?.errors.map(({ message }) => message).join('\n') ?? 'no card');
  return stick.write(name, card.html);
}
