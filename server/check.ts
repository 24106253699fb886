/** Runs the findings over snapshots, and gives what a writer is told: what is accepted taken out, each once, in order, and not too many. */
import type { Text } from '../grammar/syntax.ts';
import type { Card } from '../shared/card.ts';
import type { Finding, Level } from '../shared/finding.ts';
import { hiddenShown } from '../shared/hidden.ts';
import { getOrInsert } from '../shared/maps.ts';
import { finish, type InParts } from '../shared/parts.ts';
import type { Settings } from '../shared/settings.ts';
import type { Place } from '../shared/text.ts';
import { type Acceptance, type Accepted, acceptancesIn, canBeAccepted, hasReason, sift } from './acceptance.ts';
import { damagedWords, followsFrom, withoutRewritten } from './consequences.ts';
import { type Coverage, coverageOf } from './coverage.ts';
import { acceptUnused } from './findings/accept-unused.ts';
import { allFindings, findSort } from './findings/all.ts';
import type { FileFacts, FindingSort, Found } from './findings/finding.ts';
import { internal } from './findings/internal.ts';
import { acrossOf, placeKey } from './findings/support/across.ts';
import { acceptsIn } from './findings/support/card.ts';
import type { Beside } from './found-so-far.ts';
import { shownLevel } from './levels.ts';
import type { Snapshot } from './snapshot.ts';
import type { Workspace } from './workspace.ts';

export interface Checked {
  readonly findings: readonly Finding[];
  /** What is found too, and accepted by the writer. */
  readonly accepted: readonly Accepted[];
  /** The files that were asked for and those that they use. */
  readonly files: readonly string[];
  readonly cards: readonly CheckedCard[];
}

export interface CheckedCard extends Coverage {
  readonly name: string;
}

/**
 * What is found in one file whichever others are checked with it: plain data, which can be kept and sent as JSON. What is accepted
 * is still in it, as an acceptance may stand in a file that many use.
 */
export interface FileResult extends Beside {
  readonly file: string;
  /** The files that it uses and that are there. */
  readonly uses: readonly string[];
  readonly findings: readonly Finding[];
  /** The text does not parse. */
  readonly damaged: boolean;
  readonly cards: readonly CheckedCard[];
}

export type SettingsOf = (file: string) => Settings;

/** Checks files and all that they use, as those of a whole folder. */
export function check(workspace: Workspace, files: readonly string[], settingsOf: SettingsOf): Checked {
  return finish(checkInParts(workspace, files, settingsOf));
}

/** As `check`, a part of a proof or a sort of finding at a time. `whole` are the files of folders that were looked through. */
export function* checkInParts(
  workspace: Workspace,
  files: readonly string[],
  settingsOf: SettingsOf,
  whole = files,
): InParts<Checked> {
  const snapshots = withUsedFiles(workspace, files);
  const results: FileResult[] = [];
  for (const snapshot of snapshots) {
    results.push(yield* fileResult(snapshot, workspace, settingsOf(snapshot.file)));
    yield;
  }
  return yield* conclude(results, settingsOf, whole);
}

/** What is found in a file and its cards. */
export function* fileResult(snapshot: Snapshot, workspace: Workspace, settings: Settings): InParts<FileResult> {
  const { file, uses, parsed, bound } = snapshot;
  yield* prepareProofs(snapshot, settings);
  return {
    file,
    uses,
    findings: yield* findingsOf(snapshot, settings, workspace),
    ...snapshot.found.beside((before) => ({
      acceptances: before?.acceptances ?? acceptancesIn(file, parsed),
      reached: before?.reached ?? bound.cards.flatMap((card) => acceptsIn(card)).map(({ place }) => place),
      across: acrossOf(file, snapshot, before?.across),
    })),
    damaged: parsed.problems.length > 0,
    // Nobody asks for it while a card is written.
    get cards() {
      return bound.cards.map((card) => ({ name: card.name, ...coverageOf(card) }));
    },
  };
}

/** What a writer is told of files, with what is found across them; `whole` are those of folders that were looked through. */
export function* conclude(
  results: readonly FileResult[],
  settingsOf: SettingsOf,
  whole: readonly string[],
): InParts<Checked> {
  const sorted = [...results].sort((a, b) => compareText(a.file, b.file));
  const found = [...sorted.flatMap(({ findings }) => findings), ...(yield* acrossFiles(sorted, whole))];
  const { findings, silenced } = accepted(withoutDuplicates(found), sorted);
  yield;
  return {
    findings: shown(findings, settingsOf),
    accepted: silenced.flatMap(({ finding, acceptance }) => {
      const isShown = withLevel(finding, settingsOf(finding.place.file)).length > 0;
      return isShown ? [{ finding: asTold(finding), acceptance }] : [];
    }),
    files: sorted.map(({ file }) => file),
    get cards() {
      return sorted.flatMap(({ cards }) => cards);
    },
  };
}

