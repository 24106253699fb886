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

/** As if its writer had chosen this language for the card's fixed words. */
const spoken = (text: string | undefined, language: string | undefined) =>
  language === undefined ? text : text?.replace(/^ {2}number .*$/m, `$&\n  language "${language}"`);

export function sampleCards(
  world: string,
  workCopy: string,
  settings?: Settings,
  language?: string,
): readonly Rendered[] {
  const folder = join(process.cwd(), 'samples', world);
  const provider = {
    readText: (file: string) =>
      spoken(
        read(file, (path) => readFileSync(path, 'utf8')),
        language,
      ),
    readBytes: (file: string) => read(file, (path) => new Uint8Array(readFileSync(path))),
  };
  const api = openWorkspace(provider, settings && (() => settings));
  return readdirSync(folder)
    .filter((name) => name.endsWith('.card'))
    .flatMap((name) => api.render(join(folder, name), { workCopy }));
}
