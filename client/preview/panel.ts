/**
 * The preview beside the text: a webview that shows the card of one file, follows it while it is written, and walks the
 * paths of its findings. It asks the server for everything that it shows.
 */
import * as vscode from 'vscode';
import type {
  Configuration,
  PlaceInFile,
  Preview,
  PreviewParams,
  Situation,
  SituationParams,
} from '../../shared/protocol.ts';
import { filesOf, readForPanel, type ToPage, type ToPanel } from './messages.ts';
import { holdLatch, isEcho, type Latch, openLatch } from './scroll.ts';

export const viewType = 'cardwright.preview';

export interface Asked {
  readonly preview: (params: PreviewParams) => Promise<Preview | null>;
  readonly situation: (params: SituationParams) => Promise<Situation | null>;
  /** Told when a walk through this file has come to the end of its path. */
  readonly walked: (uri: string) => void;
}

/** What the page keeps for the next window. */
interface Kept {
  readonly uri?: string;
}

/** All that changes while a panel lives. */
interface Shown {
  uri: vscode.Uri;
  /** The card that the reader chose; where absent, the first of the file is shown. */
  card?: string;
  /** The card that the page shows. */
  onPage?: string;
  /** The files that the page may send the reader to. */
  files: ReadonlySet<string>;
  configuration?: Configuration;
  /** Runs from when a preview is asked for until the newest one is shown. */
  asking?: Promise<void> | undefined;
  /** Another one is wanted than the one that was asked for last. */
  isStale: boolean;
  /** The page has been built and takes messages. */
  ready: boolean;
  /** What the page is to be told once it shows the card. */
  later: ToPage[];
  latch: Latch;
  /** Of the text, as last seen in its window. */
  firstLine?: number;
  /** The file for which the page was scrolled to where the text is. */
  begun?: string;
}

export class PreviewPanels implements vscode.Disposable, vscode.WebviewPanelSerializer<Kept> {
  private panel: vscode.WebviewPanel | undefined;
  private shown: Shown | undefined;
  private readonly walked = vscode.window.createTextEditorDecorationType({
    backgroundColor: new vscode.ThemeColor('editor.findMatchHighlightBackground'),
    // In high contrast there is no background to see.
    border: '1px solid',
    borderColor: new vscode.ThemeColor('editor.findMatchHighlightBorder'),
    overviewRulerColor: new vscode.ThemeColor('editorOverviewRuler.findMatchForeground'),
    overviewRulerLane: vscode.OverviewRulerLane.Full,
    isWholeLine: false,
  });
  private readonly listeners: vscode.Disposable[];

