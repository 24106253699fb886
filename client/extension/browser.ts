/** The extension in a browser: the server is a worker, which has no disk and asks for the files of the workspace. */
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { largestText } from '../../shared/file-sizes.ts';
import { methods, type ReadCards, type ReadFile } from '../../shared/protocol.ts';
import { clientOptions, start } from './extension.ts';

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const worker = new Worker(await scriptUrl(vscode.Uri.joinPath(context.extensionUri, 'dist/web/server.js')));
  const client = new LanguageClient('cardwright', 'Cardwright', worker, clientOptions);
  client.onRequest(methods.readCards, readCards);
  client.onRequest(methods.readFile, readFile);
  await start(context, client);
}

/** An editor does not make a worker of a file on a remote machine, but of a copy of it. */
async function scriptUrl(script: vscode.Uri): Promise<string> {
  if (script.scheme !== 'vscode-remote') return script.toString(true);
  const copy = new Blob([new Uint8Array(await vscode.workspace.fs.readFile(script))], { type: 'text/javascript' });
  return URL.createObjectURL(copy);
}

async function readCards(): Promise<ReadCards> {
  const files = await vscode.workspace.findFiles('**/{*.card,*.words,cardwright.json}');
  const read = files.map(async (uri) => {
    const content = await readRegular(uri, largestText);
    if (content) return [{ uri: uri.toString(), text: new TextDecoder().decode(content) }];
    return uri.path.endsWith('/cardwright.json') ? [{ uri: uri.toString(), text: null }] : [];
  });
  return (await Promise.all(read)).flat();
}

async function readFile({ uri, folders, largest }: ReadFile): Promise<Uint8Array | null> {
  const file = vscode.Uri.parse(uri);
  const isInside = folders.some((folder) => file.toString().startsWith(`${vscode.Uri.parse(folder)}/`));
  return isInside ? readRegular(file, largest) : null;
}

async function readRegular(uri: vscode.Uri, largest: number): Promise<Uint8Array | null> {
  const { fs } = vscode.workspace;
  try {
    const { type, size } = await fs.stat(uri);
    return type & vscode.FileType.File && size <= largest ? await fs.readFile(uri) : null;
  } catch {
    return null;
  }
}
