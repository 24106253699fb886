/** What can be written at a place, best first. */
import { all, innermost, pathAt, titleAsName } from '../../../grammar/navigate.ts';
import { isFirstOnLine } from '../../../grammar/scan.ts';
import type { Card, Gauge, Hazard, Item, Kind } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { Settings } from '../../../shared/settings.ts';
import type { Span } from '../../../shared/text.ts';
import { counterpart, type Dimension, units } from '../../../shared/units.ts';
import type { Declared } from '../../binding/bind.ts';
import { wayBetween } from '../../binding/files.ts';
import { allFindings } from '../../findings/all.ts';
import { rulebooks } from '../../rulebooks/rulebooks.ts';
import type { Snapshot } from '../../snapshot.ts';
import { describe } from '../hover/describe.ts';
import { cardAt } from '../steps.ts';
import { completionContext, type Wanted } from './context.ts';
import { type Snippet, snippetsAfter, snippetsFor } from './snippets.ts';

export type CandidateSort =
  | 'word'
  | 'snippet'
  | 'item'
  | 'state'
  | 'gauge'
  | 'limit'
  | 'unit'
  | 'kind'
  | 'supply'
  | 'hazard'
  | 'callable'
  | 'role'
  | 'label'
  | 'variant'
  | 'code'
  | 'file';

export interface Candidate {
  readonly sort: CandidateSort;
  readonly label: string;
  readonly insert: string;
  readonly isSnippet?: boolean;
  /** Beside the label, on one line. */
  readonly detail?: string;
  readonly markdown?: string;
  /** Smaller comes first; 1 where nothing speaks for or against it. */
  readonly rank?: number;
}

export interface Completion {
  /** What the candidate replaces. */
  readonly span: Span;
  readonly candidates: readonly Candidate[];
}

/** What a candidate may be besides what the file itself says. */
export interface Around {
  readonly settings: Settings;
  /** The other files of the workspace. */
  readonly files: readonly string[];
  /** Codes of the findings in this file. */
  readonly codesHere: readonly string[];
}

export function* complete(snapshot: Snapshot, offset: number, around: Around): InParts<Completion> {
  const { wanted, procedure, typed } = completionContext(snapshot.text, offset);
  const card = cardAt(snapshot, offset);
  const asksHazards = wanted.some(({ type }) => type === 'hazard');
  const lacking = card && asksHazards ? yield* hazardsLacking(card, snapshot, around.settings) : [];
  const parameters = snapshot.bound.procedures.find(({ name }) => name === procedure)?.parameters ?? [];
  const isNewLine = isFirstOnLine(snapshot.text, typed.start);
  const scene: Scene = { snapshot, around, card, parameters, lacking, isNewLine };
  const candidates = wanted.flatMap((want) => candidatesFor(want, scene));
  const goingOn = snippetsAfter(snapshot.text.slice(0, typed.start)).filter(
    ({ label }) => label !== '"…"' || candidates.length === 0,
  );
  return { span: typed, candidates: [...candidates, ...goingOn.map((snippet) => snippetCandidate(snippet, 1))] };
}

interface Scene {
  readonly snapshot: Snapshot;
  readonly around: Around;
  readonly card: Card | undefined;
  /** Of the procedure that is being written. */
  readonly parameters: Snapshot['bound']['procedures'][number]['parameters'];
  /** Hazards that begin in the card with no admonition for them. */
  readonly lacking: readonly Hazard[];
  /** Nothing stands before it on its line. */
  readonly isNewLine: boolean;
}

function* hazardsLacking(card: Card, snapshot: Snapshot, settings: Settings): InParts<Hazard[]> {
  const proof = yield* snapshot.proofInParts(card, settings);
  return proof.hazards.map(({ hazard }) => hazard);
}

