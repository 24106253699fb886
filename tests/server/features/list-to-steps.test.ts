import { expect, it } from 'vitest';
import { stepsFromList } from '../../../server/features/list-to-steps.ts';

const nothing = () => undefined;

it('makes a step of each entry, whatever the numbers look like', () => {
  const list = '1. Close the valve.\n2) Open the drain.\n  (a) Wait.\n3.1 Sign the card.\n• Leave.\n[ ] Lock the door.';
  expect(stepsFromList(list, nothing).split('\n')).toEqual([
    'step "Close the valve."',
    'step "Open the drain."',
    'step "Wait."',
    'step "Sign the card."',
    'step "Leave."',
    'step "Lock the door."',
  ]);
});

it('goes on with an entry over several lines, and takes each line of a plain list for a step', () => {
  expect(stepsFromList('1. Close the valve\n   at the tank.\n2. Leave.', nothing)).toBe(
    'step "Close the valve at the tank."\nstep "Leave."',
  );
  expect(stepsFromList('Close the valve\n\nLeave', nothing)).toBe('step "Close the valve"\nstep "Leave"');
});

it('keeps an admonition what it is', () => {
  expect(stepsFromList('1. Stop.\nWARNING: The pump turns.\n2. Go.', nothing)).toBe(
    'step "Stop."\nwarning "The pump turns."\nstep "Go."',
  );
});

it('proposes what the equipment knows, beside the text', () => {
  const propose = (sentence: string) => (sentence.startsWith('Close') ? 'set valve closed' : undefined);
  expect(stepsFromList('Close the valve.\nLeave.', propose)).toBe(
    'step "Close the valve." // perhaps: set valve closed\nstep "Leave."',
  );
});

it('escapes what a text of ours gives a meaning to', () => {
  expect(stepsFromList('- Press "GO" on {A} \\ B', nothing)).toBe('step "Press \\"GO\\" on {{A} \\\\ B"');
  expect(stepsFromList(' \n\n', nothing)).toBe('');
});
