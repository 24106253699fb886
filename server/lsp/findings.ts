/**
 * Keeps the findings of all files up to date. What is typed is answered first, the rest of the workspace when there is time, and
 * a change cancels the pass that runs. Findings are pushed to an editor, or wait to be pulled.
 */
import type { Finding } from '../../shared/finding.ts';
import { type CheckedParams, methods } from '../../shared/protocol.ts';
import type { Accepted } from '../acceptance.ts';
import { type Checked, checkInParts } from '../check.ts';
import { loweredChecks } from '../levels.ts';
import type { Snapshot } from '../snapshot.ts';
import { toDiagnostic } from './convert/findings.ts';
import { doInTurns, Newest, type Turn } from './newest.ts';
import { LateProgress } from './progress.ts';
import type { Session } from './session.ts';

type Found = Pick<Checked, 'findings' | 'accepted'>;

/** What is known of one file: its findings, and a number that changes when they do. */
export interface FileReport {
  readonly findings: readonly Finding[];
  /** What is found too, and accepted by the writer. */
  readonly accepted: readonly Accepted[];
  readonly number: number;
  /** The checks that the settings switch off or lower for it. */
  readonly lowered: readonly string[];
}

const nothing: FileReport = { findings: [], accepted: [], number: 0, lowered: [] };
const toldOfNothing = JSON.stringify([[], [], []]);

export class Findings {
  private readonly newest = new Newest();
  private readonly reports = new Map<string, FileReport>();
  /** The snapshot of each file when it was last checked. */
  private readonly checked = new Map<string, Snapshot | undefined>();
  /** What was last told of each file, as text. */
  private readonly told = new Map<string, string>();
  /** The version of each open file that its findings were last pushed for. */
  private readonly pushed = new Map<string, number | null>();
  /** True where it came to its end. */
  private pass: Promise<boolean>;
  private counter = 0;

  constructor(
    private readonly session: Session,
    private readonly isPushed: boolean,
  ) {
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

  /** Ends when all findings are those of the newest texts. */
  async settled(): Promise<void> {
    while (!(await this.pass));
  }

  private async checkAll(first: string | undefined, turn: Turn): Promise<void> {
    const files = this.session.files;
    const stale = files.filter((file) => this.isStale(file));
    const urgent = stale.filter((file) => file === first || this.session.isOpen(file));
    if (urgent.length > 0 && urgent.length < stale.length) await this.checkFiles(urgent, urgent, [], turn);
    const { settingsFiles } = this.session;
    for (const [file, findings] of settingsFiles) this.report(file, { findings, accepted: [] }, false);
    const [known, gone] = [new Set([...files, ...settingsFiles.keys()]), this.files];
    await this.checkFiles(files, undefined, this.session.filesOnDisk, turn);
    for (const file of gone) if (!known.has(file)) this.report(file, { findings: [], accepted: [] });
  }

  /** Checks files, and reports those that are named; where none are, all that are files of the workspace or were reported before. */
  private async checkFiles(
    files: readonly string[],
    reported: readonly string[] | undefined,
    whole: readonly string[],
    turn: Turn,
  ): Promise<void> {
    const { findings, accepted } = await this.work(files, whole, turn);
    const found = byFile(findings, ({ place }) => place.file);
    const silenced = byFile(accepted, ({ finding }) => finding.place.file);
    for (const file of reported ?? files) {
      const isNew = this.isStale(file);
      this.checked.set(file, this.session.workspace.snapshot(file));
      this.report(file, { findings: found.get(file) ?? [], accepted: silenced.get(file) ?? [] }, isNew);
    }
  }

  private async work(files: readonly string[], whole: readonly string[], turn: Turn): Promise<Found> {
    const { session } = this;
    const progress = new LateProgress(session.connection, 'Checking cards');
    const giveWay = () => {
      progress.update();
      return turn.giveWay();
    };
    try {
      for (const file of files) {
        if (this.isStale(file) && session.takesLong(file)) await progress.tell();
        await session.fetchNamed(file);
        await giveWay();
      }
      const work = checkInParts(session.workspace, files, (file) => session.settings(file), whole);
      return await doInTurns(work, { ...turn, giveWay });
    } finally {
      await progress.end();
    }
  }

  private isStale(file: string): boolean {
    return this.checked.get(file) !== this.session.workspace.snapshot(file);
  }

  private report(file: string, found: Found, isNew = true): void {
    const lowered = loweredChecks(this.session.settings(file));
    const told = JSON.stringify([found.findings, found.accepted, lowered]);
    const changed = told !== (this.told.get(file) ?? toldOfNothing);
    if (changed) {
      this.told.set(file, told);
      this.reports.set(file, { ...found, lowered, number: ++this.counter });
    }
    const uri = this.session.names.uriOf(file);
    const version = this.session.openVersion(file);
    if (this.isPushed && (changed || isNew || this.pushed.get(file) !== version)) {
      this.pushed.set(file, version);
      const diagnostics = found.findings.map((finding) => toDiagnostic(finding, this.session));
      void this.session.connection.sendDiagnostics({ uri, version: version ?? undefined, diagnostics });
    }
    if (changed || isNew)
      void this.session.connection.sendNotification(methods.checked, { uri, lowered } satisfies CheckedParams);
  }
}

function byFile<Kind>(all: readonly Kind[], fileOf: (one: Kind) => string): ReadonlyMap<string, readonly Kind[]> {
  const files = new Map<string, Kind[]>();
  for (const one of all) files.set(fileOf(one), [...(files.get(fileOf(one)) ?? []), one]);
  return files;
}
