/** Runs the findings over a snapshot, and over what must be known of several. */
import type { Text } from '../grammar/syntax.ts';
import type { Card } from '../shared/card.ts';
import type { Finding } from '../shared/finding.ts';
import { hiddenShown } from '../shared/hidden.ts';
import type { InParts } from '../shared/parts.ts';
import type { Settings } from '../shared/settings.ts';
import { holds, isSamePlace, type Place } from '../shared/text.ts';
import { acceptancesIn } from './acceptance.ts';
import { damagedWords, followsFrom, withoutRewritten } from './consequences.ts';
import { type Coverage, coverageOf } from './coverage.ts';
import { allFindings } from './findings/all.ts';
import type { FileFacts, FindingSort, Found } from './findings/finding.ts';
import { internal } from './findings/internal.ts';
import { type Across, acrossOf } from './findings/support/across.ts';
import { acceptsIn, statementsIn } from './findings/support/card.ts';
import { saidForEveryCall } from './findings/support/every-call.ts';
import type { Beside } from './found-so-far.ts';
import type { Snapshot } from './snapshot.ts';
import type { Workspace } from './workspace.ts';

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

/** What a file shows as soon as it is read: no text in it is looked at for its words, and no card is proved. */
export function firstFindings(snapshot: Snapshot, workspace: Workspace, settings: Settings): InParts<Finding[]> {
  return fileFindings(snapshot, settings, workspace, sortsIn.reading);
}

/** Whether all findings with this code are among those. */
export function isFoundFirst(code: string): boolean {
  return sortsIn.reading.some((sort) => sort.code === code);
}

/** Proves the cards of a file. One that cannot be proved becomes a finding when its findings are made. */
function* prepareProofs(snapshot: Snapshot, settings: Settings): InParts<void> {
  for (const card of snapshot.bound.cards) {
    try {
      yield* snapshot.proofInParts(card, settings);
    } catch {}
  }
}

/** What is found in one file and its cards, before anything is accepted. */
function* findingsOf(snapshot: Snapshot, settings: Settings, workspace: Workspace): InParts<Finding[]> {
  const used = snapshot.uses.flatMap((file) => workspace.snapshot(file) ?? []);
  const all = [snapshot, ...used];
  const inFiles: (readonly Finding[])[] = [];
  for (const one of all) inFiles.push(yield* fileFindings(one, settings, workspace));
  const { cards } = snapshot.bound;
  const inCards: (readonly Finding[])[] = [];
  for (const [index, card] of cards.entries()) {
    const damaged = damagedWords(card, inFiles.flat(), all, workspace.textOf);
    const context = { settings, damaged, textOf: workspace.textOf };
    inCards.push(yield* cardFindings(card, index, snapshot, context));
  }
  const isDenied = (finding: Finding) =>
    sortsOfEveryPath.has(finding.code) && cards.some((card, index) => denies(card, inCards[index] ?? [], finding));
  return [...(inFiles[0] ?? []), ...inCards.flat().filter((finding) => !isDenied(finding))];
}

/** What is so on every path of one card need not be in another that comes to the same text. */
function denies(card: Card, findings: readonly Finding[], { code, place }: Finding): boolean {
  const saysSo = findings.some((other) => other.code === code && isSamePlace(other.place, place));
  return !saysSo && [...statementsIn(card.body)].some((statement) => holds(statement.place, place));
}

function* fileFindings(
  snapshot: Snapshot,
  settings: Settings,
  workspace: Workspace,
  sorts: readonly FindingSort[] = sortsIn.file,
): InParts<Finding[]> {
  const { file, parsed, bound } = snapshot;
  const { readBytes } = workspace.provider;
  const facts = { file, parsed, bound, settings, textOf: workspace.textOf, ...(readBytes && { bytesOf: readBytes }) };
  const start = { file, start: 0, end: 0 };
  return yield* inTurn(sorts, (sort) =>
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
          [...(sort.inCard?.(facts) ?? [])]
            .filter((found) => !followsFrom(damaged, sort.code, found))
            .map((found) => ({ ...found, fixes: found.fixes?.map((fix) => saidForEveryCall(fix, card)) ?? [] })),
        ),
      proof.value.facts,
    ),
  );
}

const sortsIn = {
  file: allFindings.filter(({ inFile, inTexts }) => inFile ?? inTexts),
  reading: allFindings.filter(
    ({ inFile, inTexts, inCard, inWorkspace }) => inFile && !(inTexts ?? inCard ?? inWorkspace),
  ),
  card: allFindings.filter(({ inCard }) => inCard),
  workspace: allFindings.filter(({ inWorkspace }) => inWorkspace),
};

const sortsOfEveryPath = new Set(allFindings.flatMap(({ code, everyPath }) => (everyPath ? [code] : [])));

/** One sort of finding after the other. */
function* inTurn(sorts: readonly FindingSort[], run: (sort: FindingSort) => readonly Finding[]): InParts<Finding[]> {
  const found: Finding[] = [];
  for (const sort of sorts) {
    for (const finding of run(sort)) found.push(finding);
    yield;
  }
  return found;
}

/** What is found across files, in the order of their paths; `whole` are those of folders that were looked through. */
export function* foundAcross(files: readonly Across[], whole: readonly string[]): InParts<Finding[]> {
  const [first] = files;
  if (!first) return [];
  const facts = { files, whole: new Set(whole) };
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
export function findingOf({ code, level }: FindingSort, { about: _, path = [], fixes = [], ...found }: Found): Finding {
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
