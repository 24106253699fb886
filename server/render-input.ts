/** Gathers what the renderer is told of one card: from its proof, its findings and the provider of figures. */
import type { AssumedState, Card, Item } from '../shared/card.ts';
import type { Finding } from '../shared/finding.ts';
import { withoutHidden } from '../shared/hidden.ts';
import type { Settings } from '../shared/settings.ts';
import { acceptancesIn } from './acceptance.ts';
import { resolveUse } from './binding/files.ts';
import { acceptsIn, actionsIn, statementsIn } from './findings/support/card.ts';
import { figureOf } from './findings/support/figures.ts';
import { loweredChecks } from './levels.ts';
import type { Proof, Reliance } from './proof/facts.ts';
import type { AcceptedDeviation, FigureFile, ItemInState, RenderInput, StartingFact } from './render/input.ts';
import type { Snapshot } from './snapshot.ts';
import type { Workspace } from './workspace.ts';

export interface RenderOptions {
  readonly configuration?: ReadonlyMap<string, string>;
  /** All machines that read the same as the configuration. */
  readonly machines?: string;
  /** The script of the work copy. */
  readonly workCopy?: string;
  /** Writes the place of each block, for a preview. */
  readonly withPositions?: boolean;
}

export interface CardContext {
  readonly workspace: Workspace;
  readonly snapshot: Snapshot;
  readonly card: Card;
  /** All findings of the file and of those that it uses. */
  readonly findings: readonly Finding[];
  readonly settings: Settings;
}

/** What the file of a card is called, without its ending. */
export function fileStemOf({ name }: Card): string {
  return withoutHidden(name) || 'card';
}

export function renderInput(context: CardContext, options: RenderOptions): RenderInput {
  const { card, settings, workspace } = context;
  const proof = proofOf(context);
  return {
    card,
    findings: findingsOfCard(context),
    lowered: loweredChecks(settings),
    accepted: acceptedIn(card, workspace),
    beforeYouStart: proof ? startingFacts(proof) : [],
    ...(proof && { times: { ...proof.time, perRole: timesPerRole(proof) } }),
    putBack: proof ? putBackBy(card, proof) : [],
    ...(proof && options.workCopy !== undefined && { reliedOn: proof.checksReliedOn }),
    figures: figuresOf(card, workspace),
    settings,
    withPositions: options.withPositions ?? false,
    ...(options.configuration && { configuration: options.configuration }),
    ...(options.machines && { machines: options.machines }),
    ...(options.workCopy !== undefined && { workCopy: options.workCopy }),
  };
}

/** A card that cannot be proved has an `internal` finding that says so, and is printed without what the proof would say. */
function proofOf({ snapshot, card, settings }: CardContext): Proof | undefined {
  try {
    return snapshot.proof(card, settings.stateBound);
  } catch {
    return undefined;
  }
}

/** What is found in this card, or in what it uses; not what stands in other cards of its file. */
function findingsOfCard({ card, snapshot, findings }: CardContext): Finding[] {
  const others = snapshot.bound.cards.filter((other) => other !== card);
  return findings.filter(
    ({ place }) =>
      !others.some(
        ({ extent }) => extent.file === place.file && extent.start <= place.start && place.end <= extent.end,
      ),
  );
}

function acceptedIn(card: Card, workspace: Workspace): AcceptedDeviation[] {
  const places = acceptsIn(card).map((accept) => accept.place);
  const files = [...new Set(places.map((place) => place.file))];
  const acceptances = files.flatMap((file) => {
    const parsed = workspace.snapshot(file)?.parsed;
    return parsed ? acceptancesIn(file, parsed) : [];
  });
  return acceptances
    .filter(({ place }) => places.some((one) => one.file === place.file && one.start === place.start))
    .map(({ code, because, place }) => ({ code, because, where: place }));
}

/** The states that the card relies on, an item at a time, and the rests that its duties assume. */
function startingFacts({ reliances, restReliances }: Proof): StartingFact[] {
  const perItem = new Map<Item, Reliance[]>();
  for (const reliance of reliances) perItem.set(reliance.item, [...(perItem.get(reliance.item) ?? []), reliance]);
  const states = [...perItem].map(([item, ofItem]): StartingFact => {
    const { because, from } = ofItem.find((reliance) => reliance.because) ?? {};
    const reason = because !== undefined && { because, ...(from && { from }) };
    return { type: 'state', item, states: ofItem.map(({ state }) => state), ...reason };
  });
  return [...states, ...restReliances.map(({ item, rest }): StartingFact => ({ type: 'rested', item, rest }))];
}

function timesPerRole({ timePerRole }: Proof) {
  return timePerRole.map(({ role, time }) => ({ role: role.label, ...time }));
}

/** The items that some action takes out of their normal state, and that are back in it at every finish. */
function putBackBy(card: Card, { leftChanged }: Proof): ItemInState[] {
  const left = new Set([...leftChanged.map(({ item }) => item), ...card.leaves.map(({ item }: AssumedState) => item)]);
  const changed = new Set<Item>();
  for (const action of actionsIn(card.body)) {
    if (action.type !== 'set' && action.type !== 'ensure') continue;
    for (const { item, state } of action.changes) if (state !== item.normally) changed.add(item);
  }
  return [...changed].flatMap((item) =>
    item.normally === undefined || left.has(item) ? [] : [{ item, state: item.normally }],
  );
}

function figuresOf(card: Card, { provider }: Workspace): ReadonlyMap<string, FigureFile> {
  const figures = [...statementsIn(card.body)].filter((statement) => statement.type === 'figure');
  return new Map(
    figures.flatMap(({ path, place }): [string, FigureFile][] => {
      const data = provider.readBytes?.(resolveUse(place.file, path));
      const { mime, isTooLarge } = data ? figureOf(path, data) : {};
      return data && mime && !isTooLarge ? [[path, { mime, data }]] : [];
    }),
  );
}
