import { expect, it } from 'vitest';
import { rolesAbove, stepsFromList } from '../../../server/features/list-to-steps.ts';
import { findingsOf } from '../../support/check.ts';
import { equipment } from '../prose/usual-sentences.ts';
import { card, open } from './support.ts';

it('makes a step of each entry, whatever the numbers look like', () => {
  const list = '1. Close the valve.\n2) Open the drain.\n  (a) Wait.\n3.1 Sign the card.\n• Leave.\n[ ] Lock the door.';
  expect(stepsFromList(list).split('\n')).toEqual([
    'step "Close the valve."',
    'step "Open the drain."',
    'step "Wait."',
    'step "Sign the card."',
    'step "Leave."',
    'step "Lock the door."',
  ]);
});

it('goes on with an entry over several lines, and takes each line of a plain list for a step', () => {
  expect(stepsFromList('1. Close the valve\n   at the tank.\n2. Leave.')).toBe(
    'step "Close the valve at the tank."\nstep "Leave."',
  );
  expect(stepsFromList('Close the valve\n\nLeave')).toBe('step "Close the valve"\nstep "Leave"');
});

it('keeps an admonition what it is', () => {
  expect(stepsFromList('1. Stop.\nWARNING: The pump turns.\n2. Go.')).toBe(
    'step "Stop."\nwarning "The pump turns."\nstep "Go."',
  );
});

it('makes steps of a page whose usual sentences can be said as actions, one at a time', () => {
  const page = `1. Run the ramp pump for 3 minutes.
2. Read the accumulator pressure. It must be below 5 bar.
3. Fit the port ramp pin
4. Take out the return filter and put it in the tray.
5. Set selector to off
6. Close the sump drain.
7. Agree on the hand signals.
8. Wipe the ramp.`;
  const text = `${equipment}card c "C" { number "1" revision "A" crew f "Fitter"\n${stepsFromList(page)}\n}`;
  const mends = findingsOf(text)
    .filter(({ code }) => code === 'prose.unsaid-action')
    .map(({ fixes }) => fixes.map(({ title }) => title));
  expect(mends).toEqual([
    ['Say it as: run pump running for 3 min'],
    ['Say it as: read accumulator below 5 bar'],
    ['Say it as: set port-pin fitted'],
    ['Say it as: set element removed'],
    ['Say it as: set selector off'],
    ['Say it as: set drain closed'],
  ]);
});

it.each([
  ['(G) Close the valve.', 'step by gas "Close the valve."'],
  ['(GF) Close the valve.', 'step by gas "Close the valve."'],
  ['Gas fitter: Close the valve.', 'step by gas "Close the valve."'],
  ['2. (O): Look.', 'step by hand "Look."'],
  ['(X) Look.', 'step by hand "(X) Look."'],
  ['Read P1: 18 to 25 mbar.', 'step by hand "Read P1: 18 to 25 mbar."'],
  ['Look.', 'step by hand "Look."'],
  ['G closes the valve.', 'step by gas "Close the valve."'],
  [
    'G opens the cock, looks at it and waits until it drips.',
    'step by gas "Open the cock, look at it and wait until it drips."',
  ],
  ['The oven operator presses it. Waits. It runs.', 'step by hand "Press it. Wait. It runs."'],
  ['O calls. G confirms that it runs.', 'step by hand "Call."\nstep by gas "Confirm that it runs."'],
  ['O is there.', 'step by hand "O is there."'],
  ['The lamp lights.', 'step by hand "The lamp lights."'],
])('gives a step to the one whom the list names: %s', (entry, step) => {
  const crew = [
    { name: 'gas', label: 'Gas fitter' },
    { name: 'hand', label: 'Oven operator' },
  ];
  expect(stepsFromList(entry, ['hand'], crew)).toBe(step);
});

it('escapes what a text of ours gives a meaning to', () => {
  expect(stepsFromList('- Press "GO" on {A} \\ B')).toBe('step "Press \\"GO\\" on {{A} \\\\ B"');
  expect(stepsFromList(' \n\n')).toBe('');
});

it('lets the steps be done by whoever does the step above', () => {
  const rolesAt = (statements: string) => {
    const { snapshot, offset } = open(card(statements));
    return rolesAbove(snapshot, offset);
  };
  expect(rolesAt('step by fitter "Look." step by helper by fitter "Lift."\n$0')).toEqual(['helper', 'fitter']);
  expect(rolesAt('$0\nstep by fitter "Look."')).toEqual([]);
  expect(rolesAt('step by fitter "Look."\ntogether { by helper {\n$0 } }')).toEqual([]);
  expect(stepsFromList('1. Look.\n2. Note: It is hot.', ['fitter'])).toBe('step by fitter "Look."\nnote "It is hot."');
});
