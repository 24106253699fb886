/** Tells the server which cards are released: every page in the workspace that holds the record of a release, wherever it lies. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { methods, type ReleasesParams } from '../../shared/protocol.ts';
import { recordIn } from '../../shared/release.ts';

const pages = '**/*.html';
const left = '**/node_modules/**';
/** So many pages are read at most, and none that is larger, in bytes. */
const most = 5000;
const largest = 20_000_000;

export async function tellReleases(client: BaseLanguageClient): Promise<vscode.Disposable> {
  const records = new Map<string, string>();
  const tell = () =>
    client.sendNotification(methods.releases, { records: [...records.values()] } satisfies ReleasesParams);
  const look = async (uri: vscode.Uri) => {
    const record = await recordAt(uri);
    const before = records.get(uri.toString());
    if (record === undefined) records.delete(uri.toString());
    else records.set(uri.toString(), record);
    return record !== before;
  };
  const lookAndTell = async (uri: vscode.Uri) => {
    if (await look(uri)) await tell();
  };
  for (const uri of await vscode.workspace.findFiles(pages, left, most)) await look(uri);
  if (records.size > 0) await tell();
  const watcher = vscode.workspace.createFileSystemWatcher(pages);
  watcher.onDidCreate(lookAndTell);
  watcher.onDidChange(lookAndTell);
  watcher.onDidDelete(lookAndTell);
  return watcher;
}

async function recordAt(uri: vscode.Uri): Promise<string | undefined> {
  try {
    if ((await vscode.workspace.fs.stat(uri)).size > largest) return undefined;
    return recordIn(new TextDecoder().decode(await vscode.workspace.fs.readFile(uri)));
  } catch {
    return undefined;
  }
}
