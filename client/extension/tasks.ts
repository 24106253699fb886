/** The task "check": the command line over the workspace, its findings in the Problems view. */
import * as vscode from 'vscode';

interface CheckDefinition extends vscode.TaskDefinition {
  /** Files and folders, relative to the workspace folder. */
  readonly paths?: readonly string[];
  /** End with an error for warnings and hints too. */
  readonly strict?: boolean;
}

export class CheckTasks implements vscode.TaskProvider {
  constructor(private readonly commandLine: string) {}

  provideTasks(): vscode.Task[] {
    return (vscode.workspace.workspaceFolders ?? []).map((folder) => this.task({ type: 'cardwright' }, folder));
  }

  resolveTask(task: vscode.Task): vscode.Task | undefined {
    const folder = typeof task.scope === 'object' ? task.scope : vscode.workspace.workspaceFolders?.[0];
    return folder && this.task(task.definition as CheckDefinition, folder);
  }

  private task(definition: CheckDefinition, folder: vscode.WorkspaceFolder): vscode.Task {
    const options = definition.strict ? ['--strict'] : [];
    const args = [this.commandLine, 'check', ...(definition.paths ?? ['.']), ...options];
    // The editor's own executable runs scripts as Node does when it is told to.
    const execution = new vscode.ProcessExecution(process.execPath, args, {
      cwd: folder.uri.fsPath,
      env: { ELECTRON_RUN_AS_NODE: '1', NO_COLOR: '1' },
    });
    const task = new vscode.Task(definition, folder, 'check', 'Cardwright', execution, '$cardwright');
    task.group = vscode.TaskGroup.Test;
    return task;
  }
}
