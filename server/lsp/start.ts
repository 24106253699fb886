/**
 * Starts the server, `start.cjs NAME`, from what its code was compiled to when it was started before, and makes the heap from which Node
 * may start it the next time. Both are kept under the name, which the extension gives: it lies in a folder of the extension's own, as
 * whoever can write there can make the server do anything, and tells one build of the server, and of Node, from every other.
 */
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import Module, { createRequire } from 'node:module';
import { constants, setPriority } from 'node:os';
import { basename, dirname, isAbsolute, join } from 'node:path';
import { Script } from 'node:vm';
import { heapInTrial, keptCode, keptHeap, withHeap } from '../../shared/kept.ts';

/** What this script is asked for to make the heap, and nothing else. */
const makesHeap = '--make-heap';

const serverBeside = (self: string): string => join(dirname(self), 'server.cjs');

/** Milliseconds after which most of what is used again and again has been compiled. */
const settledAfter = 5_000;

const digestLength = 32;
const digestOf = (code: string, compiled: Uint8Array): Buffer =>
  createHash('sha256').update(code).update(compiled).digest();

/** What the code was compiled to, where that is whole. */
function compiledBefore(code: string, name: string): Buffer | undefined {
  try {
    const content = readFileSync(keptCode(name));
    const compiled = content.subarray(digestLength);
    return digestOf(code, compiled).equals(content.subarray(0, digestLength)) ? compiled : undefined;
  } catch {
    return undefined;
  }
}

const ownName = /^[\da-f]{64}-/;

/** Makes room for what is kept under a name: what other versions kept goes, and what was not written to its end. */
function clearFor(name: string): void {
  const folder = dirname(name);
  mkdirSync(folder, { recursive: true });
  const staying = [keptCode, keptHeap, heapInTrial].map((kept) => basename(kept(name)));
  for (const other of readdirSync(folder))
    if (ownName.test(other) && !staying.includes(other)) rmSync(join(folder, other));
}

/** What is written beside it first is never seen half. */
const beside = (name: string) => `${name}.${process.pid}.new`;

function keepCode(code: string, compiled: Buffer, name: string): void {
  const written = beside(keptCode(name));
  writeFileSync(written, Buffer.concat([digestOf(code, compiled), compiled]));
  renameSync(written, keptCode(name));
}

/** Another process makes it, which gives way to all others and outlives this one. */
function keepHeap(self: string, name: string): void {
  const maker = spawn(process.execPath, [self, name, makesHeap], {
    stdio: 'ignore',
    detached: true,
    windowsHide: true,
  });
  maker.on('error', () => {});
  maker.unref();
}

function makeHeap(file: string, name: string): void {
  setPriority(constants.priority.PRIORITY_LOW);
  const written = beside(keptHeap(name));
  const { status } = spawnSync(process.execPath, [...withHeap(written), '--build-snapshot', file], {
    windowsHide: true,
  });
  if (status === 0) renameSync(written, keptHeap(name));
  else rmSync(written, { force: true });
}

/** The Node of an editor that is a program of its own starts from no heap. */
const startsFromHeaps = process.versions.electron === undefined;

/** A folder that cannot be written costs the time that it would save, and nothing else. */
function keep(self: string, code: string, script: Script, name: string): void {
  try {
    clearFor(name);
    if (script.cachedDataRejected !== false) keepCode(code, script.createCachedData(), name);
    if (startsFromHeaps && !existsSync(keptHeap(name))) keepHeap(self, name);
  } catch {}
}

function start(self: string, name: string): void {
  const file = serverBeside(self);
  const code = readFileSync(file, 'utf8');
  const cachedData = compiledBefore(code, name);
  const script = new Script(Module.wrap(code), { filename: file, ...(cachedData && { cachedData }) });
  if (isAbsolute(name)) setTimeout(() => keep(self, code, script, name), settledAfter).unref();
  script.runInThisContext()({}, createRequire(file), {}, file, dirname(file));
}

const [, self = '', name = '', task] = process.argv;
if (task === makesHeap) makeHeap(serverBeside(self), name);
else start(self, name);
