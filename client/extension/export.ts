/** Exports a card to one HTML file beside its text, and says where it lies. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { isMadeHere } from '../../shared/made-by.ts';
import { type CardTitle, type Exported, type ExportParams, methods } from '../../shared/protocol.ts';

/** Which card of a file is meant: by its name, or by a place inside it. */
export type Meant = Pick<ExportParams, 'card' | 'offset'>;

/** @returns true where the card, or a draft of it, was written */
export async function exportCard(
  client: BaseLanguageClient,
  extension: vscode.Uri,
  uri: vscode.Uri,
  meant: Meant,
): Promise<boolean> {
  const script = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(extension, 'dist/work-copy.js'));
  const workCopy = new TextDecoder().decode(script);
  const ask = (which: Meant, draft: boolean) =>
    client.sendRequest<Exported>(methods.export, { uri: uri.toString(), ...which, draft, workCopy });
  const exported = await ask(meant, false);
  switch (exported.type) {
    case 'card':
      return save(exported, uri);
    case 'several': {
      const card = await chooseCard(exported.cards);
      return card !== undefined && exportCard(client, extension, uri, { card });
    }
    case 'refused': {
      const draft = (await wantsDraft(exported.errors)) ? await ask(meant, true) : undefined;
      return draft?.type === 'card' && save(draft, uri);
    }
    case 'no-card':
      void vscode.window.showInformationMessage('There is no card in this file.');
      return false;
  }
}

async function chooseCard(cards: readonly CardTitle[]): Promise<string | undefined> {
  const choices = cards.map(({ name, title }) => ({ label: title, description: name, name }));
  const chosen = await vscode.window.showQuickPick(choices, { placeHolder: 'Which card of this file?' });
  return chosen?.name;
}

async function wantsDraft(errors: number): Promise<boolean> {
  const draft = 'Export a Draft';
  const problems = 'Show the Errors';
  const count = errors === 1 ? 'one error' : `${errors} errors`;
  const text = `The card has ${count} and is not for use. A draft is marked so on each page.`;
  const chosen = await vscode.window.showWarningMessage(text, draft, problems);
  if (chosen === problems) await vscode.commands.executeCommand('workbench.actions.view.problems');
  return chosen === draft;
}

async function save(exported: Exported & { type: 'card' }, uri: vscode.Uri): Promise<boolean> {
  const to = await placeFor(exported.fileName, uri);
  if (!to || !(await mayReplace(to))) return false;
  try {
    await writeWhole(to, exported.html);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    void vscode.window.showErrorMessage(`The card could not be written to ${to.path}: ${reason}`);
    return false;
  }
  void offerToOpen(to);
  return true;
}

/** Beside the text; a text that was never saved has no place of its own, so that the writer names one. */
async function placeFor(fileName: string, uri: vscode.Uri): Promise<vscode.Uri | undefined> {
  if (uri.scheme !== 'untitled') return vscode.Uri.joinPath(uri, '..', fileName);
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  const defaultUri = folder ? vscode.Uri.joinPath(folder, fileName) : vscode.Uri.file(fileName);
  return vscode.window.showSaveDialog({ defaultUri, filters: { 'Web page': ['html'] } });
}

/** A card that was exported before is replaced; what somebody else has written there is asked about. */
async function mayReplace(file: vscode.Uri): Promise<boolean> {
  const found = await vscode.workspace.fs.readFile(file).then(
    (content) => new TextDecoder().decode(content),
    () => undefined,
  );
  if (found === undefined || isMadeHere(found, 'card')) return true;
  const replace = 'Replace It';
  const text = `${vscode.workspace.asRelativePath(file)} is no exported card. What it holds would be lost.`;
  return (await vscode.window.showWarningMessage(text, { modal: true }, replace)) === replace;
}

/** Beside it and then in its place, so that nothing half written is ever there. */
async function writeWhole(file: vscode.Uri, text: string): Promise<void> {
  const { fs } = vscode.workspace;
  const beside = file.with({ path: `${file.path}.new` });
  try {
    await fs.writeFile(beside, new TextEncoder().encode(text));
    await fs.rename(beside, file, { overwrite: true });
  } catch (error) {
    await fs.delete(beside).then(undefined, () => undefined);
    throw error;
  }
}

async function offerToOpen(file: vscode.Uri): Promise<void> {
  const open = 'Open in the Browser';
  const where = vscode.workspace.asRelativePath(file);
  const chosen = await vscode.window.showInformationMessage(`The card is in ${where}.`, open);
  if (chosen === open) await vscode.env.openExternal(file);
}