function candidatesFor(want: Wanted, scene: Scene): Candidate[] {
  const { equipment, references } = scene.snapshot.bound;
  switch (want.type) {
    case 'word':
      return wordCandidates(want, scene);
    case 'item':
      return [
        ...equipment.items.filter(({ kind }) => !(want.isSet && kind.seen)).map((item) => itemCandidate(item, scene)),
        ...scene.parameters.filter(({ kind }) => kind !== 'gauge').map(({ name }) => nameCandidate(name)),
      ];
    case 'round':
      return [nameCandidate(want.name)];
    case 'gauge':
      return [
        ...equipment.gauges.map((gauge) => gaugeCandidate(gauge, scene)),
        ...scene.parameters.filter(({ kind }) => kind === 'gauge').map(({ name }) => nameCandidate(name)),
      ];
    case 'supply':
      return equipment.supplies.map(({ name, label }) => ({
        sort: 'supply',
        label: name,
        insert: name,
        detail: label,
      }));
    case 'kind':
      return equipment.kinds.map((kind) => ({
        sort: 'kind',
        label: kind.name,
        insert: kind.name,
        detail: kind.states.map(({ name }) => name).join(', '),
      }));
    case 'state':
      return stateCandidates(want.of, scene);
    case 'limit':
      return limitCandidates(want.gauge, scene);
    case 'unit':
      return 'measures' in want ? unitsThatMeasure(want.measures) : unitCandidates(want.gauge, scene);
    case 'node':
      return equipment.supplies
        .filter(({ name }) => want.supply === undefined || name === want.supply)
        .flatMap(({ nodes, label }) =>
          nodes.map(({ name }) => ({ sort: 'item' as const, label: name, insert: name, detail: label })),
        );
    case 'role':
      return roleCandidates(scene);
    case 'label':
      return labelsIn(scene).map((name) => ({ sort: 'label', label: name, insert: name }));
    case 'hazard':
      return hazardCandidates(want.level, scene);
    case 'callable':
      return references.declared
        .filter(({ sort, place }) => sort === 'procedure' || (sort === 'card' && place !== scene.card?.place))
        .map(({ name, sort }) => ({ sort: 'callable', label: name, insert: name, detail: sort }));
    case 'argument':
      return argumentCandidates(want, scene);
    case 'variant':
      return equipment.variants.map(({ name, values }) => ({
        sort: 'variant',
        label: name,
        insert: name,
        detail: values.join(', '),
      }));
    case 'value':
      return (equipment.variants.find(({ name }) => name === want.variant)?.values ?? []).map((value) => ({
        sort: 'variant',
        label: value,
        insert: value,
      }));
    case 'code':
      return codeCandidates(scene);
    case 'rest':
      return codeCandidates(scene)
        .filter(({ label }) => label.startsWith(`${want.group}.`))
        .map((one) => ({
          ...one,
          insert: one.label.slice(want.group.length + 1),
          label: one.label.slice(want.group.length + 1),
        }));
    case 'file':
      return fileCandidates(scene);
    case 'slot':
      return [...candidatesFor({ type: 'item' }, scene), ...candidatesFor({ type: 'gauge' }, scene)];
  }
}

/** Words that begin a sentence come after those that go on with the present one; on a line of their own, before them. */
function wordCandidates({ word, rule, begins }: Extract<Wanted, { type: 'word' }>, { isNewLine }: Scene): Candidate[] {
  const rank = word === 'accept' ? 4 : begins === isNewLine ? 2 : 3;
  const written = snippetsFor(rule, word);
  if (written.length === 0) return [{ sort: 'word', label: word, insert: word, rank }];
  return written.map((snippet) => snippetCandidate(snippet, rank));
}

function snippetCandidate({ label, word, text, help }: Snippet, rank: number): Candidate {
  return { sort: 'snippet', label: label ?? word, insert: text, isSnippet: true, detail: help, rank };
}

function codeCandidates({ around }: Scene): Candidate[] {
  return allFindings.map(({ code, title }) => ({
    sort: 'code',
    label: code,
    insert: code,
    detail: title,
    rank: around.codesHere.includes(code) ? 0 : 1,
  }));
}

function nameCandidate(name: string): Candidate {
  return { sort: 'item', label: name, insert: name, rank: 0 };
}

function itemCandidate(item: Item, { around }: Scene): Candidate {
  return {
    sort: 'item',
    label: item.name,
    insert: item.name,
    detail: item.label,
    markdown: describe({ sort: 'item', item }, around.settings),
  };
}

function gaugeCandidate(gauge: Gauge, { around }: Scene): Candidate {
  return {
    sort: 'gauge',
    label: gauge.name,
    insert: gauge.name,
    detail: gauge.label,
    markdown: describe({ sort: 'gauge', gauge }, around.settings),
  };
}

/** States with the words that the card prints for them. */
function stateCandidates(name: string, { snapshot, parameters }: Scene): Candidate[] {
  const { equipment } = snapshot.bound;
  const parameter = parameters.find((one) => one.name === name)?.item;
  const item = equipment.items.find((one) => one.name === name) ?? parameter;
  const kind: Kind | undefined = item?.kind ?? equipment.kinds.find((one) => one.name === name);
  return (kind?.states ?? []).map((state, index) => ({
    sort: 'state',
    label: state.name,
    insert: state.name,
    ...(state.wording && { detail: state.wording.replace('{}', item?.label ?? '…') }),
    rank: index === item?.normally ? 0 : 1,
  }));
}

