/** For whoever reviews: a card beside an older one, and the report on all cards, each a page in a tab of its own. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type Compared, type CompareParams, methods, type ReportParams } from '../../shared/protocol.ts';

/** What the extension for Git gives others, as far as this needs it. Where it is switched off, asking for more is an error. */
interface GitExtension {
  readonly enabled: boolean;
  readonly getAPI: (version: 1) => GitApi;
}

interface GitApi {
  readonly getRepository: (
    uri: vscode.Uri,
  ) => { readonly show: (commit: string, path: string) => Promise<string> } | null;
}

/** Gives the text that a file had; null where there was none. */
type Reads = (uri: vscode.Uri) => Promise<string | null>;

const choices = [
  { label: 'The last commit', from: 'commit' },
  { label: 'The last release', from: 'release' },
  { label: 'Another file …', from: 'file' },
] as const;

/** Asks with what, unless that is said already. */
export async function compareWith(client: BaseLanguageClient, uri: vscode.Uri, from?: unknown): Promise<void> {
  const chosen =
    choices.find((choice) => choice.from === from) ??
    (await vscode.window.showQuickPick(choices, { placeHolder: 'Compare the card with …' }));
  if (!chosen) return;
  const compared = await comparedWith(chosen.from, client, uri);
  if (!compared) return;
  if (compared.type === 'page') showPage('Comparison', compared.html, false);
  else if (compared.type === 'nothing') void vscode.window.showInformationMessage(compared.why);
}

async function comparedWith(
  from: (typeof choices)[number]['from'],
  client: BaseLanguageClient,
  uri: vscode.Uri,
): Promise<Compared | undefined> {
  switch (from) {
    case 'release':
      return client.sendRequest<Compared>(methods.compare, { uri: uri.toString() } satisfies CompareParams);
    case 'commit': {
      const reads = await lastCommit(uri);
      return reads
        ? withOlder(client, uri, uri, reads)
        : {
            type: 'nothing',
            why: 'Git is switched off in the editor, or this file is in no repository that it knows.',
          };
    }
    case 'file': {
      const filters = { Cards: ['card'] };
      const [older] = (await vscode.window.showOpenDialog({ filters, openLabel: 'Compare' })) ?? [];
      return older && withOlder(client, uri, older, onDisk);
    }
  }
}

/** The server says what else of the older revision it must read. */
async function withOlder(
  client: BaseLanguageClient,
  now: vscode.Uri,
  older: vscode.Uri,
  reads: Reads,
): Promise<Compared> {
  const text = await reads(older);
  if (text === null) return { type: 'nothing', why: 'The older file is not there, or not in the last commit.' };
  const texts: Record<string, string | null> = { [older.toString()]: text };
  for (;;) {
    const params: CompareParams = { uri: now.toString(), older: { uri: older.toString(), texts } };
    const compared = await client.sendRequest<Compared>(methods.compare, params);
    if (compared.type !== 'needs') return compared;
    for (const uri of compared.uris) texts[uri] = await reads(vscode.Uri.parse(uri));
  }
}

const onDisk: Reads = async (uri) => {
  try {
    return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
  } catch {
    return null;
  }
};

async function lastCommit(uri: vscode.Uri): Promise<Reads | undefined> {
  const extension = vscode.extensions.getExtension<GitExtension>('vscode.git');
  const git = await extension?.activate();
  const repository = git?.enabled ? git.getAPI(1).getRepository(uri) : undefined;
  return repository ? (file) => repository.show('HEAD', file.fsPath).catch(() => null) : undefined;
}

export async function report(client: BaseLanguageClient, extension: vscode.Uri): Promise<void> {
  const script = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(extension, 'dist/report.js'));
  const params: ReportParams = { script: new TextDecoder().decode(script) };
  showPage('Report', await client.sendRequest<string>(methods.report, params), true);
}

/** The page brings its own policy, which lets its style in and the one script. It has no file to fetch, and nobody listens to it. */
function showPage(title: string, html: string, enableScripts: boolean): void {
  const panel = vscode.window.createWebviewPanel('cardwright.page', title, vscode.ViewColumn.Active, {
    enableScripts,
    enableFindWidget: true,
    localResourceRoots: [],
  });
  panel.webview.html = html;
}
