/** The help pages of the findings, as read-only documents. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type Explanation, methods } from '../../shared/protocol.ts';

export class ExplanationPages implements vscode.TextDocumentContentProvider {
  constructor(private readonly client: BaseLanguageClient) {}

  async provideTextDocumentContent(uri: vscode.Uri): Promise<string> {
    const code = uri.path.replace(/^\/|\.md$/g, '');
    const { markdown } = await this.client.sendRequest<Explanation>(methods.explain, { code });
    return markdown;
  }
}

/** Shows the page of a code; without one, of a finding under the cursor or of the code that the writer names. */
export async function explain(code?: string): Promise<void> {
  const wanted =
    code ??
    codeAtCursor() ??
    (await vscode.window.showInputBox({ prompt: 'The code of the finding', placeHolder: 'safety.rule' }));
  if (!wanted) return;
  const page = vscode.Uri.from({ scheme: 'cardwright-help', path: `/${wanted}.md` });
  await vscode.commands.executeCommand('markdown.showPreview', page);
}

/** The page that the server names with the finding, or its code. */
function codeAtCursor(): string | undefined {
  const editor = vscode.window.activeTextEditor;
  if (!editor) return undefined;
  const here = vscode.languages
    .getDiagnostics(editor.document.uri)
    .find(({ source, range }) => source === 'Cardwright' && range.contains(editor.selection.active));
  const page = here && 'data' in here ? here.data : undefined;
  if (typeof page === 'string') return page;
  const code = here?.code;
  return typeof code === 'object' ? String(code.value) : code?.toString();
}
