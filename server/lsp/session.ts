/** What the server knows between messages: the texts, which of them an editor has open, and the writer's settings. */
import { dequal } from 'dequal';
import {
  type CancellationToken,
  type Connection,
  type InitializeParams,
  LSPErrorCodes,
  ResponseError,
  type TextDocuments,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { largestFigure, largestText } from '../../shared/file-sizes.ts';
import type { Finding } from '../../shared/finding.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { InParts } from '../../shared/parts.ts';
import type { InitializationOptions } from '../../shared/protocol.ts';
import type { Release } from '../../shared/release.ts';
import { defaultSettings, type Settings } from '../../shared/settings.ts';
import { harmless, readSettings, readSettingsText } from '../../shared/settings-reading.ts';
import { LineTable } from '../../shared/text.ts';
import { withWordList } from '../../shared/word-list.ts';
import { resolveUse } from '../binding/files.ts';
import { raisedLevels } from '../levels.ts';
import { settingsFindings, unreadableSettings } from '../settings-findings.ts';
import type { Snapshot } from '../snapshot.ts';
import { Workspace } from '../workspace.ts';
import { type Disk, Fetched } from './disk.ts';
import { figureFiles } from './figures.ts';
import { FileNames } from './file-names.ts';
import { Cancelled, doInTurns, makeTurn, nextMessage } from './newest.ts';
import { LateProgress } from './progress.ts';

/** Characters. */
const longText = 100_000;

export class Session {
  readonly names = new FileNames((uri) => this.documents.get(uri) !== undefined);
  readonly workspace: Workspace;
  /** Of the cards that were released into the workspace, as far as the editor has told of them. */
  releases: readonly Release[] = [];
  /** The files of the workspace's folders as they are on disk. */
  private readonly onDisk = new Map<string, string>();
  /** The cards among them. */
  filesOnDisk: readonly string[] = [];
  /** Settings files that are there and cannot be read. */
  private unreadable: readonly string[] = [];
  /** Other files that cards use. */
  private readonly texts = new Fetched((file) => this.readText(file));
  private readonly figures = new Fetched((file) => this.readNamed(file, largestFigure));
  private readonly readings = new WeakMap<Snapshot, Promise<unknown>>();
  private folders: readonly string[];
  private fromEditor: Partial<Settings> = {};
  private isTrusted: boolean;
  private setReady: () => void = () => {};
  /** The workspace's folders and the settings have been read. */
  readonly ready = new Promise<void>((resolve) => {
    this.setReady = resolve;
  });
  /** By file, and by folder; one object as long as nothing has changed, so that what was worked out with it is still known. */
  private knownSettings = new Map<string, Settings>();
  /** Those that were known before the settings were read again. */
  private settingsBefore: ReadonlyMap<string, Settings> = new Map();

  constructor(
    readonly connection: Connection,
    readonly documents: TextDocuments<TextDocument>,
    private readonly disk: Disk,
    private readonly client: InitializeParams,
  ) {
    const { workspaceFolders, rootUri } = client;
    this.isTrusted = this.options.isTrusted ?? true;
    this.folders = workspaceFolders?.map(({ uri }) => uri) ?? (rootUri ? [rootUri] : []);
    this.workspace = new Workspace({
      readText: (file) => this.onDisk.get(file) ?? this.texts.read(file),
      readBytes: this.figures.read,
    });
  }

  get options(): InitializationOptions {
    return this.client.initializationOptions ?? {};
  }

  async begin(): Promise<void> {
    await this.readEditorSettings();
    await this.readFolders();
    this.setReady();
  }

  /**
   * Works an answer out without keeping others waiting; goes on only after what `waitForOthers` waits for, and ends where the editor does not want
   * it any more.
   */
  async answer<Result>(
    work: InParts<Result>,
    token: CancellationToken,
    waitForOthers: () => Promise<void> = async () => {},
  ): Promise<Result> {
    const turn = makeTurn(() => token.isCancellationRequested);
    const progress = new LateProgress(this.connection, 'Working it out');
    const giveWay = async () => {
      progress.update();
      await turn.giveWay();
      await waitForOthers();
    };
    try {
      return await this.workspace.held(() => doInTurns(work, { ...turn, giveWay }));
    } catch (error) {
      if (error instanceof Cancelled) throw new ResponseError(LSPErrorCodes.RequestCancelled, 'The editor gave it up.');
      throw error;
    } finally {
      void progress.end();
    }
  }

  // ---------------------------------------------------------------- texts

  /** The newest snapshot of a file, undefined where there is no such file. */
  snapshot(uri: string): Snapshot | undefined {
    return this.workspace.snapshot(this.names.fileOf(uri));
  }

  /** As `snapshot`, with its text read and its names bound. */
  async read(uri: string): Promise<Snapshot | undefined> {
    const snapshot = this.snapshot(uri);
    if (!snapshot || !this.takesLong(snapshot.file)) return snapshot;
    await this.reading(snapshot);
    return this.snapshot(uri) === snapshot ? snapshot : this.read(uri);
  }

  /**
   * As `read`, for whoever asks of a place in the text. Where that is typed in before it is read, the place is not the one that was
   * meant, and the editor asks again.
   */
  readAsked(uri: string): Promise<Snapshot | undefined> {
    return this.ofThisVersion(uri, () => this.read(uri));
  }

  /** What is worked out for the text as an editor has it now. Throws where it has another by then. */
  async ofThisVersion<Result>(uri: string, work: () => Promise<Result>): Promise<Result> {
    const file = this.names.fileOf(uri);
    const version = this.openVersion(file);
    const result = await work();
    if (this.openVersion(file) === version) return result;
    throw new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed since.');
  }

  /** Several may ask for it before it is read. Between tree and names others are answered, and a newer version makes them needless. */
  private reading(snapshot: Snapshot): Promise<unknown> {
    const read = async () => {
      void snapshot.parsed;
      await nextMessage();
      return snapshot.isCurrent() && snapshot.bound;
    };
    return getOrInsert(this.readings, snapshot, () => this.inOneGo(snapshot, 'Reading a long text', read));
  }

  /** Does what cannot be left once it is begun. Where the text is long the writer is told before. */
  async inOneGo<Result>({ file }: Snapshot, title: string, make: () => Result | Promise<Result>): Promise<Result> {
    const progress = new LateProgress(this.connection, title);
    if (this.takesLong(file)) await progress.tell();
    try {
      return await make();
    } finally {
      void progress.end();
    }
  }

  /** To read the text may take longer than a writer waits without being told. */
  takesLong(file: string): boolean {
    return this.workspace.textOf(file).length > longText;
  }

  /** The path of a file from the workspace's folder that it lies in. */
  readonly shortName = (file: string): string => {
    const folder = this.folders.map((uri) => this.names.fileOf(uri)).find((one) => file.startsWith(`${one}/`));
    return folder === undefined ? file : file.slice(folder.length + 1);
  };

  /** The version that the editor has of a file; null where it is not open. */
  openVersion(file: string): number | null {
    return this.documents.get(this.names.uriOf(file))?.version ?? null;
  }

  linesOf(file: string): LineTable {
    return this.workspace.snapshot(file)?.lines ?? new LineTable(this.workspace.textOf(file));
  }

  isOpen(file: string): boolean {
    return this.documents.get(this.names.uriOf(file)) !== undefined;
  }

  /** Files of the workspace and those that are open, the open ones first. */
  get files(): string[] {
    return [...new Set([...this.openFiles, ...this.filesOnDisk])];
  }

  private get openFiles(): string[] {
    return this.documents.keys().map((uri) => this.names.fileOf(uri));
  }

  /** The newest snapshots of all these files, once the workspace has been read. */
  async everywhere(): Promise<Snapshot[]> {
    await this.ready;
    return this.files.flatMap((file) => this.workspace.snapshot(file) ?? []);
  }

  /** Takes the text of a document that is open; gives the name of its file. */
  takeText(document: TextDocument): string {
    const file = this.names.fileOf(document.uri);
    this.workspace.setText(file, document.getText());
    return file;
  }

  /** An editor gave the file up: what is on disk counts again. That may be another text by now, which no editor has told of. */
  async closed(uri: string): Promise<void> {
    const file = this.names.fileOf(uri);
    const text = this.filesOnDisk.includes(file) ? await this.readText(file) : undefined;
    if (text === undefined) await this.readFolders();
    else this.onDisk.set(file, text);
    if (!this.isOpen(file)) this.workspace.forget(file);
  }

  /** Reads the workspace's folders, and forgets what was read of them before. */
  async readFolders(): Promise<void> {
    const listed = await this.disk.list(this.folders);
    const before = new Map(this.onDisk);
    this.onDisk.clear();
    this.texts.forget();
    this.forgetSettings();
    this.unreadable = listed.filter(({ text }) => text === null).map(({ uri }) => this.names.fileOfListed(uri));
    for (const { uri, text } of listed) if (text !== null) this.onDisk.set(this.names.fileOfListed(uri), text);
    this.filesOnDisk = [...this.onDisk.keys()].filter((file) => file.endsWith('.card'));
    for (const file of new Set([...before.keys(), ...this.onDisk.keys(), ...this.workspace.files])) {
      const isAsBefore = before.has(file) && before.get(file) === this.onDisk.get(file);
      if (!isAsBefore && !this.isOpen(file)) this.workspace.forget(file);
    }
  }

  /** Makes known what a file names, and what that names: the files that it uses, and its figures. */
  async fetchNamed(file: string): Promise<void> {
    await this.read(this.names.uriOf(file));
    for (;;) {
      const came = await this.texts.fetch(this.workspace.snapshot(file)?.missing ?? []);
      if (came.length === 0) break;
      for (const one of came) this.workspace.forget(one);
    }
    const snapshot = this.workspace.snapshot(file);
    const reached = [file, ...(snapshot?.uses ?? [])].flatMap((one) => this.workspace.snapshot(one) ?? []);
    await this.figures.fetch(reached.flatMap(figureFiles));
  }

  private async readText(file: string): Promise<string | undefined> {
    const content = await this.readNamed(file, largestText);
    return content && new TextDecoder().decode(content);
  }

  private async readNamed(file: string, largest: number): Promise<Uint8Array | undefined> {
    const folders = this.readable.map((folder) => this.names.uriOf(folder));
    return (await this.disk.read({ uri: this.names.uriOf(file), folders, largest })) ?? undefined;
  }

  /** The folders that files which cards name may lie in: the workspace's, those that settings name, and that of a card which is open by itself. */
  private get readable(): string[] {
    const folders = this.folders.map((uri) => this.names.fileOf(uri));
    const isOutside = (file: string) => !folders.some((folder) => file.startsWith(`${folder}/`));
    const alone = this.openFiles.filter(isOutside).map((file) => file.slice(0, file.lastIndexOf('/')));
    return [
      ...new Set([
        ...folders,
        ...alone,
        ...['', ...this.settingsFiles.keys()].flatMap((file) => this.settings(file).useFolders),
      ]),
    ];
  }

  /** What cards name may be read now where it might not before, or the other way round. */
  private forgetNamed(): void {
    this.texts.forget();
    for (const file of this.workspace.files) if (!this.isOpen(file)) this.workspace.forget(file);
    this.forgetFigures();
  }

  /** Some picture changed on disk: all that was worked out with it is worked out again. */
  forgetFigures(): void {
    this.figures.forget();
    this.workspace.forgetSnapshots();
  }

  changeFolders(added: readonly string[], removed: readonly string[]): Promise<void> {
    this.folders = [...this.folders.filter((folder) => !removed.includes(folder)), ...added];
    return this.readFolders();
  }

  // ---------------------------------------------------------------- settings

  /** Asks the editor, or takes what it sends where it cannot be asked. */
  async readEditorSettings(sent?: { readonly cardwright?: unknown }): Promise<void> {
    const canBeAsked = this.client.capabilities.workspace?.configuration;
    const settings = canBeAsked ? await this.connection.workspace.getConfiguration('cardwright') : sent?.cardwright;
    const { given } = readSettings(settings ?? this.options.settings ?? {});
    const root = this.folders[0];
    const before = this.fromEditor.useFolders;
    this.fromEditor = withPaths(given, root === undefined ? '' : this.names.fileOf(root));
    this.forgetSettings();
    if (before?.join() !== this.fromEditor.useFolders?.join()) this.forgetNamed();
  }

  /** The settings for a file: what its folder's `cardwright.json` says comes before what the editor says. */
  settings(file: string): Settings {
    return getOrInsert(this.knownSettings, file, () => this.settingsIn(this.settingsFolder(file)));
  }

  private settingsIn(folder: string): Settings {
    return getOrInsert(this.knownSettings, folder, () => {
      const ofEditor = { ...defaultSettings, ...withWordList(this.fromEditor, defaultSettings, this.listed) };
      const ofFolder = this.folderSettings(folder, ofEditor);
      const now = { ...ofEditor, ...withWordList(ofFolder, ofEditor, this.listed) };
      const before = this.settingsBefore.get(folder);
      return before && dequal(before, now) ? before : now;
    });
  }

  private forgetSettings(): void {
    this.settingsBefore = new Map([...this.settingsBefore, ...this.knownSettings]);
    this.knownSettings = new Map();
  }

  /** A file of the workspace, as it was listed. */
  private readonly listed = (file: string): string | undefined => this.onDisk.get(file);

  /** The nearest folder above a file that has settings of its own; empty where none has. */
  private settingsFolder(file: string): string {
    for (let end = file.lastIndexOf('/'); end > 0; end = file.lastIndexOf('/', end - 1)) {
      if (this.onDisk.has(`${file.slice(0, end)}/cardwright.json`)) return file.slice(0, end);
    }
    return '';
  }

  private folderSettings(folder: string, ofEditor: Settings): Partial<Settings> {
    const { given } = readSettingsText(this.onDisk.get(`${folder}/cardwright.json`) ?? '{}');
    if (this.isTrusted) return withPaths(given, folder);
    return { ...harmless(given), levels: raisedLevels(ofEditor.levels, given.levels ?? {}) };
  }

  /** The settings files of the workspace, each with what cannot be used of it. */
  get settingsFiles(): ReadonlyMap<string, readonly Finding[]> {
    const files = [...this.onDisk].filter(([file]) => file.endsWith('/cardwright.json'));
    return new Map([
      ...files.map(([file, text]) => [file, settingsFindings(file, text, this.listed)] as const),
      ...this.unreadable.map((file) => [file, unreadableSettings(file)] as const),
    ]);
  }

  /** The writer trusts the workspace from now on. */
  trust(): void {
    this.isTrusted = true;
    this.forgetSettings();
    this.forgetNamed();
  }
}

/** With the files and folders that they name as files are named, from the folder that the settings lie in. */
function withPaths(given: Partial<Settings>, folder: string): Partial<Settings> {
  const { useFolders, wordList } = given;
  const named = (path: string) => resolveUse(`${folder}/cardwright.json`, path);
  return {
    ...given,
    ...(wordList && { wordList: named(wordList) }),
    ...(useFolders && {
      useFolders: useFolders.map((path) => named(path)).map((file) => (file.startsWith('/') ? `file://${file}` : file)),
    }),
  };
}
