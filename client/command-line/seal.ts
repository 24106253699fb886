/** The last line of a released card: a digest of all bytes before it, and where there is a key, a signature of them. */
import { createHash, createPrivateKey, createPublicKey, type KeyObject, sign, verify } from 'node:crypto';
import { largestText } from '../../shared/file-sizes.ts';
import { readBytes } from './files.ts';
import { readSshKey } from './ssh-key.ts';
import { CannotRun } from './surroundings.ts';

export interface Signature {
  /** SHA-256, as hex, of the public key. */
  readonly key: string;
  readonly bytes: Buffer;
}

export interface Sealed {
  /** What stands before the seal. */
  readonly page: Buffer;
  readonly isIntact: boolean;
  readonly signature?: Signature;
}

const line = /<!-- sealed sha256 ([0-9a-f]{64})(?: ed25519 ([0-9a-f]{64}) ([\w+/]{86}==))? -->\n$/;

export function sealed(page: string, key?: KeyObject): Buffer {
  const bytes = Buffer.from(page);
  const signed = key ? ` ed25519 ${keyName(createPublicKey(key))} ${sign(null, bytes, key).toString('base64')}` : '';
  return Buffer.concat([bytes, Buffer.from(`<!-- sealed sha256 ${digest(bytes)}${signed} -->\n`)]);
}

/** Undefined where a file has no seal at its end. */
export function readSeal(file: Buffer): Sealed | undefined {
  const found = line.exec(file.subarray(-400).toString('latin1'));
  if (!found) return undefined;
  const [whole, stated, key, signature] = found;
  const page = file.subarray(0, file.length - whole.length);
  return {
    page,
    isIntact: digest(page) === stated,
    ...(key !== undefined &&
      signature !== undefined && { signature: { key, bytes: Buffer.from(signature, 'base64') } }),
  };
}

export function isSignedWith(key: KeyObject, { page, signature }: Sealed): boolean {
  return signature !== undefined && verify(null, page, key, signature.bytes);
}

function digest(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('hex');
}

function keyName(key: KeyObject): string {
  return digest(key.export({ type: 'spki', format: 'der' }));
}

export const readPrivateKey = (path: string) => readKey(path, createPrivateKey, 'private');
export const readPublicKey = (path: string) => readKey(path, createPublicKey, 'public');

function readKey(path: string, read: (pem: Buffer) => KeyObject, sort: KeyObject['type']): KeyObject {
  let key: KeyObject;
  try {
    const bytes = readBytes(path, '', largestText, { isNamed: true });
    key = readSshKey(bytes.toString('latin1')) ?? read(bytes);
    if (key.type !== sort) throw new Error(`it is a ${key.type} key, and a ${sort} one is asked for`);
  } catch (error) {
    throw new CannotRun(`The key "${path}" cannot be read: ${(error as Error).message}. ${howToMake}`);
  }
  if (key.asymmetricKeyType === 'ed25519') return key;
  throw new CannotRun(`The key "${path}" is a key for ${key.asymmetricKeyType}, not Ed25519. ${howToMake}`);
}

const howToMake =
  'A pair is made by "openssl genpkey -algorithm ed25519 -out private.pem" and "openssl pkey -in private.pem -pubout -out public.pem", or by "ssh-keygen -t ed25519".';
