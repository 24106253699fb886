/** The engine, asked through its doors, and its answers in the terms of the oracle. */

import { openWorkspace } from '../../server/api.ts';
import type { Proof } from '../../server/proof/facts.ts';
import type { Card } from '../../shared/card.ts';
import type { Finding } from '../../shared/finding.ts';
import { defaultSettings } from '../../shared/settings.ts';
import type { EngineSays } from './compare.ts';
import { NOT_ASSUMED } from './verdicts.ts';

const FILE = 'trial.card';

/** All findings of one text; other files that it uses come from `others`. */
export function findingsOf(text: string, others: ReadonlyMap<string, string> = new Map()): readonly Finding[] {
  return open(text, others).check([FILE]).findings;
}

export function codesOf(text: string): readonly string[] {
  return findingsOf(text).map((finding) => finding.code);
}

function open(text: string, others: ReadonlyMap<string, string>) {
  return openWorkspace({ readText: (file) => (file === FILE ? text : others.get(file)) });
}

/** The one card of a text, bound. Throws where the text has slips, since its card then says less than it seems. */
export function bindCard(text: string): Card {
  return bound(text, new Map()).card;
}

function bound(text: string, others: ReadonlyMap<string, string>) {
  const snapshot = open(text, others).workspace.snapshot(FILE);
  const [card] = snapshot?.bound.cards ?? [];
  if (!snapshot || !card) throw new Error('there is no card in the text');
  const [slip] = snapshot.parsed.problems;
  if (slip) throw new Error(`${slip.message}\n${text}`);
  const problems = snapshot.bound.problems.filter(({ type }) => type !== 'unused');
  if (problems.length > 0)
    throw new Error(
      `${problems.map(({ type, place }) => `${type}: ${text.slice(place.start, place.end)}`).join('\n')}\n${text}`,
    );
  return { snapshot, card };
}

export function proofOf(text: string): { readonly card: Card; readonly proof: Proof } {
  const { snapshot, card } = bound(text, new Map());
  return { card, proof: snapshot.proof(card, defaultSettings) };
}

/** The card of a text, and what the engine says of it. */
export function ask(
  text: string,
  others: ReadonlyMap<string, string> = new Map(),
): { readonly card: Card; readonly says: EngineSays; readonly explored: number } {
  const { snapshot, card } = bound(text, others);
  const proof = snapshot.proof(card, defaultSettings);
  return { card, says: inTermsOfTheOracle(proof), explored: proof.explored };
}

function inTermsOfTheOracle(proof: Proof): EngineSays {
  return {
    broken: [
      ...proof.rules.map(({ place, rule }) => ({ code: 'safety.rule', place, subject: rule.name })),
      ...proof.hazards.map(({ place, hazard, late }) => ({
        code: late ? 'safety.warning-late' : 'safety.warning-missing',
        place,
        subject: hazard.name,
      })),
      ...proof.unprotected.map(({ place, hazard }) => ({ code: 'safety.unprotected', place, subject: hazard.name })),
      ...proof.leftChanged.map(({ place, item }) => ({ code: 'safety.left-changed', place, subject: item.name })),
      ...proof.unsafeStops.map(({ place, hazard }) => ({ code: 'safety.unsafe-stop', place, subject: hazard.name })),
      ...proof.notAssumed.map(({ place, item }) => ({ code: NOT_ASSUMED, place, subject: item.name })),
      ...proof.notFed.map(({ place, item }) => ({ code: 'supply.not-fed', place, subject: item.name })),
      ...proof.duties.map(({ place, item, sort }) => ({ code: `duty.${sort}`, place, subject: item.name })),
    ],
    unreachable: proof.unreachable.map(({ place }) => place),
    idle: proof.noChange.map(({ place }) => place),
    asked: proof.branches.map(({ place, passes, fails }) => ({ place, passes, fails })),
  };
}
