/** Wires a connection to the features: what the server can do, and in which order things begin. */
import {
  CodeActionKind,
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type InitializeParams,
  type InitializeResult,
  TextDocumentSyncKind,
  TextDocuments,
  type WorkspaceFolder,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { type InitializationOptions, methods } from '../../shared/protocol.ts';
import type { Disk } from './disk.ts';
import { Findings } from './findings.ts';
import { handleCards } from './handlers/cards.ts';
import { handleNames } from './handlers/names.ts';
import { handlePulls } from './handlers/pulls.ts';
import { handleReading } from './handlers/reading.ts';
import { handleReview } from './handlers/review.ts';
import { handleStructure, legend } from './handlers/structure.ts';
import { fixAllKind, handleWriting } from './handlers/writing.ts';
import { Session } from './session.ts';

const watchedTexts = '**/{*.card,*.words,cardwright.json}';
const watchedFigures = '**/*.{svg,png,jpg,jpeg}';

export function serve(connection: Connection, disk: Disk): void {
  const documents = new TextDocuments(TextDocument);
  connection.onInitialize((params) => {
    const options = (params.initializationOptions ?? {}) as InitializationOptions;
    const isPulled = (options.findings ?? (params.capabilities.textDocument?.diagnostic ? 'pull' : 'push')) === 'pull';
    const session = new Session(connection, documents, disk, params);
    const findings = new Findings(session, !isPulled);
    handleStructure(session);
    handleNames(session);
    handleReading(session, findings);
    handleWriting(session, findings);
    handleCards(session, findings);
    handleReview(session, findings, params);
    if (isPulled) handlePulls(session, findings);
    followTexts(session, findings);
    connection.onInitialized(() => begin(session, findings, params));
    return { capabilities: capabilities(isPulled), serverInfo: { name: 'Cardwright' } };
  });
  documents.listen(connection);
  connection.listen();
}

async function begin(
  session: Session,
  findings: Findings,
  { capabilities: { workspace } }: InitializeParams,
): Promise<void> {
  const { connection } = session;
  if (workspace?.didChangeConfiguration?.dynamicRegistration) {
    await connection.client.register(DidChangeConfigurationNotification.type, { section: 'cardwright' });
  }
  if (workspace?.didChangeWatchedFiles?.dynamicRegistration) {
    const watchers = [{ globPattern: watchedTexts }, { globPattern: watchedFigures }];
    await connection.client.register(DidChangeWatchedFilesNotification.type, { watchers });
  }
  if (workspace?.workspaceFolders) {
    connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
      const urisOf = (folders: readonly WorkspaceFolder[]) => folders.map(({ uri }) => uri);
      findings.refreshAfter(session.changeFolders(urisOf(added), urisOf(removed)));
    });
  }
  await session.begin();
  findings.refresh();
}

/** What is typed, opened, saved and changed outside. */
function followTexts(session: Session, findings: Findings): void {
  const { connection, documents } = session;
  documents.onDidChangeContent(({ document }) => findings.refresh(session.takeText(document)));
  documents.onDidClose(({ document }) => findings.refreshAfter(session.closed(document.uri)));
  connection.onDidChangeWatchedFiles(({ changes }) => {
    if (changes.some(({ uri }) => isFigure(uri))) session.forgetFigures();
    if (changes.some(({ uri }) => !isFigure(uri))) findings.refreshAfter(session.readFolders());
    else findings.refresh();
  });
  connection.onDidChangeConfiguration(({ settings }) => findings.refreshAfter(session.readEditorSettings(settings)));
  connection.onNotification(methods.trusted, () => {
    session.trust();
    findings.refresh();
  });
}

function isFigure(uri: string): boolean {
  return /\.(?:svg|png|jpe?g)$/i.test(uri);
}

function capabilities(isPulled: boolean): InitializeResult['capabilities'] {
  const renames = {
    filters: [
      { scheme: 'file', pattern: { glob: '**/*.card' } },
      { scheme: 'file', pattern: { glob: '**', matches: 'folder' as const } },
    ],
  };
  return {
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    completionProvider: { triggerCharacters: [' ', '"', '{', '.', '(', ':'] },
    hoverProvider: true,
    signatureHelpProvider: { triggerCharacters: ['(', ','] },
    definitionProvider: true,
    typeDefinitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    documentSymbolProvider: true,
    workspaceSymbolProvider: true,
    codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.Refactor, fixAllKind] },
    codeLensProvider: {},
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n', moreTriggerCharacter: ['}'] },
    renameProvider: { prepareProvider: true },
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    semanticTokensProvider: { legend, full: true },
    inlayHintProvider: true,
    documentLinkProvider: {},
    callHierarchyProvider: true,
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: { willRename: renames },
    },
    ...(isPulled && { diagnosticProvider: { interFileDependencies: true, workspaceDiagnostics: true } }),
  };
}
