/** The extension in a browser: the server is a worker, which has no disk and asks for the files of the workspace. */
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { methods, type ReadCards, type ReadFigureParams } from '../../shared/protocol.ts';
import { clientOptions, start } from './extension.ts';

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const worker = new Worker(await scriptUrl(vscode.Uri.joinPath(context.extensionUri, 'dist/web/server.js')));
  const client = new LanguageClient('cardwright', 'Cardwright', worker, clientOptions);
  client.onRequest(methods.readCards, readCards);
  client.onRequest(methods.readFigure, readFigure);
  await start(context, client);
}

/** An editor does not make a worker of a file on a remote machine, but of a copy of it. */
async function scriptUrl(script: vscode.Uri): Promise<string> {
  if (script.scheme !== 'vscode-remote') return script.toString(true);
  const copy = new Blob([new Uint8Array(await vscode.workspace.fs.readFile(script))], { type: 'text/javascript' });
  return URL.createObjectURL(copy);
}

async function readCards(): Promise<ReadCards> {
  const files = await vscode.workspace.findFiles('**/{*.card,cardwright.json}');
  const decoder = new TextDecoder();
  return Promise.all(
    files.map(async (uri) => ({ uri: uri.toString(), text: decoder.decode(await vscode.workspace.fs.readFile(uri)) })),
  );
}

async function readFigure({ uri }: ReadFigureParams): Promise<Uint8Array | null> {
  try {
    return await vscode.workspace.fs.readFile(vscode.Uri.parse(uri));
  } catch {
    return null;
  }
}
