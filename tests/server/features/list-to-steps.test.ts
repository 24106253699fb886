import { expect, it } from 'vitest';
import { rolesAbove, stepsFromList } from '../../../server/features/list-to-steps.ts';
import { card, open } from './support.ts';

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

it('lets the steps be done by whoever does the step above', () => {
  const rolesAt = (statements: string) => {
    const { snapshot, offset } = open(card(statements));
    return rolesAbove(snapshot, offset);
  };
  expect(rolesAt('step by fitter "Look." step by helper by fitter "Lift."\n$0')).toEqual(['helper', 'fitter']);
  expect(rolesAt('$0\nstep by fitter "Look."')).toEqual([]);
  expect(rolesAt('step by fitter "Look."\ntogether { by helper {\n$0 } }')).toEqual([]);
  expect(stepsFromList('1. Look.\n2. Note: It is hot.', nothing, ['fitter'])).toBe(
    'step by fitter "Look."\nnote "It is hot."',
  );
});
