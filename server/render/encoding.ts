/** Bytes in the ways in which a web page carries them. */
import { sha256 } from '@noble/hashes/sha2.js';
import { hiddenEscaped, withoutHidden } from '../../shared/hidden.ts';
import { base64 } from '../../shared/packed.ts';

/** A source of a content security policy that allows exactly this inline script or style. */
export function policyHash(text: string): string {
  return `'sha256-${base64(sha256(new TextEncoder().encode(text)))}'`;
}

/** A CSS string with these characters and no others, whatever stands around it. */
export function cssString(text: string): string {
  const escaped = [...withoutHidden(text)].map((character) =>
    /[\p{L}\p{N} ]/u.test(character) ? character : `\\${character.codePointAt(0)?.toString(16)} `,
  );
  return `"${escaped.join('')}"`;
}

/** JSON that is safe inside a `script` element: nothing in it can end the element or begin a comment, or is hidden. */
export function scriptJson(value: unknown): string {
  return hiddenEscaped(JSON.stringify(value)).replaceAll('<', '\\u003c');
}

/** A script that means the same and cannot end its own element: what would do so can only stand in a string or a pattern. */
export function scriptText(script: string): string {
  return script.replaceAll(/<(\/script|!--)/gi, '\\x3c$1');
}