/** A procedure has the crew of the card that does it. */
function roleCandidates({ card, snapshot }: Scene): Candidate[] {
  const crew = card ? card.crew : snapshot.bound.cards.flatMap((one) => one.crew);
  const byName = new Map(crew.map((role) => [role.name, role]));
  return [...byName.values()].map(({ name, label }) => ({ sort: 'role', label: name, insert: name, detail: label }));
}

/** A gauge that is a parameter may be any. */
function limitCandidates(name: string | undefined, { snapshot, around, parameters }: Scene): Candidate[] {
  const isAny = parameters.some((parameter) => parameter.name === name);
  const gauges = snapshot.bound.equipment.gauges.filter((one) => isAny || one.name === name);
  const byName = new Map(gauges.flatMap(({ limits }) => limits).map((limit) => [limit.name, limit]));
  return [...byName.values()].map((limit) => ({
    sort: 'limit',
    label: limit.name,
    insert: limit.name,
    markdown: describe({ sort: 'limit', limit }, around.settings),
  }));
}

/** The gauge's own unit first, then its counterpart, then the others that measure the same. */
function unitCandidates(name: string | undefined, { snapshot }: Scene): Candidate[] {
  const own = snapshot.bound.equipment.gauges.find((one) => one.name === name)?.unit;
  const fitting = own ? units.filter(({ dimension }) => dimension === own.dimension) : units;
  const other = own && (counterpart(own, 'metric') ?? counterpart(own, 'us'));
  return fitting.map((unit) => ({
    sort: 'unit',
    label: unit.symbol,
    insert: unit.symbol,
    detail: unit.dimension,
    rank: unit === own ? 0 : unit === other ? 1 : 2,
  }));
}

function unitsThatMeasure(dimension: Dimension): Candidate[] {
  const fitting = units.filter((unit) => unit.dimension === dimension);
  return fitting.map(({ symbol }) => ({ sort: 'unit', label: symbol, insert: symbol }));
}

/** Those that lack their admonition come first. */
function hazardCandidates(level: string, { snapshot, lacking }: Scene): Candidate[] {
  const fitting = snapshot.bound.equipment.hazards.filter((hazard) => hazard.level === level);
  return fitting.map((hazard) => ({
    sort: 'hazard',
    label: hazard.name,
    insert: hazard.name,
    detail: lacking.includes(hazard) ? `no admonition yet: ${hazard.text}` : hazard.text,
    rank: lacking.includes(hazard) ? 0 : 1,
  }));
}

function argumentCandidates({ callee, index }: Extract<Wanted, { type: 'argument' }>, scene: Scene): Candidate[] {
  const { equipment, procedures } = scene.snapshot.bound;
  const kind = procedures.find(({ name }) => name === callee)?.parameters[index]?.kind;
  if (kind === 'gauge') return equipment.gauges.map((gauge) => gaugeCandidate(gauge, scene));
  return equipment.items
    .filter((item) => kind === undefined || item.kind.name === kind)
    .map((item) => itemCandidate(item, scene));
}

function declaredIn(declared: readonly Declared[], sort: Declared['sort'], card: Card | undefined): Declared[] {
  return declared.filter((one) => one.sort === sort && (!card || one.owner?.place.start === card.place.start));
}

/** The names of steps and stages; a stage without one is gone to by its title. */
function labelsIn({ snapshot, card }: Scene): string[] {
  const named = declaredIn(snapshot.bound.references.declared, 'label', card).map(({ name }) => name);
  const around = card && innermost(pathAt(snapshot.parsed.file, card.place.start), 'card');
  const titles = all(around ?? snapshot.parsed.file, 'stage').flatMap((stage) =>
    stage.name || stage.whenStopped ? [] : (titleAsName(stage.title)?.text ?? []),
  );
  return [...new Set([...titles, ...named])];
}

function fileCandidates({ snapshot, around }: Scene): Candidate[] {
  const files = around.files.filter((file) => file !== snapshot.file).map((file) => wayBetween(snapshot.file, file));
  return [...files, ...rulebooks.keys()].map((path) => ({ sort: 'file', label: path, insert: path }));
}
