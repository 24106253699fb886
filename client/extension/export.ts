/** Exports a card to one HTML file beside its text, and says where it lies. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type Exported, type ExportParams, methods } from '../../shared/protocol.ts';

export async function exportCard(client: BaseLanguageClient, extension: vscode.Uri, uri: vscode.Uri): Promise<void> {
  const script = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(extension, 'dist/work-copy.js'));
  const ask = (draft: boolean) => {
    const params: ExportParams = { uri: uri.toString(), draft, workCopy: new TextDecoder().decode(script) };
    return client.sendRequest<Exported>(methods.export, params);
  };
  const exported = await ask(false);
  if (exported.type === 'refused') await offerDraft(exported.errors, async () => save(await ask(true), uri));
  else await save(exported, uri);
}

async function offerDraft(errors: number, exportDraft: () => Promise<void>): Promise<void> {
  const draft = 'Export a Draft';
  const problems = 'Show the Errors';
  const count = errors === 1 ? 'one error' : `${errors} errors`;
  const text = `The card has ${count} and is not for use. A draft is marked so on each page.`;
  const chosen = await vscode.window.showWarningMessage(text, draft, problems);
  if (chosen === draft) await exportDraft();
  if (chosen === problems) await vscode.commands.executeCommand('workbench.actions.view.problems');
}

async function save(exported: Exported, uri: vscode.Uri): Promise<void> {
  if (exported.type !== 'card') return void vscode.window.showInformationMessage('There is no card in this file.');
  const to = vscode.Uri.joinPath(uri, '..', exported.fileName);
  try {
    await vscode.workspace.fs.writeFile(to, new TextEncoder().encode(exported.html));
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return void vscode.window.showErrorMessage(`The card could not be written to ${to.path}: ${reason}`);
  }
  const open = 'Open in the Browser';
  const where = vscode.workspace.asRelativePath(to);
  if ((await vscode.window.showInformationMessage(`The card is in ${where}.`, open)) === open) {
    await vscode.env.openExternal(to);
  }
}
