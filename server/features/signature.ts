/** What a `do` must be given, while its arguments are written. */
import { lex } from '../../grammar/tokens.ts';
import type { Snapshot } from '../snapshot.ts';

export interface Signature {
  readonly name: string;
  readonly title: string;
  readonly parameters: readonly { readonly name: string; readonly kind: string }[];
  /** Which of them is being written. */
  readonly active: number;
}

/** @param procedures of all files that are in reach. */
export function signatureAt(
  { text }: Snapshot,
  offset: number,
  procedures: readonly Omit<Signature, 'active'>[],
): Signature | undefined {
  const words = lex(text.slice(0, offset)).tokens.map(({ image }) => image);
  const open = words.lastIndexOf('(');
  if (open < 2 || words[open - 2] !== 'do' || words.indexOf(')', open) >= 0) return undefined;
  const found = procedures.find(({ name }) => name === words[open - 1]);
  const active = words.slice(open).filter((word) => word === ',').length;
  return found && { ...found, active };
}
