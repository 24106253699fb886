/** Where the standards disagree a setting says whose words are taken, and a shop's own words stand above both. */
import { expect, test } from 'vitest';
import type { Settings } from '../../../shared/settings.ts';
import { check, findingsOf } from '../../support/check.ts';

const card = (sentence: string, marks = '') => `card c "C" {
  number "1" revision "A" crew f "Fitter"
  step "${sentence}"
${marks}
}`;

const titles = (sentence: string, settings: Partial<Settings> = {}) =>
  findingsOf(card(sentence), { settings, only: ['prose.word'] }).flatMap(({ message, fixes }) => [
    fixes[0]?.title ?? message,
  ]);

test.each<[sentence: string, controlled: string[], energy: string[]]>([
  ['Verify that the valve is shut.', ['Write “Make sure”'], []],
  ['Make sure that the valve is shut.', [], ['Write “Verify”']],
  ['Check the oil level.', ['Write “Do a check of”'], []],
  ['Check for cracks.', ['Write “Look”'], []],
  ['When the lamp lights, ensure that the pump runs.', ['Write “make sure”'], ['Write “verify”']],
  ['Oil the hinge.', ['Write “Lubricate”'], []],
  ['Oil leaks here in winter.', [], []],
  ['Check the valve and open it.', ['Write “Do a check of”'], [expect.stringContaining('moves nothing')]],
])('%s', (sentence, controlled, energy) => {
  expect(titles(sentence, { writingProfile: 'ASD-STE100' })).toEqual(controlled);
  expect(titles(sentence, { writingProfile: 'DOE-STD-1029-92' })).toEqual(energy);
  expect(titles(sentence), 'without a profile').toEqual([]);
});

test('a word that the shop approves is right whatever the profile says', () => {
  const settings = { writingProfile: 'ASD-STE100', approvedWords: ['verify'] } as const;
  expect(titles('Verify that the valve is shut.', settings)).toEqual([]);
});

test('a word that the shop does not use is told with what to write instead, and one that it does not list is not', () => {
  const settings = { notApprovedWords: { 'set screw': 'grub screw' } };
  expect(titles('Turn the set screw.', settings)).toEqual(['Write “grub screw”']);
  expect(titles('Utilize a lamp.', settings)).toEqual([]);
  expect(titles('Utilize a lamp.')).toEqual(['Write “Use”']);
});

test('a row of more than three nouns is told; a plate, a hyphen and a name that the shop approves are one word', () => {
  const only = { only: ['prose.noun-cluster'] };
  const row = '  //                ^^^^^^^^^^^^^^^^^^^^^^^ prose.noun-cluster';
  check(card('Inspect the landing gear door hinge.', row));
  for (const sentence of [
    'Inspect the gear door hinge.',
    'Inspect the landing-gear door hinge.',
    'Set the DC CONTROL POWER circuit breaker to off.',
  ])
    expect(findingsOf(card(sentence), only), sentence).toEqual([]);
  const settings = { approvedWords: ['landing gear'] };
  expect(findingsOf(card('Inspect the landing gear door hinge.'), { ...only, settings })).toEqual([]);
});

test('what must be done is told in a step, and not in a warning or where the order is to make sure of it', () => {
  const only = { only: ['prose.imperative'] };
  const told = (sentence: string) => findingsOf(card(sentence), only).length;
  expect(told('All hoses must be tagged.')).toBe(1);
  expect(told('The operator shall close the valve.')).toBe(1);
  expect(told('Make sure that the hose will be held.')).toBe(0);
  expect(told('The lamp should be red.')).toBe(0);
  const warned = 'card c "C" { number "1" revision "A" crew f "Fitter" warning "Hoses must be tagged." step "Look." }';
  expect(findingsOf(warned, only)).toEqual([]);
});

test.each([
  ['Open the vent or lift the lid.', 'choose'],
  ['If it is stuck, turn the nut or cut the bolt.', 'choose'],
  ['Engage either forward or reverse.', 'choose'],
  ['Do not take either the ramp or the lift.', undefined],
  ['Raise or lower the boom.', undefined],
  ['Do not open or close the valve.', undefined],
  ['Remove the bolts or screws.', undefined],
  ['Repeat this.', 'until'],
  ['Repeat steps 3 and 4.', 'until'],
  ['Repeat steps 3 and 4 until the water is clear.', undefined],
  ['Repeat this for the left side.', undefined],
  ['Read the level every 30 min.', 'until'],
  ['Read the level every 30 min until it is at 45 ft.', undefined],
  ['Close the lid within 5 minutes.', 'From when'],
  ['When the lamp is on and the horn sounds or the door is open, leave the room.', 'in two ways'],
  ['When the lamp is on and the horn sounds, leave the room.', undefined],
])('what is left open of a choice, a repeat or a time: %s', (sentence, told) => {
  const messages = findingsOf(card(sentence), { only: ['prose.course'] }).map(({ message }) => message);
  expect(messages).toEqual(told === undefined ? [] : [expect.stringContaining(told)]);
});

test('a time limit is told from a start that the step writes down', () => {
  const text =
    'card c "C" { number "1" revision "A" crew f "F" step { "Close the lid within 5 minutes." record "Start time" } }';
  expect(findingsOf(text, { only: ['prose.course'] })).toEqual([]);
});
