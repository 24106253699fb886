/** The requests of our own extension for whoever reviews: comparisons, the report, and what is released. */
import { CodeLensRefreshRequest, type InitializeParams } from 'vscode-languageserver';
import type { InParts } from '../../../shared/parts.ts';
import {
  type Compared,
  type CompareParams,
  methods,
  type ReleasesParams,
  type ReportParams,
} from '../../../shared/protocol.ts';
import type { Release } from '../../../shared/release.ts';
import { LineTable } from '../../../shared/text.ts';
import type { PageContext } from '../../features/card-page.ts';
import { comparison, currentCards, olderCards, releasedCards, standing } from '../../features/review.ts';
import { readRelease } from '../../release-record.ts';
import { type ReportedCard, reportedCard } from '../../report/data.ts';
import { reportPage } from '../../report/page.ts';
import type { Findings } from '../findings.ts';
import type { Session } from '../session.ts';
import { contextOf } from './cards.ts';

export function handleReview(session: Session, findings: Findings, { capabilities }: InitializeParams): void {
  const { connection, names } = session;

  connection.onRequest<Compared, void>(methods.compare, async ({ uri, older }: CompareParams): Promise<Compared> => {
    await findings.settled();
    const snapshot = session.snapshot(uri);
    if (!snapshot) return { type: 'nothing', why: 'There is no such file.' };
    const context = contextOf(snapshot, session, findings);
    return session.inOneGo(snapshot, 'Comparing', () => {
      if (!older) {
        const released = releasedCards(context, session.releases);
        return released
          ? comparison(released, currentCards(context))
          : { type: 'nothing', why: 'No released card of this file is in the workspace.' };
      }
      const texts = new Map(Object.entries(older.texts).map(([at, text]) => [names.fileOfListed(at), text]));
      const old = olderCards({ file: names.fileOfListed(older.uri), texts, settings: context.settings });
      return 'needs' in old
        ? { type: 'needs', uris: old.needs.map((file) => names.uriOf(file)) }
        : comparison(old, currentCards(context));
    });
  });

  connection.onRequest(methods.report, async ({ script }: ReportParams, token): Promise<string> => {
    await session.ready;
    await findings.settled();
    const { workspace } = session;
    const all = await session.everywhere();
    const contexts = all.map((snapshot) => contextOf(snapshot, session, findings));
    const cards = await session.answer(reported(contexts, session.releases), token);
    const lines = (file: string) => new LineTable(workspace.textOf(file));
    return reportPage(
      cards.map((one) => ({ ...one, file: session.shortName(one.file), uses: one.uses.map(session.shortName) })),
      {
        placeWords: ({ file, start }) => `${session.shortName(file)}:${lines(file).positionAt(start).line + 1}`,
        script,
      },
    );
  });

  connection.onNotification(methods.releases, ({ records }: ReleasesParams) => {
    session.releases = records.flatMap((record) => readRelease(record) ?? []);
    if (capabilities.workspace?.codeLens?.refreshSupport) void connection.sendRequest(CodeLensRefreshRequest.type);
  });
}

/** One card after the other. */
function* reported(contexts: readonly PageContext[], releases: readonly Release[]): InParts<ReportedCard[]> {
  const cards: ReportedCard[] = [];
  for (const context of contexts) {
    for (const card of context.snapshot.bound.cards) {
      yield* context.snapshot.proofInParts(card, context.settings);
      const released = standing(card, context, releases);
      cards.push({ ...reportedCard({ ...context, card }), ...(released !== undefined && { released }) });
      yield;
    }
  }
  return cards;
}
