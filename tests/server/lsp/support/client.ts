/** A plain client that speaks the protocol over stdio, without any library for editors. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildSync } from 'esbuild';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';
import type {
  ConfigurationParams,
  Diagnostic,
  InitializeParams,
  PublishDiagnosticsParams,
  Range,
} from 'vscode-languageserver';
import { type CheckedParams, type InitializationOptions, methods } from '../../../../shared/protocol.ts';
import { LineTable } from '../../../../shared/text.ts';

const project = resolve(import.meta.dirname, '../../../..');

export interface ClientOptions {
  /** Path in the workspace → text, on disk before the server starts. */
  readonly files?: Readonly<Record<string, string>>;
  /** Puts more into the workspace's folder before the server starts. */
  readonly prepare?: (folder: string) => void;
  readonly options?: InitializationOptions;
  readonly capabilities?: InitializeParams['capabilities'];
  readonly settings?: unknown;
  /** The folder that is opened, where it is not the whole. */
  readonly root?: string;
  /** How Node starts our server, where it is not by itself. */
  readonly args?: readonly string[];
  /** Another server: the arguments for node, and what it is told and asks for. */
  readonly peer?: Peer;
}

export interface Peer {
  readonly args: readonly string[];
  readonly options: unknown;
  readonly settings: Readonly<Record<string, unknown>>;
}

export class Client {
  readonly published: PublishDiagnosticsParams[] = [];
  /** What our own extension is told of each file, the newest of each. */
  readonly checked = new Map<string, CheckedParams>();
  /** What the server has said that it works on. */
  readonly works: string[] = [];
  private readonly texts = new Map<string, { version: number; text: string }>();
  private listeners: (() => void)[] = [];

