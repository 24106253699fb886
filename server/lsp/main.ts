/** The server as a process: speaks over stdio or Node's own channel, and reads cards from the disk. */
import { type Dirent, readdir, renameSync } from 'node:fs';
import { constants, type FileHandle, lstat, open, realpath } from 'node:fs/promises';
import { basename, dirname, isAbsolute, join, relative, sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { setFlagsFromString, startupSnapshot } from 'node:v8';
import { type FileSystemAdapter, glob } from 'tinyglobby';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { largestText } from '../../shared/file-sizes.ts';
import { heapInTrial, keptHeap } from '../../shared/kept.ts';
import type { ReadCards, ReadFile } from '../../shared/protocol.ts';
import type { Disk } from './disk.ts';
import { serve } from './server.ts';
import { warmUp } from './warm-up.ts';

const disk: Disk = {
  async list(folders) {
    const cards: ReadCards[] = [];
    for (const folder of folders.filter(isOnDisk)) cards.push(await listFolder(folder));
    return cards.flat();
  },
  async read({ uri, folders, largest }) {
    if (!isOnDisk(uri)) return null;
    try {
      return await readRegular(await pathInside(uri, folders), largest);
    } catch {
      return null;
    }
  },
};

const settingsName = 'cardwright.json';

const isOnDisk = (uri: string) => uri.startsWith('file:');

/** Where a file really lies. Throws where that is in none of the folders. */
async function pathInside(uri: string, folders: ReadFile['folders']): Promise<string> {
  const path = await realpath(fileURLToPath(uri));
  for (const folder of folders.filter(isOnDisk)) {
    const root = await realpath(fileURLToPath(folder)).catch(() => undefined);
    if (root !== undefined && isBelow(path, root)) return path;
  }
  throw new Error('It lies outside.');
}

function isBelow(path: string, root: string): boolean {
  const way = relative(root, path);
  return !isAbsolute(way) && way.split(sep)[0] !== '..';
}

/** A pipe would be waited for, and a device has no end: it is opened without waiting and looked at before it is read. */
async function readRegular(path: string, largest: number): Promise<Uint8Array | null> {
  const handle = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const stats = await handle.stat();
    return stats.isFile() && stats.size <= largest ? await readUpTo(handle, stats.size) : null;
  } finally {
    await handle.close();
  }
}

/** What a file gains while it is read is left. */
async function readUpTo(handle: FileHandle, size: number): Promise<Uint8Array> {
  const content = Buffer.alloc(size);
  for (let at = 0; at < size; ) {
    const { bytesRead } = await handle.read(content, at, size - at);
    if (bytesRead === 0) return content.subarray(0, at);
    at += bytesRead;
  }
  return content;
}

/**
 * Links are not followed on the way: one may lead out of the folder, or in a circle, or to a card that is there already. Settings
 * that are a link are read or told, as whoever wrote them means them to hold.
 */
async function listFolder(folder: string): Promise<ReadCards> {
  const cwd = fileURLToPath(folder);
  const ignore = ['**/node_modules/**', '**/.git/**'];
  const options = { cwd, absolute: true, followSymbolicLinks: false, ignore, fs: linkedSettings };
  const paths = await glob(['**/*.card', '**/*.words', '**/cardwright.json'], options);
  const cards: { uri: string; text: string | null }[] = [];
  for (const [path, inside] of [...paths.map((path) => [path, folder] as const), ...settingsAbove(cwd)]) {
    const uri = pathToFileURL(path).toString();
    const content = await disk.read({ uri, folders: [inside], largest: largestText });
    if (content) cards.push({ uri, text: new TextDecoder().decode(content) });
    else if (basename(path) === settingsName && (await isThere(path))) cards.push({ uri, text: null });
  }
  return cards;
}

type Listed = (error: NodeJS.ErrnoException | null, entries: Dirent[]) => void;

const linkedSettings: FileSystemAdapter = {
  readdir: ((path: string, options: { withFileTypes: true }, done: Listed) =>
    readdir(path, options, (error, entries = []) => {
      for (const entry of entries) if (entry.name === settingsName) entry.isFile = () => !entry.isDirectory();
      done(error, entries);
    })) as typeof readdir,
};

/** A link that leads nowhere is there too. */
function isThere(path: string): Promise<boolean> {
  return lstat(path).then(
    () => true,
    () => false,
  );
}

/** Where settings may lie that hold for a folder because they hold for one above it, as for the command line; each with its folder. */
function settingsAbove(folder: string): (readonly [path: string, folder: string])[] {
  const above = dirname(folder);
  if (above === folder) return [];
  return [[join(above, settingsName), pathToFileURL(above).toString()], ...settingsAbove(above)];
}

const start = () => serve(createConnection(ProposedFeatures.all), disk);

/** Node goes on here in a new process, with all that was in memory when the snapshot was built. */
function startFromHeap(): void {
  const [, , kept = ''] = process.argv;
  try {
    renameSync(heapInTrial(kept), keptHeap(kept));
  } catch {}
  start();
}

if (startupSnapshot.isBuildingSnapshot()) {
  // A snapshot cannot hold an expression's machine code, and is taken only by a Node with the same flags.
  setFlagsFromString('--regexp-tier-up-ticks=1000000000');
  warmUp();
  setFlagsFromString('--regexp-tier-up-ticks=1');
  startupSnapshot.setDeserializeMainFunction(startFromHeap);
} else start();
