/** Findings for an editor that asks for them, a file or the whole workspace at a time. */
import {
  DocumentDiagnosticReportKind,
  type FullDocumentDiagnosticReport,
  type UnchangedDocumentDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { toDiagnostic } from '../convert/findings.ts';
import type { Findings } from '../findings.ts';
import type { Session } from '../session.ts';

export function handlePulls(session: Session, findings: Findings): void {
  const { diagnostics } = session.connection.languages;
  diagnostics.on(async ({ textDocument, previousResultId }) => {
    await findings.settled();
    return report(session.names.fileOf(textDocument.uri), previousResultId, session, findings);
  });
  diagnostics.onWorkspace(async ({ previousResultIds }) => {
    await findings.settled();
    const previous = new Map(previousResultIds.map(({ uri, value }) => [session.names.fileOf(uri), value]));
    const files = new Set([...session.files, ...findings.files, ...previous.keys()]);
    const items = [...files].map(
      (file): WorkspaceDocumentDiagnosticReport => ({
        ...report(file, previous.get(file), session, findings),
        uri: session.names.uriOf(file),
        version: session.openVersion(file),
      }),
    );
    return { items };
  });
}

function report(
  file: string,
  previous: string | undefined,
  session: Session,
  findings: Findings,
): FullDocumentDiagnosticReport | UnchangedDocumentDiagnosticReport {
  const { findings: found, number } = findings.of(file);
  const resultId = `${number}`;
  if (resultId === previous) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
  return {
    kind: DocumentDiagnosticReportKind.Full,
    resultId,
    items: found.map((finding) => toDiagnostic(finding, session)),
  };
}
