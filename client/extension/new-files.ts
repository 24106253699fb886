/** "New card" and "new equipment": ask for what only the writer knows, and write the rest. */
import * as vscode from 'vscode';
import { dayOf } from '../../shared/day.ts';

/** The page of the walkthrough, where these commands may begin, takes the focus while it draws itself again. */
const ignoreFocusOut = true;

export async function newCard(): Promise<void> {
  const title = await askFor('What is the job? It becomes the title of the card.', 'Rinse the left compressor');
  if (!title) return;
  const equipment = await askForEquipment();
  if (!equipment) return;
  const use = equipment.path ? `use "${equipment.path}"\n\n` : '';
  const name = shortNameOf(title);
  const text = `${use}card ${name} "${quoted(title)}" {
  number   "${initialsOf(name)}-01"
  revision "A" on ${dayOf(Date.now())}
  crew     mechanic "Mechanic"

  stage "Prepare" {
    step "|What is done first.|"
  }
}
`;
  await create(`${name}.card`, text);
}

export async function newEquipment(): Promise<void> {
  const title = await askFor('Which machine or plant does the file describe?', 'Pump house');
  if (!title) return;
  const text = `// ${title}: what it is made of, for the cards that use this file.
// The kinds come with Cardwright: valve, breaker, plug, cover and the like.
use "std:kinds"

item first-valve : valve "the first valve" at "|where it is|" normally closed
`;
  await create(`${shortNameOf(title)}.card`, text);
}

async function askFor(prompt: string, placeHolder: string): Promise<string | undefined> {
  const validateInput = (value: string) => (nameOf(value) === '' ? 'Write at least one word.' : undefined);
  return vscode.window.showInputBox({ prompt, placeHolder, validateInput, ignoreFocusOut });
}

/** The equipment file to `use`; no path where there is none yet, undefined where the writer gave up. */
async function askForEquipment(): Promise<{ readonly path?: string } | undefined> {
  const folder = folderForNewFiles();
  const files = folder ? await vscode.workspace.findFiles('**/*.card', undefined, 200) : [];
  if (files.length === 0) return { path: 'std:kinds' };
  const none = { label: 'None yet', description: 'the kinds that come with Cardwright only', path: 'std:kinds' };
  const choices = files
    .map((uri) => ({
      label: relative(folder as vscode.Uri, uri),
      description: '',
      path: relative(folder as vscode.Uri, uri),
    }))
    .sort((a, b) => a.label.localeCompare(b.label));
  const placeHolder = 'Which file says what the machine is?';
  return vscode.window.showQuickPick([...choices, none], { placeHolder, ignoreFocusOut });
}

/** Beside the file that is open, or in the first folder of the workspace. */
function folderForNewFiles(): vscode.Uri | undefined {
  const open = vscode.window.activeTextEditor?.document;
  if (open?.languageId === 'cardwright' && !open.isUntitled) return vscode.Uri.joinPath(open.uri, '..');
  return vscode.workspace.workspaceFolders?.[0]?.uri;
}

/** The way from a folder to a file, as `use` writes it. */
function relative(folder: vscode.Uri, file: vscode.Uri): string {
  const from = folder.path.split('/').filter(Boolean);
  const to = file.path.split('/').filter(Boolean);
  let shared = 0;
  while (shared < from.length && from[shared] === to[shared]) shared++;
  return [...from.slice(shared).map(() => '..'), ...to.slice(shared)].join('/');
}

/** A name of the language made of a title: `Rinse the left compressor` gives `rinse-the-left-compressor`. */
function nameOf(title: string): string {
  const words = title.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  return words.join('-').replace(/^[^\p{L}]+/u, '');
}

const littleWords = new Set([
  'a',
  'an',
  'the',
  'of',
  'to',
  'at',
  'in',
  'on',
  'for',
  'from',
  'and',
  'with',
  'after',
  'before',
]);

/** What a person would call the file: the first words that carry meaning. */
function shortNameOf(title: string): string {
  const words = nameOf(title).split('-');
  const telling = words.filter((word) => !littleWords.has(word));
  return (telling.length > 0 ? telling : words).slice(0, 3).join('-');
}

function initialsOf(name: string): string {
  return name
    .split('-')
    .map((word) => [...word][0])
    .join('')
    .toUpperCase();
}

function quoted(text: string): string {
  return text.replaceAll('\\', '\\\\').replaceAll('"', '\\"').replaceAll('{', '{{');
}

/** Writes the file, or opens it unsaved where no folder is open; what stands between the `|` is selected, to be written over. */
async function create(fileName: string, template: string): Promise<void> {
  const [before = '', selected = '', after = ''] = template.split('|');
  const text = before + selected + after;
  const folder = folderForNewFiles();
  const document = folder
    ? await writeNew(folder, fileName, text)
    : await vscode.workspace.openTextDocument({ language: 'cardwright', content: text });
  // Not over the preview, which may have the keyboard.
  const viewColumn = vscode.window.visibleTextEditors[0]?.viewColumn ?? vscode.ViewColumn.One;
  const editor = await vscode.window.showTextDocument(document, { viewColumn });
  const end = before.length + selected.length;
  editor.selection = new vscode.Selection(document.positionAt(before.length), document.positionAt(end));
}

async function writeNew(folder: vscode.Uri, fileName: string, text: string): Promise<vscode.TextDocument> {
  const stem = fileName.replace(/\.card$/, '');
  let uri = vscode.Uri.joinPath(folder, fileName);
  for (let count = 2; await exists(uri); count++) uri = vscode.Uri.joinPath(folder, `${stem}-${count}.card`);
  await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  return vscode.workspace.openTextDocument(uri);
}

async function exists(uri: vscode.Uri): Promise<boolean> {
  return vscode.workspace.fs.stat(uri).then(
    () => true,
    () => false,
  );
}
