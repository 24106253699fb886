/** What a report says of each card, gathered from its findings and its proof. */
import type { Card, Rule } from '../../shared/card.ts';
import { termsIn } from '../../shared/conditions.ts';
import type { Finding } from '../../shared/finding.ts';
import { type Coverage, coverageOf, followedItems } from '../coverage.ts';
import { loweredChecks } from '../levels.ts';
import type { Proof } from '../proof/facts.ts';
import type { AcceptedDeviation } from '../render/input.ts';
import { type CardContext, renderInput } from '../render-input.ts';

/** How a card stands to a rule of its equipment. `untouched`: no step changes an item that the rule begins with. */
export type RuleState = 'holds' | 'untouched' | 'accepted' | 'broken' | 'not proved';

export interface ReportedCard {
  readonly card: Card;
  readonly file: string;
  /** The other files that it was made from, without the shipped rulebooks. */
  readonly uses: readonly string[];
  /** Those of this card, and of what it uses. */
  readonly findings: readonly Finding[];
  readonly accepted: readonly AcceptedDeviation[];
  readonly lowered: readonly string[];
  readonly coverage: Coverage;
  /** Absent where the card could not be proved. */
  readonly proof?: Pick<Proof, 'configurations' | 'time'>;
  readonly rules: ReadonlyMap<Rule, RuleState>;
}

export function reportedCard(context: CardContext): ReportedCard {
  const { card, snapshot, settings } = context;
  const { findings, accepted } = renderInput(context, {});
  const proof = proofOf(context);
  return {
    card,
    file: snapshot.file,
    uses: snapshot.uses,
    findings,
    accepted,
    lowered: loweredChecks(settings),
    coverage: coverageOf(card),
    ...(proof && { proof: { configurations: proof.configurations, time: proof.time } }),
    rules: new Map(card.equipment.rules.map((rule) => [rule, stateOf(rule, card, findings, proof)])),
  };
}

function proofOf({ snapshot, card, settings }: CardContext): Proof | undefined {
  try {
    return snapshot.proof(card, settings);
  } catch {
    return undefined;
  }
}

function stateOf(rule: Rule, card: Card, findings: readonly Finding[], proof: Proof | undefined): RuleState {
  if (!proof) return 'not proved';
  if (proof.rules.some((fact) => fact.rule === rule)) {
    const stands = findings.some((finding) => finding.code === 'safety.rule' && finding.rule === rule.name);
    return stands ? 'broken' : 'accepted';
  }
  return isTouched(rule, card) ? 'holds' : 'untouched';
}

function isTouched({ trigger, condition }: Rule, card: Card): boolean {
  if (trigger === 'at end' || trigger === 'at stop' || condition === undefined) return true;
  const followed = followedItems(card);
  const assumed = card.assumes.map(({ item }) => item);
  return [...termsIn(condition)].some((term) => {
    if (term.type === 'state')
      return followed.has(term.item) || assumed.includes(term.item) || term.item.may.length > 0;
    // What a gauge shows and what a supply feeds is not told by the items that are set.
    return term.type === 'bound' || term.type === 'limit' || term.type === 'reaches' || term.type === 'open';
  });
}
