/** Progress that is shown only for work that lasts: most is over before anybody could read it. */
import type { Connection, WorkDoneProgressServerReporter } from 'vscode-languageserver';
import { nextMessage } from './newest.ts';

/** Milliseconds. */
const worthTelling = 100;

export class LateProgress {
  private readonly began = performance.now();
  private reporter: Promise<WorkDoneProgressServerReporter> | undefined;

  constructor(
    private readonly connection: Connection,
    private readonly title: string,
  ) {}

  /** Shows it, where the work has lasted long enough by now. */
  update(): void {
    if (performance.now() - this.began >= worthTelling) void this.tell();
  }

  /** Shows it now, since the work cannot be left once it is begun. */
  async tell(): Promise<void> {
    this.reporter ??= this.begin();
    await this.reporter;
  }

  async end(): Promise<void> {
    (await this.reporter)?.done();
  }

  private async begin(): Promise<WorkDoneProgressServerReporter> {
    const reporter = await this.connection.window.createWorkDoneProgress();
    reporter.begin(this.title);
    // What comes next may hold everything up, the writing of this message too.
    await nextMessage();
    return reporter;
  }
}
