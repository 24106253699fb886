/** The card of a file as it is shown in the preview and as it is exported: the same rendering for both. */
import type { Card } from '../../shared/card.ts';
import type { Finding } from '../../shared/finding.ts';
import type { InParts } from '../../shared/parts.ts';
import type { CardTitle, Configuration, Exported, Preview } from '../../shared/protocol.ts';
import type { Settings } from '../../shared/settings.ts';
import type { Accepted } from '../acceptance.ts';
import { type Coverage, coverageOf, coverageWords } from '../coverage.ts';
import { configurations } from '../flow/configurations.ts';
import { languageOf } from '../render/document.ts';
import { renderBody, renderCard } from '../render/render.ts';
import { cardStyle } from '../render/style/card.ts';
import { screenStyle } from '../render/style/screen.ts';
import { fileStemOf, renderInput } from '../render-input.ts';
import type { Snapshot } from '../snapshot.ts';
import type { Workspace } from '../workspace.ts';
import { cardAt } from './steps.ts';

export interface PageContext {
  readonly workspace: Workspace;
  readonly snapshot: Snapshot;
  /** Of the file and of those that it uses. */
  readonly findings: readonly Finding[];
  readonly accepted: readonly Accepted[];
  readonly settings: Settings;
  /** The script of the work copy, which makes an exported card the job's companion on a tablet. */
  readonly workCopy?: string;
}

export interface PreviewPage extends Omit<Preview, 'version' | 'findings' | 'files' | 'coverage'> {
  readonly findings: readonly Finding[];
  readonly coverage?: { readonly words: string } & Pick<Coverage, 'notFollowed'>;
}

export function* preview(
  context: PageContext,
  wanted: { readonly card?: string; readonly configuration?: Configuration },
): InParts<PreviewPage> {
  const { snapshot, findings } = context;
  const cards = snapshot.bound.cards.map(titleOf);
  const card = chosen(snapshot.bound.cards, wanted.card);
  const style = cardStyle + screenStyle;
  if (!card) return { cards, configurations: [], body: nothingToShow, style, findings };
  const configuration = wanted.configuration && new Map(Object.entries(wanted.configuration));
  yield* workOut(card, context);
  const input = renderInput(
    { ...context, card },
    { withPositions: true, configuration, machines: machinesLike(card, wanted.configuration) },
  );
  yield;
  const body = yield* renderBody(input);
  return {
    cards,
    card: card.name,
    language: languageOf(card),
    configurations: machines(card),
    body,
    coverage: coverageShown(card),
    style,
    findings: input.findings,
  };
}

function coverageShown(card: Card): NonNullable<PreviewPage['coverage']> {
  const coverage = coverageOf(card);
  return { words: coverageWords([coverage]), notFollowed: coverage.notFollowed };
}

/** What the page tells of a proof. One that cannot be had is left out of the page. */
function* workOut(card: Card, { snapshot, settings }: PageContext): InParts<void> {
  try {
    const proof = yield* snapshot.proofInParts(card, settings);
    yield* proof.workOut();
  } catch {}
}

const nothingToShow =
  '<p>There is no card in this file: it describes equipment, rules or procedures for the cards that use it.</p>';

export function* exportCard(
  context: PageContext,
  wanted: { readonly card?: string; readonly offset?: number; readonly draft: boolean },
): InParts<Exported> {
  const { cards } = context.snapshot.bound;
  const card =
    (wanted.offset === undefined ? undefined : cardAt(context.snapshot, wanted.offset)) ??
    cards.find(({ name }) => name === wanted.card) ??
    (cards.length === 1 ? cards[0] : undefined);
  if (!card) return cards.length > 0 ? { type: 'several', cards: cards.map(titleOf) } : { type: 'no-card' };
  yield* workOut(card, context);
  const input = renderInput({ ...context, card }, { workCopy: context.workCopy });
  const errors = input.findings.filter(({ level }) => level === 'error').length;
  if (errors > 0 && !wanted.draft) return { type: 'refused', errors };
  return { type: 'card', fileName: `${fileStemOf(card)}.html`, html: renderCard(input) };
}

function titleOf({ name, title }: Card): CardTitle {
  return { name, title };
}

function chosen(cards: readonly Card[], name: string | undefined): Card | undefined {
  return cards.find((card) => card.name === name) ?? cards[0];
}

/** The sort of machine that a choice of the reader stands for. */
function machinesLike(card: Card, wanted: Configuration | undefined): string | undefined {
  const same = ({ values }: Preview['configurations'][number]) => JSON.stringify(values) === JSON.stringify(wanted);
  return machines(card).find(same)?.label;
}

function machines(card: Card): Preview['configurations'] {
  return configurations(card).map(({ machines: label, values }) => ({ label, values: Object.fromEntries(values) }));
}
