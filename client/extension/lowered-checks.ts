/** Says in the status bar which checks the settings switch off or lower for the card that is open. */
import * as vscode from 'vscode';
import type { CheckedParams } from '../../shared/protocol.ts';

export class LoweredChecks implements vscode.Disposable {
  private readonly status = vscode.window.createStatusBarItem(vscode.StatusBarAlignment.Left);
  private readonly lowered = new Map<string, readonly string[]>();
  private readonly following = vscode.window.onDidChangeActiveTextEditor(() => this.show());

  constructor() {
    this.status.name = 'Cardwright: Checks That Are Lowered';
    this.status.backgroundColor = new vscode.ThemeColor('statusBarItem.warningBackground');
    this.status.command = {
      command: 'workbench.action.openSettings',
      title: 'Show the setting',
      arguments: ['cardwright.levels'],
    };
  }

  checked({ uri, lowered }: CheckedParams): void {
    this.lowered.set(uri, lowered);
    this.show();
  }

  dispose(): void {
    this.status.dispose();
    this.following.dispose();
  }

  private show(): void {
    const uri = vscode.window.activeTextEditor?.document.uri.toString() ?? '';
    const checks = (this.lowered.get(uri) ?? []).join(', ');
    if (checks === '') {
      this.status.hide();
      return;
    }
    this.status.text = `$(warning) Checks lowered: ${checks}`;
    this.status.tooltip = `The settings switch off or lower checks (${checks}). Cards are drafts until they are back. Look for “levels” in the settings, and in cardwright.json.`;
    this.status.show();
  }
}