/** The files and what they use, each once, in the order of their paths. */
function withUsedFiles(workspace: Workspace, files: readonly string[]): Snapshot[] {
  const asked = files.flatMap((file) => workspace.snapshot(file) ?? []);
  const used = asked.flatMap((snapshot) => snapshot.uses).flatMap((file) => workspace.snapshot(file) ?? []);
  return [...new Set([...asked, ...used])].sort((a, b) => compareText(a.file, b.file));
}

/** Proves the cards of a file. One that cannot be proved becomes a finding when its findings are made. */
function* prepareProofs(snapshot: Snapshot, settings: Settings): InParts<void> {
  for (const card of snapshot.bound.cards) {
    try {
      yield* snapshot.proofInParts(card, settings);
    } catch {}
  }
}

// ---------------------------------------------------------------- running the checks

/** What is found in one file and its cards, before anything is accepted. */
function* findingsOf(snapshot: Snapshot, settings: Settings, workspace: Workspace): InParts<Finding[]> {
  const used = snapshot.uses.flatMap((file) => workspace.snapshot(file) ?? []);
  const all = [snapshot, ...used];
  const inFiles: (readonly Finding[])[] = [];
  for (const one of all) inFiles.push(yield* fileFindings(one, settings, workspace));
  const found = [...(inFiles[0] ?? [])];
  for (const [index, card] of snapshot.bound.cards.entries()) {
    const damaged = damagedWords(card, inFiles.flat(), all, workspace.textOf);
    const context = { settings, damaged, textOf: workspace.textOf };
    for (const finding of yield* cardFindings(card, index, snapshot, context)) found.push(finding);
  }
  return found;
}

function* fileFindings(snapshot: Snapshot, settings: Settings, workspace: Workspace): InParts<Finding[]> {
  const { file, parsed, bound } = snapshot;
  const { readBytes } = workspace.provider;
  const facts = { file, parsed, bound, settings, textOf: workspace.textOf, ...(readBytes && { bytesOf: readBytes }) };
  const start = { file, start: 0, end: 0 };
  return yield* inTurn(sortsIn.file, (sort) =>
    snapshot.found.of(sort, 'file', settings, (texts) =>
      complete(sort, start, () => withoutRewritten(parsed, sort.code, foundIn(sort, facts, texts))),
    ),
  );
}

/** In the whole file, or in some texts of it. */
function* foundIn({ inFile, inTexts }: FindingSort, facts: FileFacts, some?: Iterable<Text>): Iterable<Found> {
  const texts = inTexts?.texts(facts);
  for (const text of some ?? texts?.keys() ?? [])
    if (texts?.has(text)) yield* inTexts?.inText(texts.get(text), facts) ?? [];
  if (!some) yield* inFile?.(facts) ?? [];
}

interface CardContext {
  readonly settings: Settings;
  readonly damaged: ReadonlySet<string>;
  readonly textOf: (file: string) => string;
}

function* cardFindings(card: Card, index: number, snapshot: Snapshot, context: CardContext): InParts<Finding[]> {
  const { settings, damaged, textOf } = context;
  const proof = attempt(() => snapshot.proof(card, settings));
  if ('fault' in proof) return [internalFinding('proof', card.place, proof.fault)];
  const facts = { card, proof: proof.value, settings, textOf };
  const where = `card ${index} ${[...damaged].join()}`;
  return yield* inTurn(sortsIn.card, (sort) =>
    snapshot.found.of(
      sort,
      where,
      settings,
      () =>
        complete(sort, card.place, () =>
          [...(sort.inCard?.(facts) ?? [])].filter((found) => !followsFrom(damaged, sort.code, found)),
        ),
      proof.value.facts,
    ),
  );
}

const sortsIn = {
  file: allFindings.filter(({ inFile, inTexts }) => inFile ?? inTexts),
  card: allFindings.filter(({ inCard }) => inCard),
  workspace: allFindings.filter(({ inWorkspace }) => inWorkspace),
};

/** One sort of finding after the other. */
function* inTurn(sorts: readonly FindingSort[], run: (sort: FindingSort) => readonly Finding[]): InParts<Finding[]> {
  const found: Finding[] = [];
  for (const sort of sorts) {
    for (const finding of run(sort)) found.push(finding);
    yield;
  }
  return found;
}

function* acrossFiles(results: readonly FileResult[], whole: readonly string[]): InParts<Finding[]> {
  const [first] = results;
  if (!first) return [];
  const facts = { files: results.map(({ across }) => across), whole: new Set(whole) };
  const start = { file: first.file, start: 0, end: 0 };
  return yield* inTurn(sortsIn.workspace, (sort) => complete(sort, start, () => sort.inWorkspace?.(facts)));
}

