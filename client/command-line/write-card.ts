/** Where cards are written, and what they may replace. */
import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { windowsReservedNameRegex } from 'filename-reserved-regex';
import { CannotRun } from './surroundings.ts';
import { refuseToReplace, writeWhole } from './write-file.ts';

/**
 * Names one file after another. Cards of several files may have one name: then a number makes the second another file, also where
 * capitals make no difference. So it does for a name that another system keeps for a device.
 */
export function fileNames(): (stem: string) => string {
  const taken = new Set<string>();
  return (stem) => {
    let name = `${stem}.html`;
    for (let count = 2; taken.has(name.toLowerCase()) || windowsReservedNameRegex().test(name); count++)
      name = `${stem}-${count}.html`;
    taken.add(name.toLowerCase());
    return name;
  };
}

export function writeCard(path: string, html: string | Uint8Array): string {
  try {
    mkdirSync(dirname(path), { recursive: true });
  } catch (error) {
    throw new CannotRun(`The card cannot be written, its folder cannot be made: ${(error as Error).message}`);
  }
  refuseToReplace(path, 'card', 'is no exported card. Move it away, or name another folder with --to.');
  writeWhole(path, html);
  return path;
}
