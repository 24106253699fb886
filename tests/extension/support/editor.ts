/** Starts the real editor with the packaged extension, on a workspace of its own, and a browser on it. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { editorEntry } from '../../../.ci/real-editor.mjs';
import { browserArguments, browserExecutable, untilHang } from '../../support/browser.ts';

const root = resolve(import.meta.dirname, '../../..');

/** Whether the tests in the editor can run here; `.ci/real-editor.mjs` has said why where they cannot. */
export const canRunEditor = editorEntry() !== undefined && vsix() !== undefined;
if (!canRunEditor && process.env.CI === 'true') throw new Error('The tests in the real editor cannot run here.');

/** How often what is done by keys is tried again: a machine that stands still for a while takes the keyboard away, which says nothing of us. */
export const onceMore = 1;

export type Theme = 'Default Light Modern' | 'Default Dark Modern' | 'Default High Contrast';

export interface EditorOptions {
  /** Path in the workspace → text. */
  readonly files: Readonly<Record<string, string>>;
  readonly settings?: Readonly<Record<string, unknown>>;
  /** More of the address at which the window is opened, made once the port is known. */
  readonly query?: (port: number) => string;
  /** Before the window is opened. */
  readonly prepare?: (page: Page) => Promise<void>;
  /** The package is installed, unless an extension in development is run. */
  readonly install?: boolean;
}

export interface Editor {
  readonly page: Page;
  readonly workspace: string;
  readonly port: number;
  /** Changes the writer's settings and loads the window again, as it was. */
  readonly setSettings: (settings: Readonly<Record<string, unknown>>) => Promise<void>;
  readonly close: () => Promise<void>;
}

/** Nothing may take the focus, ask a question or reach for the network. */
const quietSettings = {
  'workbench.startupEditor': 'none',
  'workbench.editor.revealIfOpen': true,
  'editor.minimap.enabled': false,
  'workbench.tips.enabled': false,
  'workbench.enableExperiments': false,
  'workbench.colorTheme': 'Default Dark Modern',
  'window.commandCenter': false,
  'git.enabled': false,
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'chat.commandCenter.enabled': false,
  'chat.agent.enabled': false,
  'security.workspace.trust.enabled': false,
  'files.autoSave': 'off',
};

export async function openEditor(options: EditorOptions): Promise<Editor> {
  const { files, settings = {}, query, prepare, install = true } = options;
  const home = mkdtempSync(join(tmpdir(), 'cardwright-editor-'));
  const workspace = join(home, 'workspace');
  writeFiles(workspace, files);
  let current = { ...quietSettings, ...settings };
  const writeSettings = () => writeFiles(home, { 'user-data/User/settings.json': JSON.stringify(current) });
  writeSettings();
  if (install) installExtension(home);
  const port = await freePort();
  const server = startServer(home, port, workspace);
  try {
    await untilHealthy(port);
    const load = async (page: Page) => {
      await page.goto(`http://127.0.0.1:${port}/?folder=${workspace}${query?.(port) ?? ''}`);
      await page.waitForSelector('.monaco-workbench .part.editor');
    };
    const { context, page } = await firstThatLives(home, async (opened) => {
      await prepare?.(opened);
      await load(opened);
    });
    const setSettings = async (more: Readonly<Record<string, unknown>>) => {
      current = { ...current, ...more };
      writeSettings();
      await load(page);
    };
    return { page, workspace, port, setSettings, close: () => closeAll(context, server, home) };
  } catch (error) {
    server.kill();
    throw error;
  }
}

/** The package that `npm run package` made, or the one that VSIX names. */
function vsix(): string | undefined {
  if (process.env.VSIX) return process.env.VSIX;
  const name = readdirSync(root).find((file) => file.endsWith('.vsix'));
  return name && join(root, name);
}

function writeFiles(folder: string, files: Readonly<Record<string, string>>): void {
  for (const [path, text] of Object.entries(files)) {
    const file = join(folder, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
  }
}

function environment(home: string): NodeJS.ProcessEnv {
  const { VSCODE_IPC_HOOK_CLI: _, ...inherited } = process.env;
  return {
    ...inherited,
    HOME: home,
    XDG_CONFIG_HOME: join(home, 'config'),
    XDG_DATA_HOME: join(home, 'data'),
    EXTENSIONS_GALLERY: '{}',
  };
}

function folders(home: string): string[] {
  return ['--extensions-dir', join(home, 'extensions'), '--user-data-dir', join(home, 'user-data')];
}

function installExtension(home: string): void {
  const args = [editorEntry() as string, ...folders(home), '--install-extension', vsix() as string];
  const { status, stderr } = spawnSync(process.execPath, args, { env: environment(home), encoding: 'utf8' });
  if (status !== 0) throw new Error(`The extension could not be installed: ${stderr}`);
}

function startServer(home: string, port: number, workspace: string): ChildProcess {
  writeFiles(home, { 'config.yaml': '' });
  const quiet = ['--disable-telemetry', '--disable-update-check', '--disable-workspace-trust'];
  const args = [editorEntry() as string, ...folders(home), '--config', join(home, 'config.yaml')];
  const server = spawn(
    process.execPath,
    [
      ...args,
      '--bind-addr',
      `127.0.0.1:${port}`,
      '--auth',
      'none',
      ...quiet,
      '--disable-getting-started-override',
      workspace,
    ],
    { env: environment(home), stdio: 'ignore' },
  );
  return server;
}

async function untilHealthy(port: number): Promise<void> {
  for (let attempt = 0; attempt < 600; attempt++) {
    const answer = await fetch(`http://127.0.0.1:${port}/healthz`).catch(() => undefined);
    if (answer?.ok) return;
    await sleep(200);
  }
  throw new Error('The editor did not start within two minutes.');
}

interface OpenBrowser {
  readonly context: BrowserContext;
  readonly page: Page;
}

/** A browser that dies while it shows its first page says nothing of the editor: another is started, and the third has to live. */
async function firstThatLives(home: string, show: (page: Page) => Promise<void>): Promise<OpenBrowser> {
  for (let attempt = 1; ; attempt++) {
    try {
      const context = await openBrowser(join(home, `browser-${attempt}`));
      const page = context.pages()[0] ?? (await context.newPage());
      await show(page);
      return { context, page };
    } catch (error) {
      const hasDied = /has been closed|crashed/.test(String(error));
      if (!hasDied || attempt === 3) throw error;
    }
  }
}

async function openBrowser(profile: string): Promise<BrowserContext> {
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: browserExecutable(),
    headless: true,
    viewport: { width: 1600, height: 900 },
    permissions: ['clipboard-read', 'clipboard-write'],
    args: [...browserArguments],
  });
  context.setDefaultTimeout(untilHang);
  return context;
}

async function closeAll(context: BrowserContext, server: ChildProcess, home: string): Promise<void> {
  await context.close();
  const ended = new Promise((resolve) => server.once('exit', resolve));
  server.kill();
  await ended;
  rmSync(home, { recursive: true, force: true, maxRetries: 5 });
}

async function freePort(): Promise<number> {
  return new Promise((resolvePort) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => resolvePort(typeof address === 'object' && address ? address.port : 0));
    });
  });
}
