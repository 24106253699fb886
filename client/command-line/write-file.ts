/** Writes files so that a slip, a full disk or a killed process leaves the old text or the new one, never half of one. */
import {
  chmodSync,
  chownSync,
  closeSync,
  fsyncSync,
  lstatSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { isMadeHere, type MadePage } from '../../shared/made-by.ts';
import { CannotRun } from './surroundings.ts';

/** A page replaces one of its sort that was written before, and nothing else. */
export function refuseToReplace(path: string, sort: MadePage, otherwise: string): void {
  const stats = lstatSync(path, { throwIfNoEntry: false });
  if (!stats || (stats.isFile() && isMadeHere(readFileSync(path, 'utf8'), sort))) return;
  throw new CannotRun(`"${path}" is there already and ${otherwise}`);
}

/**
 * Writes beside the file and renames. A link stays a link: the file that it leads to is written. Mode and owner stay.
 * (Packages for this write once and do not look whether the disk took all of it.)
 */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const target = linkTarget(path);
  const beside = join(dirname(target), `.${basename(target)}.${process.pid}`);
  try {
    const before = lstatSync(target, { throwIfNoEntry: false });
    writeAndSync(beside, content);
    if (before) likeBefore(beside, before);
    renameSync(beside, target);
  } catch (error) {
    remove(beside);
    throw new CannotRun(`"${path}" cannot be written, and is as it was: ${reasonOf(error as NodeJS.ErrnoException)}`);
  }
}

function likeBefore(path: string, { mode, uid, gid }: Stats): void {
  try {
    chownSync(path, uid, gid);
  } catch {
    // Only an administrator may give a file to somebody else.
  }
  chmodSync(path, mode & 0o7777);
}

function remove(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // Why it could not be written is told.
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
