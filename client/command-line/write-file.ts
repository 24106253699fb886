/** Writes files so that a slip, a full disk or a killed process leaves the old text or the new one, never half of one. */
import {
  chmodSync,
  closeSync,
  fsyncSync,
  lstatSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { CannotRun } from './surroundings.ts';

/**
 * Writes beside the file and renames. A link stays a link: the file that it leads to is written. The mode stays.
 * (Packages for this write once and do not look whether the disk took all of it.)
 */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const target = linkTarget(path);
  const beside = join(dirname(target), `.${basename(target)}.${process.pid}`);
  try {
    const mode = lstatSync(target, { throwIfNoEntry: false })?.mode;
    writeAndSync(beside, content);
    if (mode !== undefined) chmodSync(beside, mode & 0o7777);
    renameSync(beside, target);
  } catch (error) {
    rmSync(beside, { force: true });
    throw new CannotRun(`"${path}" cannot be written, and is as it was: ${reasonOf(error as NodeJS.ErrnoException)}`);
  }
}

function writeAndSync(path: string, content: string | Uint8Array): void {
  const file = openSync(path, 'wx');
  try {
    writeFileSync(file, content);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

function linkTarget(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
}

const reasons: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full.',
  EDQUOT: 'your share of the disk is full.',
  EROFS: 'the disk is read-only.',
  EACCES: 'you may not write in its folder.',
  EPERM: 'you may not write in its folder.',
  ENOTDIR: 'a part of its path is a file, not a folder.',
};

function reasonOf({ code, message }: NodeJS.ErrnoException): string {
  return reasons[code ?? ''] ?? message;
}
