/** Help while writing: completion, what a `do` must be given, fixes, formatting. */
import {
  type CancellationToken,
  type CodeAction,
  CodeActionKind,
  type CodeActionParams,
  type CompletionItem,
  CompletionItemKind,
  InsertTextFormat,
  type Range,
} from 'vscode-languageserver';
import { type FormatEdit, formatEdits } from '../../../grammar/format.ts';
import { type Finding, pageOf } from '../../../shared/finding.ts';
import { hiddenShown } from '../../../shared/hidden.ts';
import { acceptFix } from '../../features/accept.ts';
import { type Candidate, type CandidateSort, complete } from '../../features/completion/complete.ts';
import { fixAll } from '../../features/fix-all.ts';
import { formatTyped } from '../../features/format-typed.ts';
import { refactorings } from '../../features/refactor/all.ts';
import { signatureAt } from '../../features/signature.ts';
import type { Snapshot } from '../../snapshot.ts';
import { soundFixes } from '../../sound-fixes.ts';
import { toCodeActions, toDiagnostic, toWorkspaceEdit } from '../convert/findings.ts';
import type { Findings } from '../findings.ts';
import { toOffset, toRange, toSpan } from '../positions.ts';
import type { Session } from '../session.ts';

export const fixAllKind = `${CodeActionKind.SourceFixAll}.cardwright`;

export function handleWriting(session: Session, findings: Findings): void {
  const { connection } = session;
  handleFormatting(session);
  connection.onCompletion(async ({ textDocument, position, context }, token) => {
    const snapshot = await session.readAsked(textDocument.uri);
    if (!snapshot || endsText(snapshot, toOffset(snapshot.lines, position), context?.triggerCharacter)) return null;
    const around = {
      settings: session.settings(snapshot.file),
      files: session.files,
      codesHere: findings.of(snapshot.file).findings.map(({ code }) => code),
    };
    const completion = complete(snapshot, toOffset(snapshot.lines, position), around);
    const { span, candidates } = await session.answer(completion, token);
    const range = toRange(snapshot.lines, span);
    // Asked again at each letter, so that the list is gone as soon as a word is complete.
    const items = isComplete(snapshot.text.slice(span.start, span.end), candidates) ? [] : candidates;
    return {
      isIncomplete: true,
      items: items.map((candidate) => toCompletionItem(candidate, range, session.options.commands)),
    };
  });
  connection.onSignatureHelp(async ({ textDocument, position }) => {
    const snapshot = await session.readAsked(textDocument.uri);
    const signature =
      snapshot && signatureAt(snapshot, toOffset(snapshot.lines, position), proceduresInReach(snapshot, session));
    if (!signature) return null;
    const parameters = signature.parameters.map(({ name, kind }) => ({ label: `${name}: ${kind}` }));
    const label = `${signature.name}(${parameters.map((parameter) => parameter.label).join(', ')})`;
    return {
      signatures: [{ label, documentation: hiddenShown(signature.title), parameters }],
      activeSignature: 0,
      activeParameter: signature.active,
    };
  });
  connection.onCodeAction((params, token) =>
    session.ofThisVersion(params.textDocument.uri, () => codeActions(params, session, findings, token)),
  );
}

async function codeActions(
  { textDocument, range, context }: CodeActionParams,
  session: Session,
  findings: Findings,
  token: CancellationToken,
): Promise<CodeAction[] | null> {
  await findings.settled();
  const snapshot = session.snapshot(textDocument.uri);
  if (!snapshot) return null;
  const wants = (kind: string) =>
    !context.only || context.only.some((only) => kind === only || kind.startsWith(`${only}.`));
  return [
    ...(wants(CodeActionKind.QuickFix) ? await quickFixes(snapshot, range, session, findings, token) : []),
    ...refactorActions(snapshot, range, session).filter(({ kind }) => kind && wants(kind)),
    ...(wants(fixAllKind) ? await fixAllAction(snapshot, session, findings, token) : []),
  ];
}

/** The word stands there as it is, and is not the beginning of another. */
function isComplete(typed: string, candidates: readonly Candidate[]): boolean {
  const begun = candidates.filter(({ label }) => typed !== '' && label.startsWith(typed));
  return begun.length > 0 && begun.every(({ label }) => label === typed);
}

/** A quotation mark asks what may stand where it begins a text; where it ends one, nobody wants to choose. */
function endsText({ text }: Snapshot, offset: number, typed: string | undefined): boolean {
  return typed === '"' && !/\buse\s+"$/.test(text.slice(Math.max(0, offset - 40), offset));
}

function handleFormatting(session: Session): void {
  const { connection } = session;
  const formatted = async (uri: string, edits: (snapshot: Snapshot) => readonly FormatEdit[]) => {
    const snapshot = session.snapshot(uri);
    if (!snapshot) return undefined;
    const inSnapshot = await session.ofThisVersion(uri, () =>
      session.inOneGo(snapshot, 'Laying the text out', () => edits(snapshot)),
    );
    return inSnapshot.map(({ start, end, newText }) => ({ range: toRange(snapshot.lines, { start, end }), newText }));
  };
  connection.onDocumentFormatting(({ textDocument }) => formatted(textDocument.uri, ({ text }) => formatEdits(text)));
  connection.onDocumentRangeFormatting(({ textDocument, range }) =>
    formatted(textDocument.uri, ({ text, lines }) => formatEdits(text, toSpan(lines, range))),
  );
  connection.onDocumentOnTypeFormatting(({ textDocument, position, ch }) =>
    formatted(textDocument.uri, (snapshot) => formatTyped(snapshot, toOffset(snapshot.lines, position), ch)),
  );
}

