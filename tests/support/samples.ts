/** The cards of the samples, as they are exported. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkspace, type Rendered } from '../../server/api.ts';
import type { Settings } from '../../shared/settings.ts';

const read = <Content>(file: string, as: (file: string) => Content): Content | undefined => {
  try {
    return as(file);
  } catch {
    return undefined;
  }
};

export function sampleCards(world: string, workCopy: string, settings?: Settings): readonly Rendered[] {
  const folder = join(process.cwd(), 'samples', world);
  const provider = {
    readText: (file: string) => read(file, (path) => readFileSync(path, 'utf8')),
    readBytes: (file: string) => read(file, (path) => new Uint8Array(readFileSync(path))),
  };
  const api = openWorkspace(provider, settings && (() => settings));
  return readdirSync(folder)
    .filter((name) => name.endsWith('.card'))
    .flatMap((name) => api.render(join(folder, name), { workCopy }));
}