  private constructor(
    readonly connection: MessageConnection,
    private readonly server: ChildProcess,
    readonly folder: string,
  ) {
    connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
      this.published.push(params);
      this.tell();
    });
    connection.onUnhandledProgress(({ value }) => {
      if (value.kind === 'begin') this.works.push(value.title);
      this.tell();
    });
    connection.onNotification('cardwright/checked', (params: CheckedParams) => {
      this.checked.set(params.uri, params);
      this.tell();
    });
  }

  private tell(): void {
    for (const listener of this.listeners.splice(0)) listener();
  }

  static async start({
    files = {},
    prepare,
    options,
    capabilities = {},
    settings,
    root = '.',
    args,
    peer,
  }: ClientOptions = {}): Promise<Client> {
    const folder = mkdtempSync(join(tmpdir(), 'cardwright-lsp-'));
    for (const [path, text] of Object.entries(files)) writeTo(join(folder, path), text);
    prepare?.(folder);
    const server = spawn(process.execPath, [...(peer?.args ?? args ?? [builtServer()]), '--stdio'], {
      stdio: ['pipe', 'pipe', 'inherit'],
    });
    const connection = createMessageConnection(
      new StreamMessageReader(server.stdout),
      new StreamMessageWriter(server.stdin),
    );
    const client = new Client(connection, server, folder);
    const sections = peer?.settings ?? { cardwright: settings };
    connection.onRequest('workspace/configuration', ({ items }: ConfigurationParams) =>
      items.map(({ section = '' }) => sections[section] ?? null),
    );
    connection.onRequest('client/registerCapability', () => null);
    connection.onRequest('window/workDoneProgress/create', () => null);
    connection.listen();
    const rootUri = pathToFileURL(resolve(folder, root)).toString();
    await connection.sendRequest('initialize', {
      processId: process.pid,
      rootUri,
      workspaceFolders: [{ uri: rootUri, name: 'workspace' }],
      capabilities: {
        ...capabilities,
        workspace: { configuration: peer !== undefined || settings !== undefined, ...capabilities.workspace },
      },
      initializationOptions: peer?.options ?? options,
    });
    await connection.sendNotification('initialized', {});
    return client;
  }

  uri(path: string): string {
    return pathToFileURL(join(this.folder, path)).toString();
  }

  async open(path: string, text: string, languageId = 'cardwright'): Promise<void> {
    this.texts.set(path, { version: 1, text });
    const textDocument = { uri: this.uri(path), languageId, version: 1, text };
    await this.connection.sendNotification('textDocument/didOpen', { textDocument });
  }

  async close(path: string): Promise<void> {
    this.texts.delete(path);
    await this.connection.sendNotification('textDocument/didClose', { textDocument: { uri: this.uri(path) } });
  }

  /** Replaces a stretch, as an editor sends it: by its range in the text before the change. */
  async edit(path: string, start: number, end: number, newText: string): Promise<void> {
    const document = this.texts.get(path);
    if (!document) throw new Error(`${path} is not open.`);
    const range = rangeOf(document.text, start, end);
    document.text = document.text.slice(0, start) + newText + document.text.slice(end);
    document.version++;
    const textDocument = { uri: this.uri(path), version: document.version };
    await this.connection.sendNotification('textDocument/didChange', {
      textDocument,
      contentChanges: [{ range, text: newText }],
    });
  }

  textOf(path: string): string {
    return this.texts.get(path)?.text ?? '';
  }

  request<Answer>(method: string, path: string, params: object = {}): Promise<Answer> {
    return this.connection.sendRequest<Answer>(method, { textDocument: { uri: this.uri(path) }, ...params });
  }

  /** The findings that were published for the newest version of a file, when all of them are known. */
  async findings(path: string): Promise<readonly Diagnostic[]> {
    const uri = this.uri(path);
    const version = this.texts.get(path)?.version;
    const newest = () => {
      const last = this.published.findLast((published) => published.uri === uri);
      return last && (version === undefined || last.version === version) ? last.diagnostics : undefined;
    };
    await this.told(newest);
    // What reading a long card shows is told before the rest; this is answered when all is.
    await this.connection.sendRequest(methods.counts, { uri });
    return this.told(newest);
  }

  /** Waits until the server has told enough for an answer. */
  async told<Answer>(answer: () => Answer | undefined): Promise<Answer> {
    for (;;) {
      const known = answer();
      if (known !== undefined) return known;
      await new Promise<void>((resolveNext) => this.listeners.push(resolveNext));
    }
  }

  /** Waits until the findings last published for a file are these, told in some way. */
  async untilFindings<Told>(
    path: string,
    tell: (findings: readonly Diagnostic[]) => Told,
    expected: Told,
  ): Promise<void> {
    const isSo = () => {
      const last = this.published.findLast(({ uri }) => uri === this.uri(path));
      return last !== undefined && JSON.stringify(tell(last.diagnostics)) === JSON.stringify(expected);
    };
    await this.told(() => isSo() || undefined);
  }

  /** Changes a file outside the editor. */
  async writeFile(path: string, text: string): Promise<void> {
    writeTo(join(this.folder, path), text);
    await this.changedOutside(path);
  }

  async changedOutside(path: string): Promise<void> {
    await this.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: this.uri(path), type: 2 }],
    });
  }

  /** What the server's process holds, in MiB. */
  get memory(): number {
    const status = readFileSync(`/proc/${this.server.pid}/status`, 'utf8');
    return Number(/VmRSS:\s+(\d+)/.exec(status)?.[1]) / 1024;
  }

  get isAlive(): boolean {
    return this.server.exitCode === null;
  }

  async stop(): Promise<void> {
    await this.connection.sendRequest('shutdown');
    await this.end(() => this.connection.sendNotification('exit'));
  }

  /** Ends the server whatever it works on. */
  kill(): Promise<void> {
    return this.end(async () => void this.server.kill('SIGKILL'));
  }

  private async end(tell: () => Promise<void>): Promise<void> {
    const ended = new Promise((resolveEnd) => this.server.once('exit', resolveEnd));
    await tell();
    await ended;
    this.connection.dispose();
    rmSync(this.folder, { recursive: true, force: true });
  }
}

export function rangeOf(text: string, start: number, end: number): Range {
  const lines = new LineTable(text);
  const position = (offset: number) => {
    const { line, column } = lines.positionAt(offset);
    return { line, character: column };
  };
  return { start: position(start), end: position(end) };
}

function writeTo(file: string, text: string): void {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
}

let built: string | undefined;

/** The server as it is shipped: bundled, from the sources as they are now. */
export function builtServer(): string {
  if (!built) {
    const outfile = join(project, `.cache/server-${process.pid}.cjs`);
    const entryPoints = [join(project, 'server/lsp/main.ts')];
    const alias = { fdir: join(project, 'node_modules/fdir/dist/index.cjs') };
    const loader = { '.card': 'text' } as const;
    const form = { bundle: true, platform: 'node', format: 'cjs', target: 'node20' } as const;
    buildSync({ entryPoints, outfile, ...form, alias, loader });
    // Put in place in one go: another test may be starting it. One that ends by being stopped leaves no file of its own.
    built = join(project, '.cache/server-of-tests.cjs');
    renameSync(outfile, built);
  }
  return built;
}
