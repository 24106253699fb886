/** The steps of a card that the proof does not follow, to choose one and go there. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { methods, type Preview, type PreviewParams } from '../../shared/protocol.ts';
import { capital } from '../../shared/text.ts';

export async function listNotFollowed(client: BaseLanguageClient, uri: vscode.Uri, card?: string): Promise<void> {
  const params: PreviewParams = { uri: uri.toString(), ...(card !== undefined && { card }) };
  const coverage = (await client.sendRequest<Preview | null>(methods.preview, params))?.coverage;
  if (!coverage) return void vscode.window.showInformationMessage('There is no card in this file.');
  if (coverage.notFollowed.length === 0)
    return void vscode.window.showInformationMessage(`${capital(coverage.words)}.`);
  const rows = coverage.notFollowed.map(({ number, words, why, place }) => ({
    label: `Step ${number}: ${words}`,
    detail: `${capital(why)}.`,
    place,
  }));
  const chosen = await vscode.window.showQuickPick(rows, { title: `${capital(coverage.words)}.`, matchOnDetail: true });
  if (!chosen) return;
  const editor = await vscode.window.showTextDocument(vscode.Uri.parse(chosen.place.uri));
  const [start, end] = [chosen.place.start, chosen.place.end].map((offset) => editor.document.positionAt(offset));
  if (!start || !end) return;
  editor.selection = new vscode.Selection(start, start);
  editor.revealRange(new vscode.Range(start, end), vscode.TextEditorRevealType.InCenterIfOutsideViewport);
}
