import { sha256 } from '@noble/hashes/sha2.js';
import { base64 } from '../../../shared/packed.ts';

/** Enough of the hash that two cards on one device never share it. */
const length = 16;

/** Of exactly this content: any change of the card gives another. */
export function jobId(content: unknown): string {
  return base64(sha256(new TextEncoder().encode(JSON.stringify(content)))).slice(0, length);
}
