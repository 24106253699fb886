/** The server as a process: speaks over stdio or Node's own channel, and reads cards from the disk. */
import { readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { glob } from 'tinyglobby';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import type { ReadCards } from '../../shared/protocol.ts';
import type { Disk } from './disk.ts';
import { serve } from './server.ts';

const disk: Disk = {
  async list(folders) {
    const cards = await Promise.all(folders.filter((folder) => folder.startsWith('file:')).map(listFolder));
    return cards.flat();
  },
  read: (uri) => readFile(uri)?.toString('utf8'),
  figures: { read: readFile },
};

function readFile(uri: string): Buffer | undefined {
  if (!uri.startsWith('file:')) return undefined;
  try {
    return readFileSync(fileURLToPath(uri));
  } catch {
    return undefined;
  }
}

async function listFolder(folder: string): Promise<ReadCards> {
  const options = { cwd: fileURLToPath(folder), absolute: true, ignore: ['**/node_modules/**', '**/.git/**'] };
  const paths = await glob(['**/*.card', '**/cardwright.json'], options);
  return paths.flatMap((path) => {
    const uri = pathToFileURL(path).toString();
    const text = disk.read(uri);
    return text === undefined ? [] : [{ uri, text }];
  });
}

serve(createConnection(ProposedFeatures.all), disk);
