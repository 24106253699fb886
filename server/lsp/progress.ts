/** Progress that is shown only for work that lasts: most passes are over before anybody could read it. */
import type { Connection, WorkDoneProgressServerReporter } from 'vscode-languageserver';

/** Milliseconds. */
const worthTelling = 700;

export class LateProgress {
  private readonly began = performance.now();
  private reporter: Promise<WorkDoneProgressServerReporter> | undefined;

  constructor(
    private readonly connection: Connection,
    private readonly title: string,
  ) {}

  async report(done: number, total: number): Promise<void> {
    if (performance.now() - this.began < worthTelling) return;
    this.reporter ??= this.begin();
    (await this.reporter).report(Math.round((100 * done) / total), `${done} of ${total}`);
  }

  async end(): Promise<void> {
    (await this.reporter)?.done();
  }

  private async begin(): Promise<WorkDoneProgressServerReporter> {
    const reporter = await this.connection.window.createWorkDoneProgress();
    reporter.begin(this.title, 0);
    return reporter;
  }
}
