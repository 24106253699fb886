/** Holds what the engine says of a card against what the oracle has seen on its runs. */
import type { Card, Stage, Statement } from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import { bodiesOf } from './conditions.ts';
import { type Node, nodesOf } from './nodes.ts';
import { comingTo, NOT_ASSUMED, placeOfKey, type Sightings, type Verdict } from './verdicts.ts';

/** What the engine says of a card, in the terms of the oracle. */
export interface EngineSays {
  readonly broken: readonly { readonly code: string; readonly place: Place; readonly subject: string }[];
  /** The first of each row of steps that no path reaches. */
  readonly unreachable: readonly Place[];
  /** Changes that find everything so already on every path. */
  readonly idle: readonly Place[];
  /** What each asked condition can do. */
  readonly asked: readonly { readonly place: Place; readonly passes: boolean; readonly fails: boolean }[];
}

export interface Difference {
  /** Seen on a run and not said by the engine; or said and seen on none. */
  readonly sort: 'missed' | 'false alarm';
  readonly code: string;
  readonly place: Place;
  readonly subject: string;
}

export function differences(card: Card, seen: Sightings, engine: EngineSays): readonly Difference[] {
  const nodes = nodesOf(card);
  const broken = brokenDifferences(nodes, seen, engine);
  // The engine goes on with what is assumed, as if it were so; no run does.
  if (seen.verdicts().some(({ code }) => code === NOT_ASSUMED))
    return broken.filter(({ code, sort }) => code === NOT_ASSUMED && sort === 'missed');
  return [
    ...broken,
    ...reachDifferences(card, seen, engine),
    ...idleDifferences(nodes, seen, engine),
    ...askedDifferences(nodes, seen, engine),
  ];
}

function brokenDifferences(nodes: readonly Node[], seen: Sightings, engine: EngineSays): readonly Difference[] {
  const fromRuns = comparable(nodes, seen.verdicts());
  const fromEngine = comparable(
    nodes,
    engine.broken.map(({ code, place, subject }) => ({
      code,
      subject,
      place: `${place.file}:${place.start}-${place.end}`,
    })),
  );
  const mayBeTold = comparable(nodes, seen.verdictsThatMayBeTold());
  const putOff = comparable(nodes, seen.verdictsPutOff());
  const toldBefore = new Set([...fromEngine].flatMap(([key, verdict]) => (mayBeTold.has(key) ? [about(verdict)] : [])));
  return [
    ...missing(fromRuns, fromEngine, 'missed'),
    ...missing(putOff, fromEngine, 'missed').filter((verdict) => !toldBefore.has(about(verdict))),
    ...missing(fromEngine, new Map([...fromRuns, ...mayBeTold, ...putOff]), 'false alarm'),
    ...unsaid(mayBeTold, fromEngine, seen),
  ];
}

/**
 * Verdicts as they are compared: at the innermost action or statement. A run that nothing ends needs no word on being too long, and of the stops that
 * leave one hazard active the engine tells the first alone. The engine tells each change of an action, the oracle the action: late where one of them is.
 */
function comparable(nodes: readonly Node[], verdicts: readonly Verdict[]): ReadonlyMap<string, Verdict> {
  const placed = verdicts.map((verdict) => ({ ...verdict, place: innermost(nodes, verdict.place) }));
  const keyed = new Map(placed.map((verdict) => [comparedKey(verdict), verdict]));
  for (const [key, verdict] of keyed) {
    if (keyed.has(asEndless(verdict)) || keyed.has(asLate(verdict))) keyed.delete(key);
  }
  return keyed;
}

function comparedKey({ code, place, subject }: Verdict): string {
  return code === 'safety.unsafe-stop' ? `${code} ${subject}` : `${code} ${place} ${subject}`;
}

/** The key under which a run that is too long is told as one that nothing ends. */
function asEndless(verdict: Verdict): string {
  return verdict.code === 'duty.too-long' ? comparedKey({ ...verdict, code: 'duty.unbounded' }) : '';
}

/** The key under which a missing admonition is told as one that comes late. */
function asLate(verdict: Verdict): string {
  return verdict.code === 'safety.warning-missing' ? comparedKey({ ...verdict, code: 'safety.warning-late' }) : '';
}

function missing(
  from: ReadonlyMap<string, Verdict>,
  other: ReadonlyMap<string, Verdict>,
  sort: Difference['sort'],
): readonly Difference[] {
  return [...from]
    .filter(([key, verdict]) => !other.has(key) && !other.has(asEndless(verdict)))
    .map(([, { code, place, subject }]) => ({ sort, code, place: placeOfKey(place), subject }));
}

function about({ code, subject }: Pick<Verdict, 'code' | 'subject'>): string {
  return `${code.replace(/-(late|missing)$/, '')} ${subject}`;
}

/**
 * Where there were too many paths to say where it must be told: what only comes about by itself must be told somewhere, unless it was so from the start
 * and no action came that could be blamed.
 */
function unsaid(
  mayBeTold: ReadonlyMap<string, Verdict>,
  said: ReadonlyMap<string, Verdict>,
  { lenient, sinceStart }: Sightings,
): readonly Difference[] {
  const known = new Set([...said.values()].map(about));
  return [...mayBeTold.values()]
    .filter((verdict) => lenient.has(about(verdict)) && !known.has(about(verdict)) && !sinceStart.has(about(verdict)))
    .map(({ code, place, subject }) => ({ sort: 'missed' as const, code, place: placeOfKey(place), subject }));
}

