/** The preview's page in a real browser, with a stand-in for the editor around it. */
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { buildSync } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { ToPage, ToPanel } from '../../../client/preview/messages.ts';
import { openWorkspace } from '../../../server/api.ts';
import { preview } from '../../../server/features/card-page.ts';
import { situationAt } from '../../../server/features/situation/situation.ts';
import { finish } from '../../../shared/parts.ts';
import type { Preview, Situation } from '../../../shared/protocol.ts';
import { defaultSettings } from '../../../shared/settings.ts';
import { openBrowser } from '../../support/browser.ts';

const file = 'file:///wash.card';

const text = `kind blower { off "Stop {}", on "Start {}" }
item fan : blower "the fan" normally off
item flap : valve "the flap" normally closed
variant unit 1 to 2
rule flap-first "The flap before the fan" { before fan on require flap open }
card wash "Wash" {
  number "W-1" revision "A" on 2026-01-02
  crew fitter "Fitter", helper "Helper"
  stage "Wash" {
    step by fitter "Look round."
    step by helper only unit 2 "Fetch water."
    step by fitter set fan on
    ${Array.from({ length: 40 }, (_, index) => `step by helper "Wipe panel ${index + 1}."`).join('\n    ')}
    step by fitter set fan off
  }
}
`;

function previewOf(source: string, configuration?: Record<string, string>): Preview {
  const api = openWorkspace({ readText: (name) => (name === file ? source : undefined) });
  const snapshot = api.workspace.snapshot(file);
  if (!snapshot) throw new Error('There is no text.');
  const { findings, accepted } = api.check([file]);
  const page = finish(
    preview({ workspace: api.workspace, snapshot, findings, accepted, settings: defaultSettings }, { configuration }),
  );
  const place = ({ file: uri, start, end }: { file: string; start: number; end: number }) => ({ uri, start, end });
  const { coverage } = page;
  return {
    ...page,
    coverage: coverage && {
      ...coverage,
      notFollowed: coverage.notFollowed.map((step) => ({ ...step, place: place(step.place) })),
    },
    version: 1,
    files: { [file]: file },
    findings: page.findings.map((finding) => ({
      ...finding,
      place: place(finding.place),
      path: finding.path.map((step) => ({ ...place(step.place), text: step.text })),
    })),
  };
}

/** The editor's colours for what the page uses. */
const themes = {
  light: {
    background: '#ffffff',
    foreground: '#3b3b3b',
    quiet: '#616161',
    widget: '#f8f8f8',
    link: '#005fb8',
    error: '#e51400',
    contrast: '',
  },
  dark: {
    background: '#1f1f1f',
    foreground: '#cccccc',
    quiet: '#9d9d9d',
    widget: '#202020',
    link: '#4daafc',
    error: '#f14c4c',
    contrast: '',
  },
  contrast: {
    background: '#000000',
    foreground: '#ffffff',
    quiet: '#ffffff',
    widget: '#0c141f',
    link: '#21a6ff',
    error: '#f48771',
    contrast: '#6fc3df',
  },
} as const;

function themeStyle(name: keyof typeof themes): string {
  const { background, foreground, quiet, widget, link, error, contrast } = themes[name];
  const colours: Record<string, string> = {
    foreground,
    'editor-foreground': foreground,
    'editor-background': background,
    descriptionForeground: quiet,
    'editorWidget-background': widget,
    'textLink-foreground': link,
    'dropdown-foreground': foreground,
    'dropdown-background': background,
    'button-secondaryForeground': foreground,
    'button-secondaryBackground': widget,
    'list-activeSelectionForeground': foreground,
    'list-activeSelectionBackground': widget,
    'editorError-foreground': error,
    focusBorder: link,
    ...(contrast && { contrastBorder: contrast, contrastActiveBorder: '#f38518' }),
  };
  const variables = Object.entries(colours).map(([key, value]) => `--vscode-${key}: ${value};`);
  return `:root { ${variables.join(' ')} --vscode-font-size: 13px; --vscode-font-family: sans-serif; }`;
}