/**
 * The mends of all findings here, then what explains them, then what accepts them. Only fixes that do what they promise are offered:
 * whoever applies one must not have to take it back.
 */
async function quickFixes(
  snapshot: Snapshot,
  range: Range,
  session: Session,
  findings: Findings,
  token: CancellationToken,
): Promise<CodeAction[]> {
  const span = toSpan(snapshot.lines, range);
  const here = findings
    .of(snapshot.file)
    .findings.filter(({ place }) => place.start <= span.end && span.start <= place.end);
  const pages = [...new Set(here.map(pageOf))];
  const fixes: CodeAction[] = [];
  for (const finding of here) {
    const sound = await session.answer(soundIn(session)(finding), token);
    fixes.push(...toCodeActions({ ...finding, fixes: sound }, session));
  }
  return [
    ...fixes,
    ...(session.options.commands ? pages.map((page) => explainAction(page, here, session)) : []),
    ...acceptActions(here, snapshot, session),
  ];
}

const soundIn = (session: Session) => (finding: Finding) =>
  soundFixes(finding, session.workspace, (file) => session.settings(file));

/** An editor lists first what names its findings. */
function explainAction(page: string, here: readonly Finding[], session: Session): CodeAction {
  return {
    title: `Explain ${page}`,
    kind: CodeActionKind.QuickFix,
    diagnostics: here.filter((finding) => pageOf(finding) === page).map((finding) => toDiagnostic(finding, session)),
    command: { title: 'Explain', command: 'cardwright.explain', arguments: [page] },
  };
}

/** Where an editor knows our commands, the writer goes on with the reason. */
function acceptActions(here: readonly Finding[], snapshot: Snapshot, session: Session): CodeAction[] {
  const byTitle = new Map<string, CodeAction>();
  for (const finding of here) {
    const fix = acceptFix(finding, snapshot);
    if (!fix || byTitle.has(fix.title)) continue;
    byTitle.set(fix.title, {
      title: fix.title,
      kind: CodeActionKind.QuickFix,
      diagnostics: [toDiagnostic(finding, session)],
      edit: toWorkspaceEdit(fix.edits, session),
      ...(session.options.commands && { command: { title: 'Write the reason', command: 'cardwright.writeReason' } }),
    });
  }
  return [...byTitle.values()];
}

const refactorKinds = {
  extract: CodeActionKind.RefactorExtract,
  inline: CodeActionKind.RefactorInline,
  rewrite: CodeActionKind.RefactorRewrite,
} as const;

function refactorActions(snapshot: Snapshot, range: Range, session: Session): CodeAction[] {
  const others = snapshot.uses.flatMap((file) => session.workspace.snapshot(file) ?? []);
  return refactorings({ snapshot, selection: toSpan(snapshot.lines, range), others }).map(({ title, kind, edits }) => ({
    title,
    kind: refactorKinds[kind],
    edit: toWorkspaceEdit(edits, session),
  }));
}

async function fixAllAction(
  { file }: Snapshot,
  session: Session,
  findings: Findings,
  token: CancellationToken,
): Promise<CodeAction[]> {
  const edits = await session.answer(fixAll(findings.of(file).findings, file, soundIn(session)), token);
  return edits.length === 0
    ? []
    : [{ title: 'Mend all slips of the pen', kind: fixAllKind, edit: toWorkspaceEdit(edits, session) }];
}

function proceduresInReach(snapshot: Snapshot, session: Session) {
  const reached = snapshot.bound.files.flatMap((file) => session.workspace.snapshot(file) ?? []);
  return [...new Set([snapshot, ...reached])].flatMap(({ bound }) => bound.procedures);
}

const itemKinds: Readonly<Record<CandidateSort, CompletionItemKind>> = {
  word: CompletionItemKind.Keyword,
  snippet: CompletionItemKind.Snippet,
  item: CompletionItemKind.Variable,
  state: CompletionItemKind.EnumMember,
  gauge: CompletionItemKind.Value,
  limit: CompletionItemKind.Constant,
  unit: CompletionItemKind.Unit,
  kind: CompletionItemKind.Enum,
  supply: CompletionItemKind.Interface,
  hazard: CompletionItemKind.Event,
  callable: CompletionItemKind.Function,
  role: CompletionItemKind.Class,
  label: CompletionItemKind.Reference,
  variant: CompletionItemKind.TypeParameter,
  code: CompletionItemKind.Constant,
  file: CompletionItemKind.File,
};

/** A snippet opens the list for its first place by itself, in an editor that has the command for it. */
function toCompletionItem(candidate: Candidate, range: Range, hasCommands: boolean | undefined): CompletionItem {
  const { sort, label, insert, isSnippet, detail, markdown, rank = 1 } = candidate;
  return {
    label: hiddenShown(label),
    kind: itemKinds[sort],
    ...(detail !== undefined && told(hiddenShown(detail))),
    ...(markdown !== undefined && { documentation: { kind: 'markdown', value: markdown } }),
    sortText: `${rank}${label}`,
    insertTextFormat: isSnippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    textEdit: { range, newText: insert },
    ...(isSnippet && hasCommands && { command: { title: 'Show what fits', command: 'editor.action.triggerSuggest' } }),
  };
}

function told(detail: string): Pick<CompletionItem, 'detail' | 'labelDetails'> {
  return { detail, labelDetails: { description: detail } };
}