function innermost(nodes: readonly Node[], key: string): string {
  const place = placeOfKey(key);
  const around = nodes.filter(
    (node) => node.place.file === place.file && node.place.start <= place.start && place.end <= node.place.end,
  );
  const smallest = around.reduce<Place | undefined>(
    (best, { place: each }) => (best === undefined || each.end - each.start < best.end - best.start ? each : best),
    undefined,
  );
  return smallest ? keyOf(smallest) : key;
}

function keyOf(place: Place): string {
  return `${place.file}:${place.start}-${place.end}`;
}

/**
 * The first of each row of steps that no run enters must be said, and nothing else. Of what the card does it is said there, or at the step itself if
 * that stands behind what ends the procedure for all who do it.
 */
function reachDifferences(card: Card, seen: Sightings, engine: EngineSays): readonly Difference[] {
  // A mend of what no check misses is no slip.
  const comings = new Map(
    card.body
      .flatMap((part) => comingsIn(part, undefined, false))
      .filter(([key, , isMend]) => !isMend || seen.entered.has(key))
      .map(([key, places]) => [key, places]),
  );
  const entered = [...comings.keys()].map((key) => seen.entered.has(key));
  const firsts = [...comings.values()].filter((_, index) => !entered[index] && (index === 0 || entered[index - 1]));
  const said = new Set(engine.unreachable.map(keyOf));
  const saidOf = (places: readonly Place[]) => places.some((place) => said.has(keyOf(place)));
  const allowed = new Set(firsts.flat().map(keyOf));
  return [
    ...[...said].filter((place) => !allowed.has(place)).map((place) => unreachable('false alarm', place)),
    ...firsts.filter((places) => !saidOf(places)).map(([place]) => unreachable('missed', keyOf(place as Place))),
  ];
}

/** Each step of a part of the card with the places at which it may be said that nobody comes to it. */
function comingsIn(
  part: Stage | Statement,
  doing: Place | undefined,
  isMend: boolean,
): [string, readonly Place[], boolean][] {
  if (part.type === 'step')
    return [[comingTo(keyOf(part.place), doing), doing ? [doing, part.head] : [part.head], isMend]];
  const inside = part.type === 'do' ? (doing ?? part.place) : doing;
  return bodiesOf(part)
    .flat()
    .flatMap((inner) => comingsIn(inner, inside, isMend || part.type === 'mend'));
}

function unreachable(sort: Difference['sort'], step: string): Difference {
  return { sort, code: 'flow.unreachable', place: placeOfKey(step), subject: '' };
}

/** Held action by action: in each some change finds everything so already on every path, or none does. */
function idleDifferences(nodes: readonly Node[], seen: Sightings, engine: EngineSays): readonly Difference[] {
  const sets = new Set(nodes.filter((node) => node.type === 'set').map((node) => keyOf(node.place)));
  const onEveryRun = [...seen.idle]
    .filter((change) => !seen.changing.has(change))
    .map((change) => innermost(nodes, change));
  const always = new Set(onEveryRun.filter((action) => sets.has(action)));
  const said = new Set(engine.idle.map((place) => innermost(nodes, keyOf(place))));
  const difference = (sort: Difference['sort'], place: string): Difference => ({
    sort,
    code: 'state.no-change',
    place: placeOfKey(place),
    subject: '',
  });
  return [
    ...[...always].filter((place) => !said.has(place)).map((place) => difference('missed', place)),
    ...[...said].filter((place) => !always.has(place)).map((place) => difference('false alarm', place)),
  ];
}

function askedDifferences(nodes: readonly Node[], seen: Sightings, engine: EngineSays): readonly Difference[] {
  const said = new Map<string, { passes: boolean; fails: boolean }>();
  for (const { place, passes, fails } of engine.asked) {
    const key = innermost(nodes, keyOf(place));
    const before = said.get(key) ?? { passes: false, fails: false };
    said.set(key, { passes: before.passes || passes, fails: before.fails || fails });
  }
  return [...said].flatMap(([key, { passes, fails }]) => [
    ...askedDifference(key, 'passes', passes, seen.passed.has(key)),
    ...askedDifference(key, 'fails', fails, seen.failed.has(key)),
  ]);
}

function askedDifference(key: string, way: string, said: boolean, seen: boolean): readonly Difference[] {
  return said === seen
    ? []
    : [{ sort: seen ? 'missed' : 'false alarm', code: `a way that ${way}`, place: placeOfKey(key), subject: '' }];
}

/** A report for a person: the differences, and the card with its lines numbered. */
export function describeDifferences(text: string, found: readonly Difference[]): string {
  const lineOf = (offset: number) => text.slice(0, offset).split('\n').length;
  const lines = text.split('\n').map((line, index) => `${String(index + 1).padStart(3)}  ${line}`);
  const sentences = found.map(
    ({ sort, code, place, subject }) =>
      `${sort}: ${code} ${subject} in line ${lineOf(place.start)}: ${text.slice(place.start, place.end).split('\n')[0]}`,
  );
  return [...sentences, '', ...lines].join('\n');
}
