/** Runs inside the extension host, with the whole API of the editor. Bundled on its own by `host.test.ts`. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import * as vscode from 'vscode';

const folder = () => {
  const [first] = vscode.workspace.workspaceFolders ?? [];
  assert.ok(first);
  return first.uri;
};
const file = (name: string) => vscode.Uri.joinPath(folder(), name);

async function until<Value>(
  what: string,
  look: () => Value | undefined | PromiseLike<Value | undefined>,
): Promise<Value> {
  for (let attempt = 0; attempt < 1200; attempt++) {
    const value = await look();
    if (value) return value;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`Waited in vain for ${what}.`);
}

async function open(name: string): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument(file(name));
  await vscode.window.showTextDocument(document);
  return document;
}

function at(document: vscode.TextDocument, text: string, into = 1): vscode.Position {
  const offset = document.getText().indexOf(text);
  assert.ok(offset >= 0, `"${text}" is not in the text`);
  return document.positionAt(offset + into);
}

const ask = <Answer>(command: string, ...args: unknown[]) => vscode.commands.executeCommand<Answer>(command, ...args);
const tabs = () => vscode.window.tabGroups.all.flatMap((group) => group.tabs.map(({ label }) => label));
const codes = (name: string) => vscode.languages.getDiagnostics(file(name)).map(({ code }) => code);

const tests: Record<string, () => Promise<void>> = {
  async 'tells of a file that nobody has opened'() {
    await until('findings of the closed file', () => codes('faulty.card').includes('name.unknown'));
  },

  async 'has an outline, folds, growing selections, colours and links'() {
    const document = await open('rinse.card');
    const symbols = await until('symbols', () =>
      ask<vscode.DocumentSymbol[]>('vscode.executeDocumentSymbolProvider', document.uri),
    );
    assert.equal(symbols[0]?.name, 'rinse-left');
    assert.ok(symbols[0]?.children.some(({ name }) => name === 'Rinse'));
    const folds = await ask<vscode.FoldingRange[]>('vscode.executeFoldingRangeProvider', document.uri);
    assert.ok(folds.length > 4);
    const [selection] = await ask<vscode.SelectionRange[]>('vscode.executeSelectionRangeProvider', document.uri, [
      at(document, 'bus-tie'),
    ]);
    const grown: string[] = [];
    for (let one: vscode.SelectionRange | undefined = selection; one; one = one.parent)
      grown.push(document.getText(one.range));
    assert.ok(grown.includes('bus-tie') && grown.includes('check bus-tie closed'));
    const tokens = await ask<vscode.SemanticTokens>('vscode.provideDocumentSemanticTokens', document.uri);
    assert.ok(tokens.data.length > 50);
    const links = await ask<vscode.DocumentLink[]>('vscode.executeLinkProvider', document.uri);
    assert.ok(links.some(({ target }) => target?.path.endsWith('/merganser.card')));
  },

  async 'goes to definitions, kinds and uses'() {
    const document = await open('rinse.card');
    const position = at(document, 'bus-tie');
    const [definition] = await ask<vscode.Location[]>('vscode.executeDefinitionProvider', document.uri, position);
    assert.ok(definition?.uri.path.endsWith('/merganser.card'));
    const [kind] = await ask<vscode.Location[]>('vscode.executeTypeDefinitionProvider', document.uri, position);
    const kindDocument = await vscode.workspace.openTextDocument((kind as vscode.Location).uri);
    assert.match(kindDocument.lineAt((kind as vscode.Location).range.start.line).text, /^kind /);
    const uses = await ask<vscode.Location[]>('vscode.executeReferenceProvider', document.uri, position);
    assert.ok(new Set(uses.map(({ uri }) => uri.path)).size >= 2);
    const marked = await ask<vscode.DocumentHighlight[]>('vscode.executeDocumentHighlights', document.uri, position);
    assert.ok(marked.length >= 1);
  },

  async 'explains what the pointer is on, and what a do must be given'() {
    const document = await open('rinse.card');
    const [hover] = await ask<vscode.Hover[]>('vscode.executeHoverProvider', document.uri, at(document, 'bus-tie'));
    const contents = (hover?.contents ?? []) as vscode.MarkdownString[];
    assert.match(contents.map(({ value }) => value).join(), /bus tie/);
    const faulty = await open('faulty.card');
    const help = await ask<vscode.SignatureHelp>(
      'vscode.executeSignatureHelpProvider',
      faulty.uri,
      at(faulty, 'do look(', 8),
      '(',
    );
    assert.equal(help.signatures[0]?.label, 'look(which: valve)');
  },

  async 'completes by what stands before'() {
    const document = await open('rinse.card');
    const items = await ask<vscode.CompletionList>(
      'vscode.executeCompletionItemProvider',
      document.uri,
      at(document, 'set ignition-breakers', 4),
    );
    assert.ok(items.items.some(({ label }) => (typeof label === 'string' ? label : label.label) === 'bus-tie'));
    const states = await ask<vscode.CompletionList>(
      'vscode.executeCompletionItemProvider',
      document.uri,
      at(document, 'ignition-breakers pulled', 18),
    );
    assert.ok(states.items.some(({ detail }) => detail?.startsWith('Pull and tag')));
  },

  async 'shows hints and lenses'() {
    const document = await open('merganser.card');
    const whole = new vscode.Range(0, 0, document.lineCount, 0);
    const hints = await ask<vscode.InlayHint[]>('vscode.executeInlayHintProvider', document.uri, whole);
    assert.ok(hints.some(({ label }) => String(label).includes('kPa')));
    const card = await open('rinse.card');
    const lenses = await ask<vscode.CodeLens[]>('vscode.executeCodeLensProvider', card.uri, 10);
    assert.ok(lenses.some(({ command }) => command?.title.includes('findings')));
  },

  async 'formats without changing what is said'() {
    const document = await open('untidy.card');
    const edits = await ask<vscode.TextEdit[]>('vscode.executeFormatDocumentProvider', document.uri, {
      tabSize: 2,
      insertSpaces: true,
    });
    const edit = new vscode.WorkspaceEdit();
    edit.set(document.uri, edits);
    await vscode.workspace.applyEdit(edit);
    assert.match(document.getText(), /^item left-valve : valve "the left valve"/);
    assert.deepEqual(
      (await ask<vscode.TextEdit[] | undefined>('vscode.executeFormatDocumentProvider', document.uri, {
        tabSize: 2,
        insertSpaces: true,
      })) ?? [],
      [],
    );
  },

  async 'offers fixes, and mends slips of the pen in one go'() {
    const document = await open('faulty.card');
    await until('findings', () => codes('faulty.card').includes('name.unknown'));
    const range = new vscode.Range(at(document, 'left-valv closed', 0), at(document, 'left-valv closed', 8));
    const actions = await ask<vscode.CodeAction[]>(
      'vscode.executeCodeActionProvider',
      document.uri,
      range,
      vscode.CodeActionKind.QuickFix.value,
    );
    const fix = actions.find(({ edit }) => edit);
    assert.ok(fix?.edit);
    await vscode.workspace.applyEdit(fix.edit as vscode.WorkspaceEdit);
    await until('the finding to go', () => !codes('faulty.card').includes('name.unknown'));
    assert.match(document.getText(), /set left-valve closed/);
  },

  async 'renames in every file'() {
    const document = await open('rinse.card');
    const edit = await ask<vscode.WorkspaceEdit>(
      'vscode.executeDocumentRenameProvider',
      document.uri,
      at(document, 'bus-tie'),
      'tie',
    );
    assert.ok(edit.entries().length >= 2);
    await assert.rejects(async () =>
      ask('vscode.executeDocumentRenameProvider', document.uri, at(document, 'bus-tie'), 'step'),
    );
  },

  async 'knows who does whom, and finds names in the workspace'() {
    const document = await open('faulty.card');
    const [item] = await ask<vscode.CallHierarchyItem[]>(
      'vscode.prepareCallHierarchy',
      document.uri,
      at(document, 'do look', 4),
    );
    const calls = await ask<vscode.CallHierarchyIncomingCall[]>('vscode.provideIncomingCalls', item);
    assert.equal(calls[0]?.from.detail, 'Look round');
    const found = await ask<vscode.SymbolInformation[]>('vscode.executeWorkspaceSymbolProvider', 'bus-tie');
    assert.ok(found.some(({ name }) => name === 'bus-tie'));
  },

  async 'lets use lines follow a file that is renamed'() {
    const edit = new vscode.WorkspaceEdit();
    edit.renameFile(file('parts.card'), file('valves.card'));
    await vscode.workspace.applyEdit(edit);
    const document = await open('faulty.card');
    await until('the use line to follow', () => document.getText().includes('use "valves.card"'));
  },

  async 'follows what changes outside, and unsaved files'() {
    await vscode.workspace.fs.writeFile(
      file('outside.card'),
      new TextEncoder().encode('card c "C" { step set nothing on }'),
    );
    await until('findings of the new file', () => codes('outside.card').includes('name.unknown'));
    await vscode.workspace.fs.delete(file('outside.card'));
    await until('findings to go with the file', () => codes('outside.card').length === 0);
    const unsaved = await vscode.workspace.openTextDocument({
      language: 'cardwright',
      content: 'card c "C" { step set nothing on }',
    });
    await until('findings of the unsaved file', () => vscode.languages.getDiagnostics(unsaved.uri).length > 0);
  },

  async 'takes settings while it runs'() {
    await open('rinse.card');
    const settings = vscode.workspace.getConfiguration('cardwright');
    await settings.update('levels', { name: 'warning' }, vscode.ConfigurationTarget.Workspace);
    const broken = await vscode.workspace.openTextDocument({
      language: 'cardwright',
      content: 'card d "D" { step set nothing on }',
    });
    const severity = () =>
      vscode.languages.getDiagnostics(broken.uri).find(({ code }) => code === 'name.unknown')?.severity;
    await until('the level to change', () => severity() === vscode.DiagnosticSeverity.Warning);
    await settings.update('levels', undefined, vscode.ConfigurationTarget.Workspace);
    await until('the level to come back', () => severity() === vscode.DiagnosticSeverity.Error);
  },

  async 'completes the settings of a folder by their schema'() {
    await vscode.workspace.fs.writeFile(file('cardwright.json'), new TextEncoder().encode('{\n  \n}'));
    const document = await open('cardwright.json');
    const offered = await until('completion of settings', async () => {
      const list = await ask<vscode.CompletionList>(
        'vscode.executeCompletionItemProvider',
        document.uri,
        new vscode.Position(1, 2),
      );
      return (
        list.items.some(({ label }) =>
          String(typeof label === 'string' ? label : label.label).includes('secondUnits'),
        ) || undefined
      );
    });
    assert.ok(offered);
  },

  async 'has a task that checks the folder'() {
    const [task] = await vscode.tasks.fetchTasks({ type: 'cardwright' });
    assert.equal(task?.name, 'check');
    const ended = new Promise<number | undefined>((resolve) => {
      vscode.tasks.onDidEndTaskProcess(
        ({ execution, exitCode }) => execution.task.name === 'check' && resolve(exitCode),
      );
    });
    await vscode.tasks.executeTask(task as vscode.Task);
    assert.ok([0, 1].includes((await ended) ?? 2));
  },

  async 'mends slips of the pen in one go'() {
    const document = await open('slips.card');
    const range = new vscode.Range(0, 0, document.lineCount, 0);
    const kind = vscode.CodeActionKind.SourceFixAll.value;
    const action = await until('the fixes', async () => {
      const actions = await ask<vscode.CodeAction[]>('vscode.executeCodeActionProvider', document.uri, range, kind);
      return actions.find(({ edit }) => edit);
    });
    await vscode.workspace.applyEdit(action.edit as vscode.WorkspaceEdit);
    await until('the slips to go', () => !codes('slips.card').some((code) => String(code).startsWith('syntax.')));
  },

  async 'says over a card that it has changed since its release, and shows in what'() {
    const card = (text: string) =>
      `card look "Look" {\n  number "L-1"\n  revision "A"\n  crew fitter "Fitter"\n  step "${text}"\n}\n`;
    const release = {
      tool: { version: '1', workCopy: '' },
      card: 'look',
      file: 'look.card',
      number: 'L-1',
      revision: 'A',
      texts: { 'look.card': card('Look at the hose.') },
      figures: {},
      settings: {},
    };
    const page = `<script id="release" type="application/json">${JSON.stringify(release)}</script>`;
    await vscode.workspace.fs.writeFile(file('look.card'), new TextEncoder().encode(card('Look at the pump.')));
    await vscode.workspace.fs.createDirectory(file('released'));
    await vscode.workspace.fs.writeFile(file('released/look-A.html'), new TextEncoder().encode(page));
    const document = await open('look.card');
    await until('the lens', async () => {
      const lenses = await ask<vscode.CodeLens[]>('vscode.executeCodeLensProvider', document.uri, 10);
      return lenses.some(({ command }) => command?.title === 'released as A, changed since');
    });
    await vscode.commands.executeCommand('cardwright.compare', document.uri, 'release');
    await until('the comparison', () => tabs().includes('Comparison'));
    await vscode.commands.executeCommand('cardwright.report');
    await until('the report', () => tabs().includes('Report'));
    await vscode.commands.executeCommand('workbench.action.closeAllEditors');
  },

  async 'explains a finding'() {
    const page = await vscode.workspace.openTextDocument(vscode.Uri.parse('cardwright-help:/safety.rule.md'));
    assert.match(page.getText(), /^# .+[\s\S]*What to do/);
    await vscode.commands.executeCommand('cardwright.explain', 'safety.rule');
  },

  async 'goes on after the server was started again, and after it died'() {
    const document = await open('rinse.card');
    const works = () =>
      until(
        'an answer',
        async () =>
          (await ask<vscode.Hover[]>('vscode.executeHoverProvider', document.uri, at(document, 'bus-tie'))).length > 0,
      );
    await vscode.commands.executeCommand('cardwright.restart');
    await works();
    const edit = new vscode.WorkspaceEdit();
    edit.insert(document.uri, new vscode.Position(0, 0), '// not saved\n');
    await vscode.workspace.applyEdit(edit);
    process.kill(serverProcess(), 'SIGKILL');
    await works();
    assert.match(document.getText(), /^\/\/ not saved/);
  },
};

/** Our server is the child of this process that runs our bundle. */
function serverProcess(): number {
  const children = readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .filter((id) => {
      try {
        const isChild = readFileSync(`/proc/${id}/status`, 'utf8').includes(`PPid:\t${process.pid}\n`);
        return isChild && readFileSync(`/proc/${id}/cmdline`, 'utf8').includes('dist/start.cjs');
      } catch {
        return false;
      }
    });
  assert.equal(children.length, 1);
  return Number(children[0]);
}

/** The editor calls this; what it throws is the result. */
export async function run(): Promise<void> {
  const failed: string[] = [];
  for (const [name, test] of Object.entries(tests)) {
    try {
      await test();
      console.log(`passed: ${name}`);
    } catch (error) {
      failed.push(name);
      console.log(`failed: ${name}: ${error instanceof Error ? error.stack : String(error)}`);
    }
  }
  if (failed.length > 0) throw new Error(`${failed.length} failed`);
}
