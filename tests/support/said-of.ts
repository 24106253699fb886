/** All that a proof says, also when it is asked later: for proofs that must say the same. */
import { actionsIn } from '../../server/findings/support/card.ts';
import type { Proof } from '../../server/proof/facts.ts';
import type { Card, Change } from '../../shared/card.ts';
import { finish } from '../../shared/parts.ts';

/** The states of all items at each step of the card and of its stages, and which change reaches which other one, too. */
export function saidOf(proof: Proof, card: Card) {
  finish(proof.workOut());
  const { statesAt, reaching, workOut: _, isUnderWay: __, ...facts } = proof;
  const steps = card.body.flatMap((part) => (part.type === 'stage' ? part.body : [part]));
  const states = steps.map(({ place }) => finish(statesAt(place, card.equipment.items)));
  const changes = new Set(changesIn(card));
  const reached = finish(reaching({ begins: changes, ends: changes, asks: changes }));
  return { ...facts, reliedOn: proof.checksReliedOn, atStops: proof.atStops, states, reached };
}

export function changesIn({ body }: Card): Change[] {
  return [...actionsIn(body)].flatMap((action) => ('changes' in action ? action.changes : []));
}
