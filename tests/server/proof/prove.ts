import { pathInWords } from '../../../server/findings/support/paths.ts';
import type { Break } from '../../../server/proof/break.ts';
import type { Proof } from '../../../server/proof/facts.ts';
import type { Item } from '../../../shared/card.ts';
import type { Place } from '../../../shared/text.ts';
import { mainFile, openText } from '../../support/check.ts';

export const kinds = `
kind valve   { closed "Close {}", open "Open {}" }
kind breaker { closed "Close {}", pulled "Pull {}" }
kind starter { off "Release {}", cranking "Hold {}" }
kind lamp seen { dark, lit }
`;

export interface Proved {
  readonly proof: Proof;
  /** What the equipment of the card has. */
  readonly items: readonly Item[];
  /** The text that a place covers. */
  readonly at: (place: Place) => string;
}

/** The proof of the last card of a text. Throws where the text has slips. */
export function proofOf(text: string, stateBound = 20_000): Proved {
  const snapshot = openText(text).workspace.snapshot(mainFile);
  const card = snapshot?.bound.cards.at(-1);
  if (!snapshot || !card) throw new Error('no card in the text');
  const slips = [...snapshot.parsed.problems, ...snapshot.bound.problems.filter(({ type }) => type !== 'unused')];
  if (slips.length > 0) throw new Error(JSON.stringify(slips[0]));
  return {
    proof: snapshot.proof(card, { stateBound }),
    items: card.equipment.items,
    at: ({ start, end }) => text.slice(start, end),
  };
}

/** The path of a break as a finding tells it. */
export function pathTold(fact: Break | undefined): string[] {
  return pathInWords(fact?.path ?? []).map(({ text }) => text);
}

/** A card with a head. */
export function card(body: string, fields = ''): string {
  return `card trial "A trial" { number "T-1" revision "A" crew one "One", two "Two", three "Three" ${fields}\n${body}\n}`;
}
