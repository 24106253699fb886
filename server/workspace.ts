/** The texts that are looked at together, and the newest snapshot of each. */
import { rulebook } from './binding/files.ts';
import { Snapshot, Source } from './snapshot.ts';

/** Where texts come from that nobody has set. The core reads no disk itself. */
export interface FileProvider {
  /** Undefined where there is no such file. */
  readonly readText: (file: string) => string | undefined;
  /** For figures. Undefined where there is no such file; absent where figures cannot be read at all. */
  readonly readBytes?: (file: string) => Uint8Array | undefined;
}

export class Workspace {
  private readonly sources = new Map<string, Source | undefined>();
  private readonly snapshots = new Map<string, Snapshot>();

  private holders = 0;

  /** Beside another, it begins with what that has read and proved. */
  constructor(
    readonly provider: FileProvider,
    private readonly other?: Workspace,
  ) {}

  /** Until it is let go of again, no snapshot goes over into the next: somebody works with one, and is not done at once. */
  async held<Result>(work: () => Promise<Result>): Promise<Result> {
    this.holders++;
    try {
      return await work();
    } finally {
      this.holders--;
    }
  }

  /** The text of a file from now on, whatever the provider has. */
  setText(file: string, text: string): void {
    if (this.sources.get(file)?.text !== text) this.sources.set(file, new Source(text));
  }

  /** Asks the provider for the file again when it is next needed: it was closed, changed on disk, or came or went. */
  forget(file: string): void {
    this.sources.delete(file);
  }

  /** What was worked out from texts may have changed though they have not: a figure did. */
  forgetSnapshots(): void {
    this.snapshots.clear();
  }

  /** Keeps nothing in memory of what was worked out of a file, nor of those that use it. It is read again when it is next needed. */
  letGo(file: string): void {
    this.forget(file);
    this.forgetSnapshots();
  }

  /** Every file that is known by now. */
  get files(): readonly string[] {
    return [...this.sources].flatMap(([file, source]) => (source ? [file] : []));
  }

  /**
   * The newest snapshot of a file: the same one as long as neither its text nor that of a file it uses has changed. The one before is
   * not to be used any more: it may have gone over into this one.
   */
  snapshot(file: string): Snapshot | undefined {
    const source = this.sourceOf(file);
    if (!source) return undefined;
    const known = this.snapshots.get(file);
    if (known?.isCurrent()) return known;
    const goneOn = this.holders === 0 ? known?.goneOnTo(source) : undefined;
    const before = known ?? this.other?.snapshot(file);
    const snapshot = goneOn ?? new Snapshot(file, source, (used) => this.sourceOf(used), before);
    this.snapshots.set(file, snapshot);
    return snapshot;
  }

  /** The text that a place lies in; shipped rulebooks have theirs too. */
  readonly textOf = (file: string): string => rulebook(file)?.text ?? this.sourceOf(file)?.text ?? '';

  private sourceOf(file: string): Source | undefined {
    if (!this.sources.has(file)) {
      this.sources.set(file, this.other ? this.other.sourceOf(file) : this.readSource(file));
    }
    return this.sources.get(file);
  }

  private readSource(file: string): Source | undefined {
    const text = this.provider.readText(file);
    return text === undefined ? undefined : new Source(text);
  }
}
