/** The extension on the desktop and on remote machines: the server is a Node process of its own. */
import { join } from 'node:path';
import * as vscode from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { clientOptions, start } from './extension.ts';
import { CheckTasks } from './tasks.ts';

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const module = context.asAbsolutePath('dist/start.cjs');
  const server = { module, transport: TransportKind.ipc, args: [join(context.globalStorageUri.fsPath, 'compiled')] };
  const debug = { ...server, options: { execArgv: ['--nolazy', '--inspect=6019'] } };
  context.subscriptions.push(
    vscode.tasks.registerTaskProvider('cardwright', new CheckTasks(context.asAbsolutePath('dist/cli.cjs'))),
  );
  await start(context, new LanguageClient('cardwright', 'Cardwright', { run: server, debug }, clientOptions));
}
