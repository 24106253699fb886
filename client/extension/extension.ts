/** What the extension does on the desktop and in the browser alike. */
import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import { type CheckedParams, type Counts, type InitializationOptions, methods } from '../../shared/protocol.ts';
import { PreviewPanels, viewType } from '../preview/panel.ts';
import { openExample } from './example.ts';
import { ExplanationPages, explain } from './explanations.ts';
import { exportCard, type Meant } from './export.ts';
import { LoweredChecks } from './lowered-checks.ts';
import { newCard, newEquipment } from './new-files.ts';
import { listNotFollowed } from './not-followed.ts';
import { writeReason } from './reason.ts';
import { tellReleases } from './releases.ts';
import { compareWith, report } from './review.ts';
import { listToSteps, pasteAsSteps } from './steps.ts';
import { Tutorial } from './tutorial.ts';

export const clientOptions: LanguageClientOptions = {
  documentSelector: [{ language: 'cardwright' }],
  // The task's problem matcher has the same owner, so that a finding stands in the list of problems once.
  diagnosticCollectionName: 'cardwright',
  // Pushed, the open card comes first and the other files when there is time; a pulling editor asks for all every 2 s.
  initializationOptions: (): InitializationOptions => ({
    findings: 'push',
    commands: true,
    isTrusted: vscode.workspace.isTrusted,
  }),
};

/** The card at the cursor of the open text, or else the one that the preview shows. */
function meantIn(uri: vscode.Uri, panels: PreviewPanels): Meant {
  const editor = vscode.window.activeTextEditor;
  const isOpen = editor?.document.uri.toString() === uri.toString();
  return { card: panels.cardOf(uri), ...(isOpen && { offset: editor.document.offsetAt(editor.selection.active) }) };
}

/** Starts the client and makes the commands known; what is made ends with the extension. */
export async function start(context: vscode.ExtensionContext, client: BaseLanguageClient): Promise<void> {
  const tutorial = new Tutorial((uri) => client.sendRequest<Counts | null>(methods.counts, { uri }));
  const panels = new PreviewPanels(context.extensionUri, {
    walked: (uri) => void tutorial.look(uri, 'walk'),
    preview: (params) => client.sendRequest(methods.preview, params),
    situation: (params) => client.sendRequest(methods.situation, params),
  });
  const lowered = new LoweredChecks();
  client.onNotification(methods.checked, (params: CheckedParams) => {
    const { uri } = params;
    lowered.checked(params);
    panels.checked(uri);
    void tutorial.look(uri);
  });

  const onEditor = (run: (editor: vscode.TextEditor) => unknown) => () => {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId === 'cardwright') return run(editor);
    return void vscode.window.showInformationMessage('Open a card first (a file whose name ends in .card).');
  };
  const onFile = (run: (uri: vscode.Uri) => unknown) => (uri?: vscode.Uri) =>
    uri instanceof vscode.Uri ? run(uri) : onEditor((editor) => run(editor.document.uri))();

  const commands: Record<string, (...given: never[]) => unknown> = {
    preview: onFile((uri) => panels.show(uri)),
    walk: onEditor((editor) => panels.walk(editor)),
    situation: onEditor((editor) => panels.showSituation(editor)),
    export: onFile(async (uri) => {
      const written = await exportCard(client, context.extensionUri, uri, meantIn(uri, panels));
      if (written) await tutorial.look(uri.toString(), 'export');
    }),
    compare: (uri?: vscode.Uri, from?: unknown) => onFile((file) => compareWith(client, file, from))(uri),
    notFollowed: (uri?: vscode.Uri, card?: string) =>
      onFile((file) => listNotFollowed(client, file, card ?? panels.cardOf(file)))(uri),
    report: () => report(client, context.extensionUri),
    example: async () => tutorial.begin((await openExample()).uri),
    newCard: () => newCard(),
    newEquipment: () => newEquipment(),
    listToSteps: onEditor((editor) => listToSteps(client, editor)),
    pasteAsSteps: onEditor((editor) => pasteAsSteps(client, editor)),
    explain: (code?: string) => explain(code),
    language: () => explain('language'),
    writeReason: onEditor((editor) => writeReason(editor)),
    restart: () => client.stop().then(() => client.start()),
  };
  context.subscriptions.push(
    client,
    panels,
    tutorial,
    lowered,
    vscode.workspace.onDidGrantWorkspaceTrust(() => client.sendNotification(methods.trusted)),
    vscode.window.registerWebviewPanelSerializer(viewType, panels),
    vscode.workspace.registerTextDocumentContentProvider('cardwright-help', new ExplanationPages(client)),
    vscode.workspace.registerTextDocumentContentProvider('cardwright-std', {
      provideTextDocumentContent: (uri) => client.sendRequest<string>(methods.rulebook, { uri: uri.toString() }),
    }),
    ...Object.entries(commands).map(([name, run]) => vscode.commands.registerCommand(`cardwright.${name}`, run)),
  );
  await client.start();
  context.subscriptions.push(await tellReleases(client));
}
