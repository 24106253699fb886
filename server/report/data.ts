/** What a report says of each card, gathered from its findings and its proof. */
import type { Card, Rule } from '../../shared/card.ts';
import { termsIn } from '../../shared/conditions.ts';
import type { Finding } from '../../shared/finding.ts';
import { type Coverage, coverageOf, followedItems } from '../coverage.ts';
import { loweredChecks } from '../levels.ts';
import type { Proof } from '../proof/facts.ts';
import type { AcceptedDeviation } from '../render/input.ts';
import { type Traced, tracedIn } from '../render/sources.ts';
import { type CardContext, renderInput } from '../render-input.ts';

/** How a card stands to a rule of its equipment. `untouched`: no step changes an item that the rule begins with. */
export type RuleState = 'holds' | 'untouched' | 'accepted' | 'broken' | 'not proved';

/** Plain data, so that of a folder of any size only what is told of each card is kept. */
export interface ReportedCard extends Pick<Card, 'name' | 'title' | 'place'> {
  readonly number?: string;
  readonly revision?: { readonly text: string; readonly date?: string };
  readonly file: string;
  /** The other files that it was made from, without the shipped rulebooks. */
  readonly uses: readonly string[];
  /** Those of this card, and of what it uses. */
  readonly findings: readonly Finding[];
  readonly accepted: readonly AcceptedDeviation[];
  readonly lowered: readonly string[];
  readonly coverage: Coverage;
  /** Absent where the card could not be proved. */
  readonly proved?: { readonly configurations: number; readonly time: Proof['time'] };
  readonly rules: readonly ReportedRule[];
  readonly traced: readonly Traced[];
  /** How it stands to its releases, in words; absent where nobody asked. */
  readonly released?: string;
}

/** A rule of a card's equipment: cards bind it each by itself, and its place is the same in all. */
export interface ReportedRule extends Pick<Rule, 'title' | 'because' | 'sources' | 'place'> {
  readonly state: RuleState;
}

export function reportedCard(context: CardContext): ReportedCard {
  const { card, snapshot, settings } = context;
  const { name, title, place, number, revision } = card;
  const { findings, accepted } = renderInput(context, {});
  const proof = proofOf(context);
  return {
    name,
    title,
    place,
    ...(number && { number: number.text }),
    ...(revision && { revision: revisionOf(revision) }),
    file: snapshot.file,
    uses: snapshot.uses,
    findings,
    accepted,
    lowered: loweredChecks(settings),
    coverage: coverageOf(card),
    ...(proof && { proved: { configurations: proof.configurations.length, time: proof.time } }),
    rules: card.equipment.rules.map((rule) => reportedRule(rule, stateOf(rule, card, findings, proof))),
    traced: tracedIn(card),
  };
}

function revisionOf({ text, date }: NonNullable<Card['revision']>): ReportedCard['revision'] {
  return { text, ...(date !== undefined && { date }) };
}

function reportedRule({ title, because, sources, place }: Rule, state: RuleState): ReportedRule {
  return { title, because, sources, place, state };
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
