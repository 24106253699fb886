/**
 * Keeps the findings of all files up to date. What is typed is answered first, the rest of the workspace when there is time, and
 * a change cancels the pass that runs. Findings are pushed to an editor, or wait to be pulled.
 */

import type { Finding } from '../../shared/finding.ts';
import { type CheckedParams, methods } from '../../shared/protocol.ts';
import type { Settings } from '../../shared/settings.ts';
import { acceptancesIn } from '../acceptance.ts';
import { withUsedFiles } from '../check.ts';
import { Conclusions, standingIn, type Told, toldFirst } from '../conclusions.ts';
import { fileResult, firstFindings, isFoundFirst } from '../file-result.ts';
import { loweredChecks } from '../levels.ts';
import type { Snapshot } from '../snapshot.ts';
import { toDiagnostic } from './convert/findings.ts';
import { doInTurns, Newest, type Turn } from './newest.ts';
import { LateProgress } from './progress.ts';
import type { Session } from './session.ts';

/** What is known of one file: its findings, and a number that changes when they do. */
export interface FileReport extends Told {
  readonly number: number;
  /** The checks that the settings switch off or lower for it. */
  readonly lowered: readonly string[];
}

const nothing: FileReport = { findings: [], accepted: [], number: 0, lowered: [] };
const toldOfNothing = JSON.stringify([[], [], []]);

/** Characters of a text up to which all is found before anybody has missed a part of it. */
const shortText = 20_000;

/** In so many files what lies across them is found before anybody notices. */
const fewFiles = 100;

export class Findings {
  private readonly newest = new Newest();
  private readonly reports = new Map<string, FileReport>();
  private readonly conclusions: Conclusions;
  /** Of what each file's result was made. */
  private readonly checked = new Map<string, { readonly snapshot: Snapshot; readonly settings: Settings }>();
  /** Those that have been checked and not been reported since. */
  private readonly isNew = new Set<string>();
  /** What was last told of each file, as text. */
  private readonly told = new Map<string, string>();
  /** The text of each file of which all was told last. */
  private readonly toldOf = new Map<string, string>();
  /** The version of each open file that its findings were last pushed for. */
  private readonly pushed = new Map<string, number | null>();
  /** True where it came to its end. */
  private pass: Promise<boolean>;
  /** What is still being read of the disk or the settings. */
  private change: Promise<void> = Promise.resolve();
  private counter = 0;

  constructor(
    private readonly session: Session,
    private readonly isPushed: boolean,
  ) {
    this.conclusions = new Conclusions((file) => session.settings(file));
    // The first pass begins once the workspace has been read.
    this.pass = session.ready.then(() => false);
  }

  of(file: string): FileReport {
    return this.reports.get(file) ?? nothing;
  }

  get files(): readonly string[] {
    return [...this.reports.keys()];
  }

  /** Checks what has changed; the file that was just changed comes first. */
  refresh(first?: string): void {
    this.pass = this.newest.run(async (turn) => {
      await this.session.ready;
      await turn.giveWay();
      await this.checkAll(first, turn);
    });
    // What goes wrong in a pass is told to whoever waits for it, and to the log.
    this.pass.catch((error: unknown) => this.session.connection.console.error(String(error)));
  }

  /** Checks what has changed once all of that is known; who waits for findings waits for both. */
  refreshAfter(change: Promise<void>): void {
    const log = (error: unknown) => this.session.connection.console.error(String(error));
    const before = this.change;
    this.change = change.catch(log).then(() => {
      this.refresh();
      return before;
    });
  }

  /** Ends when all findings are those of the newest texts. */
  async settled(): Promise<void> {
    for (let change: Promise<void> | undefined; change !== this.change || !(await this.pass); ) {
      change = this.change;
      await change;
    }
  }

  private async checkAll(first: string | undefined, turn: Turn): Promise<void> {
    const { session, conclusions } = this;
    const { files, filesOnDisk, settingsFiles } = session;
    const urgent = files.filter((file) => file === first || session.isOpen(file));
    // What is read for one file may be what another has missed.
    for (let stale = this.staleAmong(files); stale.length > 0; stale = this.staleAmong(files)) {
      for (const file of stale) this.forget(file);
      await this.checkFiles(urgent, turn);
      const isSoon = conclusions.isAcrossKnown(filesOnDisk) || files.length <= fewFiles;
      if (!isSoon || this.staleAmong(stale).length > 0) for (const file of urgent) this.report(file);
      await this.checkFiles(stale, turn);
    }
    const used = new Set(withUsedFiles(session.workspace, files).map(({ file }) => file));
    for (const file of conclusions.files) if (!used.has(file)) this.forget(file);
    await doInTurns(conclusions.lookAcross(filesOnDisk), turn);
    const known = new Set([...files, ...settingsFiles.keys()]);
    for (const file of new Set([...conclusions.changed, ...urgent])) if (known.has(file)) this.report(file);
    conclusions.changed.clear();
    for (const [file, findings] of settingsFiles) this.tell(file, { findings, accepted: [] }, false);
    for (const file of this.files) if (!known.has(file)) this.tell(file, { findings: [], accepted: [] });
  }

