/** The extension on the desktop and on remote machines: the server is a Node process of its own. */
import { createHash } from 'node:crypto';
import { readFileSync, renameSync, statSync } from 'node:fs';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { heapInTrial, keptHeap, withHeap } from '../../shared/kept.ts';
import { clientOptions, start } from './extension.ts';
import { CheckTasks } from './tasks.ts';

/** Tells one build of the server, and one Node with its options, from every other: what one has kept another cannot read. */
function keptName(context: vscode.ExtensionContext): string {
  const { size, mtimeMs } = statSync(process.execPath);
  const node = JSON.stringify([process.version, process.arch, size, mtimeMs, process.env.NODE_OPTIONS, withHeap('')]);
  const server = readFileSync(context.asAbsolutePath('dist/server.cjs'));
  const digest = createHash('sha256').update(node).update(server).digest('hex');
  return join(context.globalStorageUri.fsPath, 'compiled', `${digest}-server`);
}

/** From the heap that was kept, where there is one; else by itself. */
function nodeOptions(name: string): string[] {
  try {
    renameSync(keptHeap(name), heapInTrial(name));
    return withHeap(heapInTrial(name));
  } catch {
    return [];
  }
}

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const name = keptName(context);
  const server = { module: context.asAbsolutePath('dist/start.cjs'), transport: TransportKind.ipc, args: [name] };
  const options = {
    // Asked for at each start.
    get execArgv() {
      return nodeOptions(name);
    },
  };
  const debug = { ...server, options: { execArgv: ['--nolazy', '--inspect=6019'] } };
  context.subscriptions.push(
    vscode.tasks.registerTaskProvider('cardwright', new CheckTasks(context.asAbsolutePath('dist/cli.cjs'))),
  );
  await start(
    context,
    new LanguageClient('cardwright', 'Cardwright', { run: { ...server, options }, debug }, clientOptions),
  );
}
