/** A proof, carried over to another version of its card that says the same. */
import type { Card } from '../../shared/card.ts';
import { Counterparts } from './counterparts.ts';
import type { Proof } from './facts.ts';

/** How a proof of one card is carried over to the other; undefined where the cards differ in what a proof looks at. */
export function carrier(from: Card, to: Card): ((proof: Proof) => Proof) | undefined {
  const now = Counterparts.of(from, to);
  return now && ((proof) => carry(proof, now));
}

function carry(proof: Proof, now: Counterparts): Proof {
  const facts = now.translate(proof.facts);
  // Places of the version before do not move any more.
  const isUnderWay = () => false;
  const { explored, workOut } = proof;
  const carried = { ...facts, facts, explored, workOut, isUnderWay, ...askedLater(proof, now) };
  return Object.defineProperties(carried, propertiesOf(proof, now)) as Proof;
}

/** What is worked out only when it is read is carried over only then. */
function propertiesOf(proof: Proof, now: Counterparts): PropertyDescriptorMap {
  const properties: PropertyDescriptorMap = {};
  for (const [name, { get, enumerable = true }] of Object.entries(Object.getOwnPropertyDescriptors(proof))) {
    let known: unknown;
    if (get) properties[name] = { enumerable, get: () => (known ??= now.translate(get.call(proof))) };
  }
  return properties;
}

function askedLater(proof: Proof, now: Counterparts): Pick<Proof, 'statesAt' | 'reaching'> {
  let turned: Counterparts | undefined;
  const before = <Value>(value: Value): Value => {
    turned ??= now.turnedRound();
    return turned.translate(value);
  };
  return {
    *statesAt(place, items) {
      return now.translate(yield* proof.statesAt(before(place), before(items)));
    },
    *reaching(following) {
      return now.translate(yield* proof.reaching(before(following)));
    },
  };
}
