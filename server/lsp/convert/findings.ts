/** Findings as the protocol's diagnostics and code actions. */
import {
  type CodeAction,
  CodeActionKind,
  type Diagnostic,
  DiagnosticSeverity,
  DiagnosticTag,
  type Location,
  type Range,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { type Finding, pageOf, type TextEdit } from '../../../shared/finding.ts';
import type { LineTable, Place } from '../../../shared/text.ts';
import { toRange } from '../positions.ts';
import type { Session } from '../session.ts';

export const source = 'Cardwright';

export function toLocation(place: Place, session: Session): Location {
  return { uri: session.names.uriOf(place.file), range: toRange(session.linesOf(place.file), place) };
}

export function toDiagnostic(finding: Finding, session: Session): Diagnostic {
  const lines = session.linesOf(finding.place.file);
  const related = finding.path.map(({ place, text }) => ({ location: toLocation(place, session), message: text }));
  return {
    range: onItsFirstLine(toRange(lines, finding.place), lines),
    severity: severityOf(finding),
    code: finding.code,
    source,
    message: finding.source ? `${finding.message}\n${finding.source}` : finding.message,
    ...(related.length > 0 && { relatedInformation: related }),
    ...(finding.unnecessary && { tags: [DiagnosticTag.Unnecessary] }),
    // What an editor asks for when the writer wants it explained; the code alone does not say which rule.
    ...(finding.rulebook !== undefined && { data: pageOf(finding) }),
  };
}

/** A wavy line under a whole block says less than one under its head. */
function onItsFirstLine({ start, end }: Range, lines: LineTable): Range {
  if (end.line === start.line) return { start, end };
  return { start, end: { line: start.line, character: lines.lineText(start.line).length } };
}

/** A hint is shown in the list of problems too, unless it only fades what does nothing. */
function severityOf({ level, unnecessary }: Finding): DiagnosticSeverity {
  if (level === 'error') return DiagnosticSeverity.Error;
  if (level === 'warning') return DiagnosticSeverity.Warning;
  return unnecessary ? DiagnosticSeverity.Hint : DiagnosticSeverity.Information;
}

export function toCodeActions(finding: Finding, session: Session): CodeAction[] {
  const diagnostics = [toDiagnostic(finding, session)];
  return finding.fixes.map((fix, index) => ({
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics,
    isPreferred: index === 0,
    edit: toWorkspaceEdit(fix.edits, session),
  }));
}

export function toWorkspaceEdit(edits: readonly TextEdit[], session: Session): WorkspaceEdit {
  const files = [...new Set(edits.map(({ place }) => place.file))];
  return {
    documentChanges: files.map((file) => ({
      textDocument: { uri: session.names.uriOf(file), version: session.openVersion(file) },
      edits: edits
        .filter(({ place }) => place.file === file)
        .map(({ place, newText }) => ({ range: toRange(session.linesOf(file), place), newText })),
    })),
  };
}