  constructor(
    private readonly extensionUri: vscode.Uri,
    private readonly asked: Asked,
  ) {
    this.listeners = [
      vscode.workspace.onDidChangeTextDocument(({ document }) => {
        if (this.shows(document.uri)) this.tell({ type: 'newer', version: document.version });
      }),
      vscode.window.onDidChangeActiveTextEditor((editor) => void this.follow(editor)),
      vscode.window.onDidChangeTextEditorVisibleRanges(({ textEditor }) => this.scrollPage(textEditor)),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
        if (this.shows(textEditor.document.uri)) this.tellCursor(textEditor);
      }),
    ];
  }

  /** Opens the preview beside the text, or brings it to the front. */
  async show(uri: vscode.Uri): Promise<void> {
    if (this.panel) this.panel.reveal(undefined, true);
    else {
      const column = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
      this.adopt(vscode.window.createWebviewPanel(viewType, 'Card', column, this.options()), uri);
    }
    await this.turnTo(uri);
  }

  /** Takes over a panel from the last window. */
  async deserializeWebviewPanel(panel: vscode.WebviewPanel, kept: Kept | undefined): Promise<void> {
    const uri = kept?.uri ? vscode.Uri.parse(kept.uri) : vscode.window.activeTextEditor?.document.uri;
    if (!uri || this.panel) return panel.dispose();
    panel.webview.options = this.options();
    this.adopt(panel, uri);
  }

  /** The page takes the keyboard, so that the arrow keys walk. */
  async walk(editor: vscode.TextEditor): Promise<void> {
    await this.show(editor.document.uri);
    this.panel?.reveal(undefined, false);
    this.tell({ type: 'walk', offset: cursorOf(editor) });
  }

  async showSituation(editor: vscode.TextEditor): Promise<void> {
    await this.show(editor.document.uri);
    await this.tellSituation(cursorOf(editor));
  }

  /** The name of the card of this file that the page shows. */
  cardOf(uri: vscode.Uri): string | undefined {
    return this.shows(uri) ? this.shown?.onPage : undefined;
  }

  /** The server has new findings of a file. */
  checked(uri: string): void {
    if (this.shown?.uri.toString() === uri) void this.refresh();
  }

  dispose(): void {
    this.panel?.dispose();
    this.walked.dispose();
    for (const listener of this.listeners) listener.dispose();
  }

  private options(): vscode.WebviewPanelOptions & vscode.WebviewOptions {
    return { enableScripts: true, localResourceRoots: [vscode.Uri.joinPath(this.extensionUri, 'dist')] };
  }

  private adopt(panel: vscode.WebviewPanel, uri: vscode.Uri): void {
    this.panel = panel;
    this.shown = { uri, files: new Set(), isStale: false, ready: false, later: [], latch: openLatch };
    panel.iconPath = {
      light: vscode.Uri.joinPath(this.extensionUri, 'client/extension/media/file-light.svg'),
      dark: vscode.Uri.joinPath(this.extensionUri, 'client/extension/media/file-dark.svg'),
    };
    panel.webview.onDidReceiveMessage((message: unknown) => this.receive(readForPanel(message)));
    panel.onDidDispose(() => {
      this.panel = undefined;
      this.shown = undefined;
      this.mark(undefined);
    });
    panel.webview.html = pageHtml(panel.webview, this.extensionUri);
  }

  private shows(uri: vscode.Uri): boolean {
    return this.shown?.uri.toString() === uri.toString();
  }

  /** Turns to another file that is opened, where it has a card; beside a file of equipment the card stays in view. */
  private async follow(editor: vscode.TextEditor | undefined): Promise<void> {
    if (!this.panel || editor?.document.languageId !== 'cardwright' || this.shows(editor.document.uri)) return;
    const { uri } = editor.document;
    const preview = await this.asked.preview({ uri: uri.toString() });
    const isStillOpen = vscode.window.activeTextEditor?.document.uri.toString() === uri.toString();
    if (preview?.card !== undefined && isStillOpen) await this.turnTo(uri);
  }

  private async turnTo(uri: vscode.Uri): Promise<void> {
    if (!this.shown) return;
    if (!this.shows(uri)) {
      this.shown.uri = uri;
      this.shown.card = undefined;
      this.shown.configuration = undefined;
    }
    await this.refresh();
  }

  /** One preview at a time: whoever types on sees one that is a letter or two old, and none is made that nobody sees. */
  private async refresh(): Promise<void> {
    const { shown } = this;
    if (!shown?.ready) return;
    shown.isStale = true;
    shown.asking ??= this.askUntilNewest(shown);
    await shown.asking;
  }

  private async askUntilNewest(shown: Shown): Promise<void> {
    try {
      while (shown.isStale && this.shown === shown) {
        shown.isStale = false;
        await this.showAnswer(shown);
      }
    } finally {
      shown.asking = undefined;
    }
  }

  private async showAnswer(shown: Shown): Promise<void> {
    const { uri, card, configuration } = shown;
    const preview = await this.asked.preview({ uri: uri.toString(), card, configuration });
    const isWanted = uri === shown.uri && card === shown.card && configuration === shown.configuration;
    if (!preview || this.shown !== shown || !this.panel || !isWanted) return;
    this.panel.title = titleOf(preview, uri);
    shown.onPage = preview.card;
    shown.files = filesOf(preview);
    void this.panel.webview.postMessage({ type: 'show', uri: uri.toString(), preview } satisfies ToPage);
    this.beginWhereTheTextIs(shown);
    for (const message of shown.later.splice(0)) void this.panel.webview.postMessage(message);
  }

  /** A file that is newly shown is shown where its text is scrolled to. */
  private beginWhereTheTextIs(shown: Shown): void {
    const uri = shown.uri.toString();
    if (shown.begun === uri) return;
    shown.begun = uri;
    const editor = this.editorOf(uri);
    if (!editor) return;
    shown.firstLine = undefined;
    this.scrollPage(editor);
    this.tellCursor(editor);
  }

  private tellCursor(editor: vscode.TextEditor): void {
    this.tell({ type: 'cursor', offset: cursorOf(editor), version: editor.document.version });
  }

  /** Tells the page at once, or once it has something to show. */
  private tell(message: ToPage): void {
    if (this.shown?.ready) void this.panel?.webview.postMessage(message);
    else this.shown?.later.push(message);
  }

  private receive(message: ToPanel | undefined): void {
    if (!this.shown || !message) return;
    switch (message.type) {
      case 'ready':
        this.shown.ready = true;
        void this.refresh();
        return;
      case 'scrolled':
        this.scrollEditor(message.offset);
        return;
      case 'reveal':
        if (this.shown.files.has(message.place.uri)) void this.reveal(message.place, message.focus);
        return;
      case 'choose':
        this.shown.card = message.card;
        this.shown.configuration = message.configuration;
        void this.refresh();
        return;
      case 'walked':
        this.asked.walked(this.shown.uri.toString());
        return;
      case 'situation':
        void this.tellSituation(message.offset);
        return;
    }
  }

  private async tellSituation(offset: number): Promise<void> {
    if (!this.shown) return;
    const situation = await this.asked.situation({ uri: this.shown.uri.toString(), offset });
    this.tell({ type: 'situation', situation: situation ?? undefined });
  }

  /** Ranges change without a scroll too (a lens, a fold, a wrapped line): the page then stays with the step at the cursor. */
  private scrollPage(editor: vscode.TextEditor): void {
    const first = editor.visibleRanges[0];
    if (!first || !this.shown || !this.shows(editor.document.uri) || first.start.line === this.shown.firstLine) return;
    this.shown.firstLine = first.start.line;
    if (isEcho(this.shown.latch, Date.now())) return;
    this.tell({ type: 'scroll', offset: editor.document.offsetAt(first.start) });
  }

  private scrollEditor(offset: number): void {
    const editor = this.editorOf(this.shown?.uri.toString());
    if (!editor || !this.shown) return;
    this.shown.latch = holdLatch(Date.now());
    const { line } = editor.document.positionAt(Math.round(offset));
    editor.revealRange(new vscode.Range(line, 0, line, 0), vscode.TextEditorRevealType.AtTop);
  }

  private async reveal(place: PlaceInFile, focus: boolean): Promise<void> {
    const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(place.uri));
    const range = new vscode.Range(document.positionAt(place.start), document.positionAt(place.end));
    if (this.shown) this.shown.latch = holdLatch(Date.now());
    const viewColumn = this.editorOf(place.uri)?.viewColumn ?? vscode.ViewColumn.One;
    const editor = await vscode.window.showTextDocument(document, { viewColumn, preserveFocus: !focus });
    editor.revealRange(range, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
    if (focus) editor.selection = new vscode.Selection(range.start, range.start);
    this.mark(focus ? undefined : { editor, range });
  }

  /** Marks one place in the text as the place where the walk is; elsewhere no mark is left. */
  private mark(at: { editor: vscode.TextEditor; range: vscode.Range } | undefined): void {
    for (const editor of vscode.window.visibleTextEditors) {
      editor.setDecorations(this.walked, editor === at?.editor ? [at.range] : []);
    }
  }

  private editorOf(uri: string | undefined): vscode.TextEditor | undefined {
    return vscode.window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri);
  }
}

function cursorOf(editor: vscode.TextEditor): number {
  return editor.document.offsetAt(editor.selection.active);
}

function titleOf(preview: Preview, uri: vscode.Uri): string {
  const shown = preview.cards.find(({ name }) => name === preview.card);
  return shown?.title ?? uri.path.slice(uri.path.lastIndexOf('/') + 1);
}

function pageHtml(webview: vscode.Webview, extensionUri: vscode.Uri): string {
  const file = (name: string) => webview.asWebviewUri(vscode.Uri.joinPath(extensionUri, 'dist', name));
  const policy = `default-src 'none'; img-src data:; style-src ${webview.cspSource}; script-src ${webview.cspSource}`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<link rel="stylesheet" href="${file('preview.css')}">
<title>Card</title>
</head>
<body><script src="${file('preview.js')}"></script></body>
</html>`;
}
