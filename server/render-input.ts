/** Gathers what the renderer is told of one card: from its proof, its findings and the provider of figures. */
import type { Card, Item } from '../shared/card.ts';
import type { Finding } from '../shared/finding.ts';
import { withoutHidden } from '../shared/hidden.ts';
import type { Settings } from '../shared/settings.ts';
import { holds, type Place } from '../shared/text.ts';
import { type Acceptance, type Accepted, acceptancesIn } from './acceptance.ts';
import { resolveUse } from './binding/files.ts';
import { acceptsIn, statementsIn } from './findings/support/card.ts';
import { figureOf } from './findings/support/figures.ts';
import { loweredChecks } from './levels.ts';
import type { Proof, Reliance } from './proof/facts.ts';
import type {
  AcceptedDeviation,
  FigureFile,
  ItemAtEnd,
  ItemAtStop,
  RenderInput,
  StartingFact,
} from './render/input.ts';
import { isFor, onlyOf, type Part, partsInside } from './render/numbering.ts';
import type { Snapshot } from './snapshot.ts';
import type { Workspace } from './workspace.ts';

export interface RenderOptions {
  readonly configuration?: ReadonlyMap<string, string>;
  /** All machines that read the same as the configuration. */
  readonly machines?: string;
  /** The script of the work copy. */
  readonly workCopy?: string;
  /** What is otherwise than in an older revision. */
  readonly since?: RenderInput['since'];
  /** It is a release, made from these. */
  readonly release?: RenderInput['release'];
  /** Writes the place of each block, for a preview. */
  readonly withPositions?: boolean;
}

export interface CardContext {
  readonly workspace: Workspace;
  readonly snapshot: Snapshot;
  readonly card: Card;
  /** All findings of the file and of those that it uses. */
  readonly findings: readonly Finding[];
  /** The same for what is accepted. */
  readonly accepted: readonly Accepted[];
  readonly settings: Settings;
}

/** What the file of a card is called, without its ending. */
export function fileStemOf({ name }: Card): string {
  return withoutHidden(name) || 'card';
}

export function renderInput(context: CardContext, options: RenderOptions): RenderInput {
  const { card, settings, workspace } = context;
  const proof = proofOf(context);
  const accepted = acceptedIn(card, workspace);
  return {
    card,
    findings: ofCard(context, context.findings, ({ place }) => place),
    lowered: loweredChecks(settings),
    accepted: accepted.flatMap((acceptance) => deviationsOf(acceptance, context)),
    beforeYouStart: proof ? startingFacts(proof) : [],
    ...(proof && { times: { ...proof.time, perRole: timesPerRole(proof) } }),
    atEnd: proof ? atEnd(card, proof, accepted, options.configuration) : [],
    ...(proof && { atStops: atStops(card, proof, options.configuration) }),
    ...(proof && options.workCopy !== undefined && { reliedOn: proof.checksReliedOn }),
    figures: figuresOf(card, workspace),
    settings: withRecordOf(context),
    withPositions: options.withPositions ?? false,
    ...(options.since && { since: options.since }),
    ...(options.release && { release: options.release }),
    ...(options.configuration && { configuration: options.configuration }),
    ...(options.machines && { machines: options.machines }),
    ...(options.workCopy !== undefined && { workCopy: options.workCopy }),
  };
}

/** What “std:record” asks of a record counts where the settings name no other one. */
function withRecordOf({ snapshot, settings }: CardContext): Settings {
  const isAsked = settings.record === 'neutral' && snapshot.bound.files.includes('std:record');
  return isAsked ? { ...settings, record: '14 CFR 43.9' } : settings;
}

/** A card that cannot be proved has an `internal` finding that says so, and is printed without what the proof would say. */
function proofOf({ snapshot, card, settings }: CardContext): Proof | undefined {
  try {
    return snapshot.proof(card, settings);
  } catch {
    return undefined;
  }
}

/** What is found in this card, or in what it uses; not what stands in other cards of its file. */
function ofCard<Kind>({ card, snapshot }: CardContext, all: readonly Kind[], placeOf: (one: Kind) => Place): Kind[] {
  const others = snapshot.bound.cards.filter((other) => other !== card);
  return all.filter((one) => !others.some(({ extent }) => holds(extent, placeOf(one))));
}

/** What one acceptance lets stand; where that is nothing, its code still is something that the writer said. */
function deviationsOf({ code, because, by, place }: Acceptance, context: CardContext): AcceptedDeviation[] {
  const said = { code, because, ...(by !== undefined && { by }) };
  const accepted = ofCard(context, context.accepted, ({ finding }) => finding.place).filter(
    ({ acceptance }) => acceptance.place.file === place.file && acceptance.place.start === place.start,
  );
  if (accepted.length === 0) return [{ ...said, where: place, acceptance: place }];
  return accepted.map(({ finding }) => ({
    ...said,
    finding: finding.message,
    where: finding.place,
    acceptance: place,
  }));
}

function acceptedIn(card: Card, workspace: Workspace): Acceptance[] {
  const places = acceptsIn(card).map((accept) => accept.place);
  const files = [...new Set(places.map((place) => place.file))];
  const acceptances = files.flatMap((file) => {
    const parsed = workspace.snapshot(file)?.parsed;
    return parsed ? acceptancesIn(file, parsed) : [];
  });
  return acceptances.filter(({ place }) => places.some((one) => one.file === place.file && one.start === place.start));
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

/** What the steps for this machine set, and what may be left out of its normal state: put back, or changed and why. */
function atEnd(
  card: Card,
  { atFinish, leftChanged }: Proof,
  accepted: readonly Acceptance[],
  configuration: RenderOptions['configuration'],
): ItemAtEnd[] {
  const set = new Set(card.body.flatMap((part) => itemsSetIn(part, configuration)));
  return atFinish.flatMap(({ item, states }): ItemAtEnd[] => {
    const left = leftChanged.filter((fact) => fact.item === item);
    if (!set.has(item) && left.length === 0) return [];
    const deviation = accepted.find(
      ({ code, extent }) => code === 'safety.left-changed' && left.some(({ place }) => holds(extent, place)),
    );
    const because = (card.leaves.find((one) => one.item === item) ?? deviation)?.because;
    const putBack = states.length === 1 && states[0] === item.normally;
    // Whoever finds it in any state at all has nothing to look for.
    if (states.length === item.kind.states.length && because === undefined) return [];
    return [{ item, states, putBack, ...(!putBack && because !== undefined && { because }) }];
  });
}

/** Of what the steps for this machine set: what may be left out of its normal state where the card stops. */
function atStops(card: Card, proof: Proof, configuration: RenderOptions['configuration']): ItemAtStop[] {
  const set = new Set(card.body.flatMap((part) => itemsSetIn(part, configuration)));
  return proof.atStops.flatMap(({ item, states }): ItemAtStop[] => {
    const altered = states.filter((state) => state !== item.normally);
    return item.normally === undefined || !set.has(item) || altered.length === 0 ? [] : [{ item, states: altered }];
  });
}

/** What is set only after a stop is no part of how a card that finishes leaves the machine. */
function itemsSetIn(part: Part, configuration: RenderOptions['configuration']): readonly Item[] {
  if (!isFor(onlyOf(part), configuration) || (part.type === 'stage' && part.whenStopped)) return [];
  const actions = part.type === 'step' ? part.actions : [];
  const own = actions.flatMap((action) => (action.type === 'set' || action.type === 'ensure' ? action.changes : []));
  return [...own.map(({ item }) => item), ...partsInside(part).flatMap((inner) => itemsSetIn(inner, configuration))];
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
