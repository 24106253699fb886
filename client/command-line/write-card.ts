/** Where cards are written, and what they may replace. */
import { lstatSync, mkdirSync, readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { windowsReservedNameRegex } from 'filename-reserved-regex';
import { CannotRun } from './surroundings.ts';
import { writeWhole } from './write-file.ts';

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
  refuseToReplace(path);
  writeWhole(path, html);
  return path;
}

/** Replaces a card that was exported before, and nothing else. */
function refuseToReplace(path: string): void {
  const stats = lstatSync(path, { throwIfNoEntry: false });
  if (!stats) return;
  if (stats.isFile() && readFileSync(path, 'utf8').includes(madeByUs)) return;
  throw new CannotRun(
    `"${path}" is there already and is no exported card. Move it away, or name another folder with --to.`,
  );
}

const madeByUs = '<meta name="generator" content="Cardwright">';
