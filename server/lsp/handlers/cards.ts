/** The requests of our own extension: preview, situation, export, steps from a list, help. */
import {
  type Counts,
  type CountsParams,
  type ExplainParams,
  type Explanation,
  type Exported,
  type ExportParams,
  methods,
  type PlaceInFile,
  type Preview,
  type PreviewParams,
  type RulebookParams,
  type Situation,
  type SituationParams,
  type Steps,
  type StepsParams,
} from '../../../shared/protocol.ts';
import type { Place } from '../../../shared/text.ts';
import { exportCard, type PageContext, preview } from '../../features/card-page.ts';
import { countsOf } from '../../features/counts.ts';
import { crewAt, rolesAbove, stepsFromList } from '../../features/list-to-steps.ts';
import { situationAt } from '../../features/situation/situation.ts';
import { findSort } from '../../findings/all.ts';
import { helpMarkdown } from '../../findings/support/help.ts';
import { languagePage } from '../../language-page/language-page.ts';
import { rulebookPage } from '../../rulebooks/page.ts';
import type { Snapshot } from '../../snapshot.ts';
import type { Findings } from '../findings.ts';
import type { Session } from '../session.ts';

export function handleCards(session: Session, findings: Findings): void {
  const { connection } = session;
  const placeOf = ({ file, start, end }: Place): PlaceInFile => ({ uri: session.names.uriOf(file), start, end });

  connection.onRequest(methods.preview, async (params: PreviewParams, token): Promise<Preview | null> => {
    // It takes longer than the findings of a letter that is typed meanwhile.
    const untilSettled = () => findings.settled();
    await untilSettled();
    const snapshot = session.snapshot(params.uri);
    if (!snapshot) return null;
    const version = session.openVersion(snapshot.file) ?? 0;
    const page = await session.answer(preview(contextOf(snapshot, session, findings), params), token, untilSettled);
    const { coverage } = page;
    return {
      ...page,
      coverage: coverage && {
        words: coverage.words,
        notFollowed: coverage.notFollowed.map((step) => ({ ...step, place: placeOf(step.place) })),
      },
      version,
      files: Object.fromEntries(snapshot.bound.files.map((file) => [file, session.names.uriOf(file)])),
      findings: page.findings.map(({ code, level, message, source, place, path }) => ({
        code,
        level,
        message,
        ...(source !== undefined && { source }),
        place: placeOf(place),
        path: path.map((step) => ({ ...placeOf(step.place), text: step.text })),
      })),
    };
  });

  connection.onRequest(
    methods.situation,
    async ({ uri, offset }: SituationParams, token): Promise<Situation | null> => {
      const snapshot = await session.read(uri);
      if (!snapshot) return null;
      const situation = await session.answer(situationAt(snapshot, offset, session.settings(snapshot.file)), token);
      return situation ? { ...situation, place: placeOf(situation.place) } : null;
    },
  );

  connection.onRequest<Exported, void>(
    methods.export,
    async ({ uri, card, offset, draft, workCopy }: ExportParams, token): Promise<Exported> => {
      await findings.settled();
      const snapshot = session.snapshot(uri);
      if (!snapshot) return { type: 'no-card' };
      const context = { ...contextOf(snapshot, session, findings), workCopy };
      return session.answer(exportCard(context, { card, offset, draft }), token);
    },
  );

  connection.onRequest(methods.steps, async ({ uri, list, offset }: StepsParams): Promise<Steps> => {
    const snapshot = await session.read(uri);
    return {
      text: snapshot
        ? stepsFromList(list, rolesAbove(snapshot, offset), crewAt(snapshot, offset))
        : stepsFromList(list),
    };
  });

  connection.onRequest(methods.counts, async ({ uri }: CountsParams): Promise<Counts | null> => {
    await findings.settled();
    const snapshot = session.snapshot(uri);
    return snapshot ? countsOf(snapshot, findings.of(snapshot.file).findings) : null;
  });

  connection.onRequest(methods.explain, ({ code }: ExplainParams): Explanation => {
    const sort = findSort(code);
    const page = code === 'language' ? languagePage() : rulebookPage(code);
    return { markdown: sort ? helpMarkdown(sort) : (page ?? `There is no finding \`${code}\`.`) };
  });

  connection.onRequest(methods.rulebook, ({ uri }: RulebookParams): string =>
    session.workspace.textOf(session.names.fileOf(uri)),
  );
}

export function contextOf(snapshot: Snapshot, session: Session, findings: Findings): PageContext {
  const reports = [snapshot.file, ...snapshot.uses].map((file) => findings.of(file));
  return {
    workspace: session.workspace,
    snapshot,
    findings: reports.flatMap((report) => report.findings),
    accepted: reports.flatMap(({ accepted }) => accepted),
    settings: session.settings(snapshot.file),
  };
}
