/** Follows the writer through the lessons: ticks each in the walkthrough, and says in the status bar which comes next. */
import * as vscode from 'vscode';
import type { Counts } from '../../shared/protocol.ts';
import { type Deed, isDone, lessons } from './lessons.ts';

export class Tutorial implements vscode.Disposable {
  private readonly status = vscode.window.createStatusBarItem(vscode.StatusBarAlignment.Left);
  private running: { readonly uri: string; at: number; before?: Counts } | undefined;

  constructor(private readonly count: (uri: string) => Promise<Counts | null>) {
    this.status.command = { command: 'workbench.action.openWalkthrough', title: 'Lessons', arguments: [walkthrough] };
    this.status.tooltip = 'Show the lessons';
  }

  begin(uri: vscode.Uri): void {
    this.running = { uri: uri.toString(), at: 0 };
    this.sayNext();
    void this.look(this.running.uri);
  }

  /** Something has happened to a file: its text was checked, or the writer has done more than write. */
  async look(uri: string, deed?: Deed): Promise<void> {
    const { running } = this;
    if (running?.uri !== uri) return;
    const now = await this.count(uri);
    const current = lessons[running.at];
    if (!now || !current || this.running !== running) return;
    running.before ??= now;
    if (!isDone(current.lesson, running.before, now, deed)) return;
    running.at++;
    running.before = now;
    await vscode.commands.executeCommand('setContext', `cardwright.learnt.${current.lesson}`, true);
    this.sayNext();
  }

  dispose(): void {
    this.status.dispose();
  }

  private sayNext(): void {
    const at = this.running?.at ?? 0;
    const next = lessons[at];
    this.status.text = next
      ? `$(mortar-board) Lesson ${at + 1} of ${lessons.length}: ${next.task}`
      : '$(mortar-board) All lessons done';
    this.status.show();
  }
}

const walkthrough = 'cardwright.cardwright#first-card';
