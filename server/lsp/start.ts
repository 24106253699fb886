/**
 * Starts the server, `start.cjs FOLDER`, from what its code was compiled to when it was started before. That is kept in a folder of the
 * extension's own and nowhere else, as whoever can write there can make the server do anything.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import Module, { createRequire } from 'node:module';
import { dirname, isAbsolute, join } from 'node:path';
import { Script } from 'node:vm';

/** Milliseconds after which most of what is used again and again has been compiled. */
const settledAfter = 5_000;

const digestLength = 32;
const digestOf = (content: string | Uint8Array): Buffer => createHash('sha256').update(content).digest();

/** What is kept under a name, where it is whole. */
function kept(path: string): Buffer | undefined {
  try {
    const content = readFileSync(path);
    const compiled = content.subarray(digestLength);
    return digestOf(compiled).equals(content.subarray(0, digestLength)) ? compiled : undefined;
  } catch {
    return undefined;
  }
}

const ownName = /^(?:[\da-f]{64}-.*|\d+\.new)$/;

/** Instead of what was kept of other versions. A folder that cannot be written costs the time that it would save, and nothing else. */
function keep(folder: string, name: string, compiled: Buffer): void {
  try {
    mkdirSync(folder, { recursive: true });
    for (const other of readdirSync(folder)) if (ownName.test(other)) rmSync(join(folder, other));
    const beside = join(folder, `${process.pid}.new`);
    writeFileSync(beside, Buffer.concat([digestOf(compiled), compiled]));
    renameSync(beside, join(folder, name));
  } catch {}
}

function start(file: string, folder: string): void {
  const code = readFileSync(file, 'utf8');
  const name = `${digestOf(code).toString('hex')}-${process.versions.v8}`;
  const cachedData = kept(join(folder, name));
  const script = new Script(Module.wrap(code), { filename: file, ...(cachedData && { cachedData }) });
  if (isAbsolute(folder) && script.cachedDataRejected !== false)
    setTimeout(() => keep(folder, name, script.createCachedData()), settledAfter).unref();
  script.runInThisContext()({}, createRequire(file), {}, file, dirname(file));
}

const [, self = '', folder = ''] = process.argv;
start(join(dirname(self), 'server.cjs'), folder);