/** Runs one check and makes findings of what it gives; where it throws, that becomes one finding and the others go on. */
function complete(sort: FindingSort, where: Place, run: () => Iterable<Found> | undefined): Finding[] {
  const result = attempt(() => [...(run() ?? [])]);
  if ('fault' in result) return [internalFinding(sort.code, where, result.fault)];
  return result.value.map((found) => findingOf(sort, found));
}

function attempt<Value>(make: () => Value): { readonly value: Value } | { readonly fault: unknown } {
  try {
    return { value: make() };
  } catch (fault) {
    return { fault };
  }
}

/** What it says is read in a terminal or an editor: what a text hides is shown there. */
function findingOf({ code, level }: FindingSort, { about: _, path = [], fixes = [], ...found }: Found): Finding {
  return {
    code,
    level,
    ...found,
    message: hiddenShown(found.message),
    path: path.map((step) => ({ ...step, text: hiddenShown(step.text) })),
    fixes: fixes.map((fix) => ({ ...fix, title: hiddenShown(fix.title) })),
  };
}

function internalFinding(what: string, place: Place, fault: unknown): Finding {
  const reason = fault instanceof Error ? fault.message : String(fault);
  const message = `Cardwright itself failed while it looked for ${what} (${reason}). The other checks were made. Please report it with this text.`;
  return findingOf(internal, { place, message });
}

// ---------------------------------------------------------------- what is told

/** Written-out procedures and configurations find the same thing at the same place more than once. */
function withoutDuplicates(findings: readonly Finding[]): Finding[] {
  const first = new Map<string, Finding>();
  for (const finding of findings) {
    const { file, start, end } = finding.place;
    const key = JSON.stringify([finding.code, file, start, end, finding.message]);
    if (!first.has(key)) first.set(key, finding);
  }
  return [...first.values()];
}

function accepted(findings: readonly Finding[], results: readonly FileResult[]) {
  const { standing, silenced, unused } = sift(
    findings,
    results.flatMap(({ acceptances }) => acceptances),
  );
  const damaged = new Set(results.filter((result) => result.damaged).map(({ file }) => file));
  // An acceptance in a procedure that no card does has had nothing to silence yet.
  const reached = new Set(results.flatMap((result) => result.reached).map(placeKey));
  const idle = unused.filter(({ place }) => reached.has(placeKey(place)) && !damaged.has(place.file));
  return { findings: [...standing, ...idle.map(unusedFinding)], silenced };
}

function unusedFinding(acceptance: Acceptance): Finding {
  const { code, place } = acceptance;
  const open = `${code} cannot be accepted: what it is about is not understood, and so not proved. Mend that, and take this out.`;
  const known = findSort(code) ? '' : ' There is no finding of that code.';
  const idle = `Nothing here gives the finding ${code}.${known} Take this out, or move it to the step, stage or card that does.`;
  const bare = `This accepts ${code} without a reason, so the finding stands. Say why it is right here: the card prints it.`;
  return findingOf(acceptUnused, {
    place,
    message: !canBeAccepted(code) ? open : hasReason(acceptance) ? idle : bare,
    fixes: [{ title: 'Take it out', edits: [{ place, newText: '' }] }],
  });
}

const gravity: Readonly<Record<Level, number>> = { error: 0, warning: 1, hint: 2 };

/** With the levels that the settings give, no more than they allow for a file, in the order of the text. */
function shown(findings: readonly Finding[], settingsOf: SettingsOf): Finding[] {
  const levelled = findings.flatMap((finding) => withLevel(finding, settingsOf(finding.place.file)));
  const perFile = new Map<string, Finding[]>();
  for (const finding of levelled.sort(byGravity)) {
    const { file } = finding.place;
    const kept = getOrInsert(perFile, file, () => []);
    if (kept.length < settingsOf(file).maximumFindings) kept.push(finding);
  }
  return [...perFile.values()].flat().sort(byPlace);
}

function withLevel(finding: Finding, { levels }: Settings): Finding[] {
  const level = shownLevel(finding, levels);
  return level === 'off' ? [] : [{ ...asTold(finding), level }];
}

/** What is told stays as it is, though places move along with their text. */
function asTold(finding: Finding): Finding {
  const fixes = finding.fixes.map((fix) => ({ ...fix, edits: fix.edits.map(inItsPlace) }));
  return { ...inItsPlace(finding), path: finding.path.map(inItsPlace), fixes };
}

function inItsPlace<Told extends { readonly place: Place }>(told: Told): Told {
  return { ...told, place: { ...told.place } };
}

function byGravity(a: Finding, b: Finding): number {
  return gravity[a.level] - gravity[b.level] || byPlace(a, b);
}

function byPlace(a: Finding, b: Finding): number {
  return (
    compareText(a.place.file, b.place.file) ||
    a.place.start - b.place.start ||
    a.place.end - b.place.end ||
    compareText(a.code, b.code)
  );
}

function compareText(a: string, b: string): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}
