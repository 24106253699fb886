/** What is told once for several places, where a reason is given for one of them only. */
import { expect, test } from 'vitest';
import { check, findingsOf } from '../../support/check.ts';

const jet = `item v : valve "the valve" normally closed
hazard jet "a jet" while v open { warning "Jet hurts." }
card c "Card" { number "1" revision "A" crew m "Mechanic"
  warning jet
  step set v open
`;

test('a hazard at a stop is told once, at the first in the text', () => {
  check(
    `${jet}  step { check "A?" }
  //     ^^^^^^^^^^ safety.unsafe-stop
  step check "B?"
  step set v closed
}`,
    { only: ['safety.unsafe-stop'] },
  );
});

test('a stop that is accepted in its step leaves the next one told', () => {
  check(
    `${jet}  step { check "A?" accept safety.unsafe-stop because "The guard closes it." }
  stage "Two" {
    step check "B?" else stop "Run."
    //                   ^^^^^^^^^^^ safety.unsafe-stop
    step set v closed
  }
}`,
    { only: ['safety.unsafe-stop'] },
  );
});

test('one acceptance of the card is enough for all', () => {
  const text = `${jet}  accept safety.unsafe-stop because "The guard closes it."
  step check "A?"
  step check "B?"
  step set v closed
}`;
  expect(findingsOf(text, { only: ['safety.unsafe-stop', 'accept'] })).toEqual([]);
});

test('a supply that is missing on purpose in one step is missing in the next all the same', () => {
  check(
    `item b : breaker "the breaker" normally closed
item p : pump "the pump" normally stopped needs pw while running
supply pw "power" { source s link s -> p when b pulled }
card c "Card" { number "1" revision "A" crew m "Mechanic"
  step { run p running for 1 min accept supply.not-fed because "It is only a test of the alarm." }
  step run p running for 1 min
  //   ^^^^^^^^^^^^^^^^^^^^^^^ supply.not-fed
}`,
    { only: ['supply.not-fed', 'accept'] },
  );
});
