/** What a reader is shown beside the text: hover, hints between the words, and lenses over the lines. */
import { type CodeLens, InlayHintKind } from 'vscode-languageserver';
import { hoverAt } from '../../features/hover/hover.ts';
import { inlayHints } from '../../features/inlay-hints.ts';
import { lenses } from '../../features/lenses.ts';
import type { Findings } from '../findings.ts';
import { toOffset, toPosition, toRange, toSpan } from '../positions.ts';
import type { Session } from '../session.ts';

export function handleReading(session: Session, findings: Findings): void {
  const { connection } = session;
  connection.onHover(async ({ textDocument, position }, token) => {
    const snapshot = await session.readAsked(textDocument.uri);
    if (!snapshot) return null;
    const offset = toOffset(snapshot.lines, position);
    const hover = await session.answer(hoverAt(snapshot, offset, session.settings(snapshot.file)), token);
    return (
      hover && { contents: { kind: 'markdown', value: hover.markdown }, range: toRange(snapshot.lines, hover.span) }
    );
  });
  connection.languages.inlayHint.on(async ({ textDocument, range }, token) => {
    const snapshot = await session.readAsked(textDocument.uri);
    if (!snapshot) return null;
    const hints = inlayHints(snapshot, toSpan(snapshot.lines, range), session.settings(snapshot.file));
    return (await session.answer(hints, token)).map(({ offset, text, help }) => ({
      position: toPosition(snapshot.lines, offset),
      label: text,
      kind: InlayHintKind.Parameter,
      tooltip: help,
      paddingLeft: true,
    }));
  });
  connection.onCodeLens(async ({ textDocument }, token) => {
    // A lens counts findings, so it waits for them; for a newer text the editor asks again.
    await findings.settled();
    const snapshot = session.snapshot(textDocument.uri);
    if (!snapshot || token.isCancellationRequested) return null;
    const context = {
      findings: findings.of(snapshot.file).findings,
      everywhere: await session.everywhere(),
      settings: session.settings(snapshot.file),
      workspace: session.workspace,
      releases: session.releases,
    };
    return (await session.answer(lenses(snapshot, context), token)).map(
      ({ span, title, command, card }): CodeLens => ({
        range: toRange(snapshot.lines, span),
        command: {
          title,
          command: session.options.commands && command ? `cardwright.${command}` : '',
          arguments: [
            textDocument.uri,
            ...(command === 'compare' ? ['release'] : []),
            ...(card === undefined ? [] : [card]),
          ],
        },
      }),
    );
  });
}