  /** Checks those of the files, and of what they use, that have changed. */
  private async checkFiles(files: readonly string[], turn: Turn): Promise<void> {
    const { session, conclusions } = this;
    const stale = this.staleAmong(files);
    if (stale.length === 0) return;
    const progress = new LateProgress(session.connection, 'Checking cards');
    const giveWay = () => {
      progress.update();
      return turn.giveWay();
    };
    try {
      for (const file of stale) {
        if (session.takesLong(file)) await progress.tell();
        await session.fetchNamed(file);
        await giveWay();
      }
      for (const snapshot of withUsedFiles(session.workspace, stale)) {
        const { file } = snapshot;
        if (!this.isStale(file)) continue;
        const settings = session.settings(file);
        const inTurns = { ...turn, giveWay };
        if (this.isAwaited(snapshot)) {
          const first = await doInTurns(firstFindings(snapshot, session.workspace, settings), inTurns);
          this.push(file, this.toldSoon(snapshot, first, settings));
        }
        conclusions.put(await doInTurns(fileResult(snapshot, session.workspace, settings), inTurns));
        this.checked.set(file, { snapshot, settings });
        this.isNew.add(file);
      }
    } finally {
      await progress.end();
    }
  }

  /** Somebody looks at it, nothing of it is known, and it is so long that what is seen at once is told before the rest. */
  private isAwaited({ file, text, found }: Snapshot): boolean {
    return this.isPushed && this.session.isOpen(file) && text.length > shortText && found.isEmpty;
  }

  /** What was found first, beside the others that were told of the text before. */
  private toldSoon(
    { file, parsed, text }: Snapshot,
    first: readonly Finding[],
    settings: Settings,
  ): readonly Finding[] {
    const before = this.toldOf.get(file);
    const standing = before === undefined ? [] : standingIn(text, file, before, this.of(file).findings);
    const others = standing.filter(({ code }) => !isFoundFirst(code));
    return toldFirst(first, others, acceptancesIn(file, parsed), settings);
  }

  private forget(file: string): void {
    this.conclusions.forget(file);
    this.checked.delete(file);
  }

  private staleAmong(files: readonly string[]): string[] {
    return files.filter((file) => this.isStale(file));
  }

  private isStale(file: string): boolean {
    const checked = this.checked.get(file);
    const snapshot = this.session.workspace.snapshot(file);
    return checked?.snapshot !== snapshot || (snapshot && checked?.settings !== this.session.settings(file)) === true;
  }

  private report(file: string): void {
    this.tell(file, this.conclusions.told(file), this.isNew.delete(file));
  }

  private tell(file: string, found: Told, isNew = true): void {
    const lowered = loweredChecks(this.session.settings(file));
    const told = JSON.stringify([found.findings, found.accepted, lowered]);
    const changed = told !== (this.told.get(file) ?? toldOfNothing);
    if (changed) {
      this.told.set(file, told);
      this.reports.set(file, { ...found, lowered, number: ++this.counter });
    }
    this.toldOf.set(file, this.session.workspace.textOf(file));
    const uri = this.session.names.uriOf(file);
    const version = this.session.openVersion(file);
    if (changed || isNew || this.pushed.get(file) !== version) {
      this.pushed.set(file, version);
      this.push(file, found.findings);
    }
    if (changed || isNew)
      void this.session.connection.sendNotification(methods.checked, { uri, lowered } satisfies CheckedParams);
  }

  private push(file: string, findings: readonly Finding[]): void {
    if (!this.isPushed) return;
    const { session } = this;
    const uri = session.names.uriOf(file);
    const version = session.openVersion(file) ?? undefined;
    const diagnostics = findings.map((finding) => toDiagnostic(finding, session));
    void session.connection.sendDiagnostics({ uri, version, diagnostics });
  }
}
