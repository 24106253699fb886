import { expect, test } from 'vitest';
import { countWords } from '../../../server/findings/support/sentences.ts';
import { check, findingsOf } from '../../support/check.ts';

function withSteps(steps: string): string {
  return `card wash "Wash" {\n  number "1" revision "A" crew mechanic "Mechanic"\n${steps}\n}`;
}

test.each([
  ['Wait 10 minutes.', 2],
  ['Wait 30 s.', 2],
  ['Set the switch (refer to Figure 3) to ON.', 6],
  ['Remove the 4 bolts.', 4],
  ['Close the air-driven pump.', 4],
  ['Close {wash-valve-1} now.', 3],
  ['Hold the lever until the pressure is at most 40 psi.', 10],
])('%s has %i words as writing rules count them', (sentence, words) => {
  expect(countWords(sentence)).toBe(words);
});

test('twenty words are not too many, twenty-one are', () => {
  const words = (count: number) => Array.from({ length: count }, (_, index) => `w${index}a`).join(' ');
  check(withSteps(`  step "${words(20)}."`));
  check(withSteps(`  step "${words(21)}."\n  //    ^ prose.long-sentence`));
});

test('a text of several strings is counted as one, and marked over them', () => {
  const long = 'one two three four five six seven eight nine ten eleven';
  check(withSteps(`  step "${long}" "${long}"\n  //    ^ prose.long-sentence`));
});

test('the sentence that is too long is marked, not its neighbours', () => {
  const long = Array.from({ length: 21 }, () => 'Word').join(' ');
  check(withSteps(`  step "Look here. ${long}."\n  //               ^ prose.long-sentence`));
});

test.each([
  ['Remove the bolts and install the cover.', 1],
  ['Remove the bolts and the cover.', 0],
  ['Open the tap at the same time and hold the hose.', 0],
  ['If the lamp is on, close the tap and stop the pump.', 1],
  ['The pump and drain valve are on the left.', 0],
  ['Loosen, tighten, and loosen the nut.', 1],
])('“%s” asks for several actions: %i', (sentence, count) => {
  expect(findingsOf(withSteps(`  step "${sentence}"`), { only: ['prose.several-actions'] })).toHaveLength(count);
});

test.each([
  ['Noise can damage your hearing. Wear ear defenders.', 0],
  ['A turning propeller can kill. Keep everyone out of the marked area.', 0],
  ['Fuel vapour can catch fire. Close the fuel valve.', 1],
  ['If the hose bursts, close the tap.', 1],
])('“%s” asks for a step of the work: %i', (sentence, count) => {
  const text = withSteps(`  warning "${sentence}"\n  step "Look at the hose."`);
  expect(findingsOf(text, { only: ['prose.action-in-admonition'] })).toHaveLength(count);
});

test('vague words are found whole, in either case', () => {
  check(
    withSteps(`
  step "Properly fit the seal as required."
  //    ^^^^^^^^ prose.vague
  //                          ^^^^^^^^^^^ prose.vague
  step "Look at the inadequately lit panel."`),
  );
});

test('admonitions are held to their order in blocks too, and the fix keeps what stands between', () => {
  const text = withSteps(`  if "Is it wet?" {
    note "The floor is slippery."
    // A comment.
    danger "Live parts can kill."
    step "Look at the cable."
  }`);
  const [finding] = findingsOf(text, { only: ['prose.admonition-order'] });
  expect(finding?.fixes[0]?.edits.map(({ newText }) => newText)).toEqual([
    'danger "Live parts can kill."',
    'note "The floor is slippery."',
  ]);
});
