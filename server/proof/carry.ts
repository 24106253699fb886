/** A proof, carried over to another version of its card that says the same. */
import type { Card } from '../../shared/card.ts';
import { Counterparts } from './counterparts.ts';
import type { Proof, StatesAt } from './facts.ts';

/** How a proof of one card is carried over to the other; undefined where the cards differ in what a proof looks at. */
export function carrier(from: Card, to: Card): ((proof: Proof) => Proof) | undefined {
  const now = Counterparts.of(from, to);
  return now && ((proof) => carry(proof, now));
}

function carry(proof: Proof, now: Counterparts): Proof {
  return Object.defineProperties(
    {},
    {
      ...propertiesOf(proof, now),
      statesAt: { value: statesAt(proof, now) },
      // Places of the version before do not move any more.
      isUnderWay: { value: () => false },
    },
  ) as Proof;
}

/** What is worked out only when it is read is carried over only then. */
function propertiesOf(proof: Proof, now: Counterparts): PropertyDescriptorMap {
  const properties: PropertyDescriptorMap = {};
  for (const [name, { get, enumerable = true, value }] of Object.entries(Object.getOwnPropertyDescriptors(proof))) {
    let known: unknown;
    const read = () => (known ??= now.translate(get?.call(proof)));
    properties[name] = get ? { enumerable, get: read } : { enumerable, value: now.translate(value) };
  }
  return properties;
}

function statesAt(proof: Proof, now: Counterparts): StatesAt {
  let before: Counterparts | undefined;
  return function* (place, items) {
    before ??= now.turnedRound();
    const found = yield* proof.statesAt(before.translate(place), before.translate(items));
    return now.translate(found);
  };
}