describe('the page of the preview', () => {
  let browser: Browser;
  let page: Page;
  let script: string;
  let style: string;

  beforeAll(async () => {
    const entry = join(import.meta.dirname, '../../../client/preview/page.ts');
    const { outputFiles } = buildSync({
      entryPoints: [entry],
      bundle: true,
      write: false,
      outdir: 'out',
      format: 'iife',
    });
    script = outputFiles.find(({ path }) => path.endsWith('.js'))?.text ?? '';
    style = outputFiles.find(({ path }) => path.endsWith('.css'))?.text ?? '';
    browser = await openBrowser();
  });

  afterAll(() => browser.close());

  beforeEach(async () => {
    page = await (await browser.newContext({ viewport: { width: 700, height: 600 } })).newPage();
    await page.setContent('<!DOCTYPE html><html lang="en"><head><title>Card</title></head><body></body></html>');
    await page.addStyleTag({ content: `${themeStyle('dark')}\n${style}` });
    await page.evaluate(() => {
      const told: unknown[] = [];
      Object.assign(window, {
        told,
        acquireVsCodeApi: () => ({ postMessage: (message: unknown) => told.push(message), setState: () => {} }),
      });
    });
    await page.addScriptTag({ content: script });
    await send({ type: 'show', uri: file, preview: previewOf(text) });
  });

  /** Tells the page one message after the other, and waits until it has drawn what it shows. */
  const send = (...messages: ToPage[]) =>
    page.evaluate((all) => {
      for (const data of all) window.dispatchEvent(new MessageEvent('message', { data }));
      return new Promise((done) => setTimeout(done));
    }, messages);
  const told = () => page.evaluate(() => (window as unknown as { told: ToPanel[] }).told.splice(0));
  /** The page has been drawn with all that was told and scrolled before. */
  const frames = () =>
    page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  const scroller = () => page.locator('.scroller');
  const top = () => scroller().evaluate((element) => element.scrollTop);

  it('says that it is ready, and shows the card with its findings', async () => {
    expect(await told()).toContainEqual({ type: 'ready' });
    expect(await page.locator('h1').innerText()).toBe('Wash');
    expect(await page.locator('.step .finding').innerText()).toContain('Walk the path');
  });

  it('lists the steps that the proof does not follow, and a click shows one in the text', async () => {
    await page.locator('.coverage summary').click();
    expect(await page.locator('.coverage summary').innerText()).toBe(
      'The proof follows 2 of 44 steps; 42 are for people only',
    );
    await told();
    await page.getByRole('button', { name: 'Step 2: Fetch water.' }).click();
    const start = text.indexOf('step by helper only unit 2');
    expect(await told()).toEqual([
      { type: 'reveal', place: { uri: file, start, end: expect.any(Number) }, focus: false },
    ]);
    // Written on, it stays open; with nothing to list there is nothing to open.
    await send({ type: 'show', uri: file, preview: { ...previewOf(text), version: 2 } });
    expect(await page.getByRole('button', { name: 'Step 2: Fetch water.' }).isVisible()).toBe(true);
    await send({
      type: 'show',
      uri: file,
      preview: previewOf(text.replace(/step by helper.*|step by fitter "Look.*/g, '')),
    });
    expect(await page.locator('.coverage').innerText()).toBe('The proof follows 2 of 2 steps');
    expect(await page.locator('.coverage summary').count()).toBe(0);
  });

  it('is in the language of the card where the card is', async () => {
    const lang = () => page.locator('.card').getAttribute('lang');
    expect(await lang()).toBe('en');
    const french = text.replace('number "W-1"', 'language "fr" number "W-1"');
    await send({ type: 'show', uri: file, preview: { ...previewOf(french), version: 2 } });
    expect(await lang()).toBe('fr');
  });

  it.each([
    null,
    'show',
    { type: 'show' },
    { type: 'show', uri: file, preview: { ...previewOf(text), body: 7 } },
    { type: 'show', uri: file, preview: { ...previewOf(text), body: undefined } },
    { type: 'scroll', offset: '400' },
    { type: 'situation', situation: { items: [], supplies: [], runs: [{ label: 'x', svg: {} }] } },
    { type: 'toString' },
  ])('takes no message that is none (%#)', async (message) => {
    const faults: Error[] = [];
    page.on('pageerror', (fault) => faults.push(fault));
    await send(message as ToPage);
    expect(await page.locator('h1').innerText()).toBe('Wash');
    expect(await top()).toBe(0);
    expect(faults).toEqual([]);
  });

  it('redraws what has changed and leaves the rest, its scroll and its focus', async () => {
    const step = page.locator('[data-step]', { hasText: 'Wipe panel 20.' });
    await step.focus();
    await step.evaluate((element) => Object.assign(element, { isTheSame: true }));
    const before = await top();
    expect(before).toBeGreaterThan(0);
    await send({ type: 'show', uri: file, preview: previewOf(text.replace('Wipe panel 21.', 'Polish panel 21.')) });
    expect(await page.locator('.card').innerText()).toContain('Polish panel 21.');
    expect(await step.evaluate((element) => 'isTheSame' in element && element === document.activeElement)).toBe(true);
    expect(await top()).toBe(before);
  });

  it('walks by mouse and by keyboard, and stays on its way while the text changes', async () => {
    await page.locator('.step .finding').click();
    await frames();
    await told();
    await page.keyboard.press('ArrowRight');
    await frames();
    expect(await told()).toMatchObject([
      { type: 'reveal', focus: false, place: { start: text.indexOf('set fan on') } },
      { type: 'walked' },
    ]);
    expect(await page.locator('.path .here').innerText()).toContain('is broken');
    expect(await page.locator('.cw-walked').innerText()).toContain('Start the fan.');
    await send({ type: 'show', uri: file, preview: previewOf(text.replace('Look round.', 'Look all round.')) });
    expect(await page.locator('.path .here').innerText()).toContain('is broken');
    await send({
      type: 'show',
      uri: file,
      preview: previewOf(text.replace('require flap open', 'require flap closed')),
    });
    expect(await page.locator('.path').count()).toBe(0);
  });

  it('shows the place in the text with a click and keeps the keyboard; Enter and a double click go there', async () => {
    const revealed = async () => (await told()).filter(({ type }) => type !== 'scrolled');
    await told();
    await page.locator('.sentence', { hasText: 'Look round.' }).click();
    expect(await revealed()).toMatchObject([{ type: 'reveal', focus: false }]);
    await page.locator('.sentence', { hasText: 'Look round.' }).dblclick();
    expect((await revealed()).at(-1)).toMatchObject({ type: 'reveal', focus: true });
    await page.keyboard.press('n');
    await page.keyboard.press('n');
    await page.keyboard.press('p');
    await page.keyboard.press('Enter');
    expect(await revealed()).toMatchObject([
      { type: 'reveal', focus: true, place: { start: text.indexOf('step by helper only') } },
    ]);
    await page.keyboard.press('s');
    expect(await revealed()).toEqual([{ type: 'situation', offset: text.indexOf('step by helper only') }]);
  });

  it('marks the step at the cursor and brings it into view, without an echo', async () => {
    await told();
    await send({ type: 'cursor', offset: text.indexOf('Wipe panel 35'), version: 1 });
    const marked = page.locator('.cw-cursor');
    expect(await marked.innerText()).toContain('Wipe panel 35.');
    const box = await marked.boundingBox();
    expect(box && box.y > 0 && box.y + box.height <= 600).toBe(true);
    await frames();
    expect((await told()).filter(({ type }) => type === 'scrolled')).toEqual([]);
  });

  it('does not look for the cursor of a newer text on an older page', async () => {
    const newer = text.replace('"Look round."', '"Look round." // well');
    await send({ type: 'cursor', offset: newer.indexOf('Wipe panel 20'), version: 2 });
    expect(await page.locator('.cw-cursor').count()).toBe(0);
    await send({ type: 'cursor', offset: newer.indexOf('Wipe panel 35'), version: 2 });
    await send({ type: 'show', uri: file, preview: { ...previewOf(newer), version: 2 } });
    expect(await page.locator('.cw-cursor').innerText()).toContain('Wipe panel 35.');
  });

  it('walks with the arrow keys as soon as the editor asks for a walk', async () => {
    await send({ type: 'walk', offset: text.indexOf('set fan on') });
    const first = await page.locator('.path .here').innerText();
    await page.keyboard.press('ArrowRight');
    expect(await page.locator('.path .here').innerText()).not.toBe(first);
  });

  it('scrolls with the editor, and tells the editor of its own scrolling without an echo', async () => {
    await send({ type: 'scroll', offset: text.indexOf('Wipe panel 30') });
    const here = await page
      .locator('[data-step]', { hasText: 'Wipe panel 30.' })
      .evaluate((element) => element.getBoundingClientRect().top);
    expect(Math.abs(here - (await scroller().evaluate((element) => element.getBoundingClientRect().top)))).toBeLessThan(
      40,
    );
    await frames();
    expect((await told()).filter(({ type }) => type === 'scrolled')).toEqual([]);
    await scroller().hover();
    await page.mouse.wheel(0, -300);
    await expect.poll(async () => (await told()).some(({ type }) => type === 'scrolled')).toBe(true);
  });

  it('tells what a reader scrolls right after the page was scrolled, and back to that very place too', async () => {
    const scrolls = async () => (await told()).filter(({ type }) => type === 'scrolled');
    const reader = (by: number) =>
      scroller().evaluate((element, distance) => {
        element.scrollTop += distance;
      }, by);
    await scrolls();
    await send({ type: 'scroll', offset: text.indexOf('Wipe panel 30') });
    await reader(-100);
    await frames();
    expect(await scrolls()).toHaveLength(1);
    await reader(100);
    await frames();
    expect(await scrolls()).toHaveLength(1);
    await send({ type: 'scroll', offset: text.indexOf('Wipe panel 20') });
    await frames();
    expect(await scrolls()).toEqual([]);
  });

  it('tells the editor nothing where another file is shown from its top', async () => {
    await send({ type: 'scroll', offset: text.indexOf('Wipe panel 30') });
    await frames();
    await told();
    await send({ type: 'show', uri: 'file:///other.card', preview: previewOf(text) });
    await frames();
    expect(await top()).toBe(0);
    expect(await told()).toEqual([]);
  });

  it('asks for another configuration, and for all machines again', async () => {
    await told();
    const choice = page.locator('.chooser select').first();
    expect(await choice.locator('option').count()).toBe(3);
    await choice.selectOption({ index: 2 });
    expect(await told()).toEqual([{ type: 'choose', card: 'wash', configuration: { unit: '2' } }]);
    await send({ type: 'show', uri: file, preview: previewOf(text, { unit: '1' }) });
    expect(await page.locator('.card').innerText()).not.toContain('Fetch water.');
    await choice.selectOption({ index: 0 });
    expect(await told()).toEqual([{ type: 'choose', card: 'wash' }]);
  });

  it('says that the text is newer', async () => {
    await send({ type: 'newer', version: 3 });
    await send({ type: 'show', uri: file, preview: { ...previewOf(text), version: 2 } });
    expect(await page.locator('.older').innerText()).toContain('newer');
    await send({ type: 'show', uri: file, preview: { ...previewOf(text), version: 3 } });
    expect(await page.locator('.older').innerText()).toBe('');
  });

  it('draws the last of several that come before it has drawn one', async () => {
    await page.evaluate(() => {
      const card = document.querySelector('.card') as HTMLElement;
      const drawn: (string | undefined)[] = [];
      new MutationObserver(() => drawn.push(card.dataset.version)).observe(card, { attributeFilter: ['data-version'] });
      Object.assign(window, { drawn });
    });
    const drawn = () => page.evaluate(() => (window as unknown as { drawn: string[] }).drawn);
    const show = (version: number) => ({ type: 'show', uri: file, preview: { ...previewOf(text), version } }) as const;
    await send(show(5), show(6), show(7));
    expect(await drawn()).toEqual(['7']);
    await send(show(8), { type: 'walk', offset: 0 }, show(9));
    expect(await page.locator('.walk .here').count(), 'a walk begins on the card that was told of before it').toBe(1);
    expect((await drawn()).at(-1)).toBe('9');
  });

  it.each(['light', 'dark', 'contrast'] as const)('can be used by everybody in the %s theme', async (theme) => {
    await page.addStyleTag({ content: themeStyle(theme) });
    await page.locator('.step .finding').click();
    await send({ type: 'situation', situation: situationOf('set fan on') });
    const { violations } = await new AxeBuilder({ page })
      .withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'])
      .analyze();
    expect(
      violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`),
    ).toEqual([]);
  });
});

function situationOf(words: string): Situation | undefined {
  const { workspace } = openWorkspace({ readText: (name) => (name === file ? text : undefined) });
  const snapshot = workspace.snapshot(file);
  const found = snapshot && finish(situationAt(snapshot, text.indexOf(words), defaultSettings));
  return found && { ...found, place: { uri: file, start: found.place.start, end: found.place.end } };
}
