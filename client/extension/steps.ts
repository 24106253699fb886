/** Turns a list that was written elsewhere into steps. The server knows the language; here is only the editor. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { methods, type Steps, type StepsParams } from '../../shared/protocol.ts';

export async function listToSteps(client: BaseLanguageClient, editor: vscode.TextEditor): Promise<void> {
  const { document, selection } = editor;
  const lines = new vscode.Range(
    selection.start.line,
    0,
    selection.end.line,
    document.lineAt(selection.end.line).text.length,
  );
  await replace(client, editor, lines, document.getText(lines));
}

export async function pasteAsSteps(client: BaseLanguageClient, editor: vscode.TextEditor): Promise<void> {
  await replace(client, editor, editor.selection, await vscode.env.clipboard.readText());
}

async function replace(
  client: BaseLanguageClient,
  editor: vscode.TextEditor,
  range: vscode.Range,
  list: string,
): Promise<void> {
  const { document } = editor;
  const uri = document.uri.toString();
  const params: StepsParams = { uri, list, offset: document.offsetAt(range.start) };
  const { text } = await client.sendRequest<Steps>(methods.steps, params);
  if (!text) return void vscode.window.showInformationMessage('There is no list here: one step a line, or numbered.');
  const indent = /^\s*/.exec(document.lineAt(range.start.line).text)?.[0] ?? '';
  const indented = text.replaceAll('\n', `\n${indent}`);
  await editor.edit((edit) => edit.replace(range, range.start.character === 0 ? indent + indented : indented));
}
