import { describe, expect, test } from 'vitest';
import { openWorkspace } from '../../../server/api.ts';
import { countWords } from '../../../server/findings/support/sentences.ts';
import type { Fix } from '../../../shared/finding.ts';
import { applyFix } from '../../support/apply.ts';
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
  const only = { only: ['prose.long-sentence'] };
  check(withSteps(`  step "${words(20)}."`), only);
  check(withSteps(`  step "${words(21)}."\n  //    ^ prose.long-sentence`), only);
});

test('a text of several strings is counted as one, and marked over them', () => {
  const long = 'one two three four five six seven eight nine ten eleven';
  check(withSteps(`  step "${long}" "${long}"\n  //    ^ prose.long-sentence`));
});

test('the sentence that is too long is marked, not its neighbours', () => {
  const long = Array.from({ length: 21 }, () => 'Word').join(' ');
  check(withSteps(`  step "Look here. ${long}."\n  //               ^ prose.long-sentence`), {
    only: ['prose.long-sentence'],
  });
});

test('what is done where a look has failed is read too', () => {
  const machine = 'kind valve { closed, open }\nitem vent : valve\n';
  const step = `  step {
    check vent closed else {
      step "Utilize a lamp."
  //        ^^^^^^^ prose.word
      caution "Utilize a shade."
  //           ^^^^^^^ prose.word
      danger "The edge is sharp."
  //  ^^^^^^ prose.admonition-order
    }
  }`;
  check(machine + withSteps(step), { only: ['prose.word', 'prose.admonition-order'] });
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

test.each([
  ['The door can crush. Isolate the drive before you reach in.', 0],
  ['The door can crush. Open the drive isolator before you reach in.', 0],
  ['The door can crush. Close the drive isolator before you reach in.', 1],
  ['The door can crush. Isolate the lift before you reach in.', 1],
  ['The door can crush. Close the vent before you reach in.', 1],
])('“%s” before a step that opens the drive isolator asks for %i of its own', (sentence, count) => {
  const text = `item drive : isolator "the drive isolator" normally closed
item lift : isolator "the lift isolator" normally closed
item vent : valve "the vent" normally open
${withSteps(`  warning "${sentence}"\n  step set drive open\n  step set drive closed`).replace('set drive closed', 'set lift closed')}`;
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

describe('a sentence that says what an action should', () => {
  const given = `item isolator : isolator "the pump isolator" at "bay 2" normally open
item pump : pump "the ramp pump" normally stopped
item lamp : lamp "the ramp lamp"
gauge oil "oil pressure" in bar { reads 0 to 80 by 1 }
`;
  const inCard = (steps: string) =>
    `${given}card c "C" { number "1" revision "A" crew f "Fitter", g "Guard"\n${steps}\n}`;
  const unsaid = (steps: string) => {
    const text = inCard(steps);
    return findingsOf(text)
      .filter(({ code }) => code === 'prose.unsaid-action')
      .map((finding) => ({ text, finding }));
  };
  /** The steps with every mend made, the first of each finding. */
  const mended = (steps: string) => {
    let text = inCard(steps);
    for (let round = 0; round < 9; round++) {
      const fix = findingsOf(text).find(({ code, fixes }) => code === 'prose.unsaid-action' && fixes.length > 0)
        ?.fixes[0];
      if (!fix) break;
      text = applyFix(text, fix);
    }
    return text.slice(text.indexOf('\n', given.length) + 1, -2);
  };

  test('becomes the action', () =>
    expect(mended('step by f "Close the pump isolator."')).toBe('step by f set isolator closed'));
  test.each([
    [
      'Read the oil pressure. It must be below 60 bar. If it is not, wait another 15 minutes and read again.',
      'step by f read oil below 60 bar else { step by f wait 15 min }',
    ],
    [
      'The oil pressure must be at most 60 bar. If higher, close the pump isolator, call the shift and stop.',
      'step by f read oil at most 60 bar else { step by f set isolator closed step by f "Call the shift." stop "Stop." }',
    ],
    [
      'Check that the ramp lamp is off. If it is not, stop the ramp pump.',
      'step by f check lamp off else { step by f set pump stopped }',
    ],
  ])('becomes the else of the look before it: %s', (sentences, said) => {
    const text = inCard(`step by f "${sentences}"`);
    const fixes = findingsOf(text).flatMap((finding) => finding.fixes);
    const fix = fixes.find(({ title }) => title.startsWith('Say both as:'));
    expect(fix && applyFix(text, fix)).toContain(`\n${said}\n`);
    expect(findingsOf(fix ? applyFix(text, fix) : text).filter(({ code }) => /^syntax/u.test(code))).toEqual([]);
  });

  test.each([
    'The oil pressure must be at least 5 bar. If higher, close the pump isolator.',
    'Read the oil pressure. It must be below 60 bar. If the lamp is on, close the pump isolator.',
    'Open the pump isolator. If it does not, close the pump isolator.',
  ])('is left where it speaks of something else: %s', (sentences) => {
    const fixes = findingsOf(inCard(`step by f "${sentences}"`)).flatMap((finding) => finding.fixes);
    expect(fixes.filter(({ title }) => title.startsWith('Say both as:'))).toEqual([]);
  });

  test('keeps what stands before it as the text of the step', () =>
    expect(mended('step by f "Look around. Close the pump isolator."')).toBe(
      'step by f "Look around." set isolator closed',
    ));
  test('gives what stands after it a step of its own, by the same role', () =>
    expect(mended('  step by f "Close the pump isolator. Look around."')).toBe(
      '  step by f set isolator closed\n  step by f "Look around."',
    ));
  test('goes before the actions of its step', () =>
    expect(mended('step by f "Close the pump isolator." { record "Hours" }')).toBe(
      'step by f { set isolator closed  record "Hours" }',
    ));
  test('goes behind all parts of the head', () =>
    expect(mended('step by f "Close the pump isolator." takes 1 min')).toBe(
      'step by f takes 1 min set isolator closed',
    ));
  test('is one with the sentence that goes on with it', () =>
    expect(mended('step by f "Read the oil pressure. It must be at most 50 bar."')).toBe(
      'step by f read oil at most 50 bar',
    ));
  test('with another order becomes both, in their order', () =>
    expect(mended('step by f "Close the pump isolator and start the ramp pump."')).toBe(
      'step by f { set isolator closed   set pump running }',
    ));
  test('keeps an order that the equipment does not name', () =>
    expect(mended('step by f "Close the pump isolator and tell the guard."')).toBe(
      'step by f set isolator closed\nstep by f "Tell the guard."',
    ));
  test('stays as a text where it tells more than the action', () =>
    expect(mended('step by f "Close the pump isolator with the long key."')).toBe(
      'step by f "Close the pump isolator with the long key." set isolator closed',
    ));
  test('with a condition becomes a branch', () =>
    expect(mended('step by f "If the ramp lamp is on, stop the ramp pump."')).toBe(
      'if lamp on {\n  step by f set pump stopped\n}',
    ));
  test('is not told of where its step does it too', () =>
    expect(unsaid('step by f "Close the pump isolator." set isolator closed')).toEqual([]));
  test('is found in a question', () =>
    expect(mended('step by f check "Is the pump isolator closed?" else stop "Close it."')).toBe(
      'step by f check isolator closed else stop "Close it."',
    ));
  test('is accepted once for all of a sentence', () =>
    expect(
      unsaid(`step by f "Close the pump isolator and start the ramp pump." {
  accept prose.unsaid-action because "Only shown to the trainee."
}`),
    ).toEqual([]));
  test('tells what the proof believes', () =>
    expect(unsaid('step by f "Close the pump isolator."').map(({ finding }) => finding.message)).toEqual([
      expect.stringContaining('the pump isolator is still open'),
    ]));
  test('a mend may bring to light what was wrong all the time', () => {
    const text = `rule dry "Not dry" { while pump running require isolator closed }
${inCard('step by f "Start the ramp pump." step by f set isolator closed')}`;
    const api = openWorkspace({ readText: (file) => (file === 'a.card' ? text : undefined) });
    const findings = api.soundFixes(api.check(['a.card']).findings);
    expect(findings.find(({ code }) => code === 'prose.unsaid-action')?.fixes).toHaveLength(1);
  });
});

test('what the machine has is not called unused before the card comes to it', () => {
  check(`kind lamp { dark, lit }
//   ^^^^ name.unused
item pump : pump "the ramp pump"
item vent : valve "the vent valve"
gauge pressure "the oil pressure" in bar { limit normal at most 50 bar }
card c "C" { number "1" revision "A" crew f "Fitter"
  step "Listen to the ramp pump."
}`);
});

test.each([
  ['Call the office if the lamp lights.', 'If the lamp lights, call the office.'],
  ['Stop the pump when the tank is full.', 'When the tank is full, stop the pump.'],
  ['Close the tap unless the hose is away.', 'Unless the hose is away, close the tap.'],
  ['If the lamp lights, call the office.', undefined],
  ['Check if the lamp lights.', undefined],
  ['Record the time when the pump stops.', undefined],
  ['Write down what to do if it fails.', undefined],
  ['The lamp lights when the tank is full.', undefined],
  ['Turn the knob even if it is stiff.', undefined],
  ['Wait until the lamp lights.', undefined],
  ['When the lamp lights, stop if it is red.', undefined],
])('“%s” is better said: %s', (sentence, better) => {
  const text = withSteps(`  step "${sentence}"`);
  const found = findingsOf(text, { only: ['prose.condition-last'] });
  expect(found).toHaveLength(better === undefined ? 0 : 1);
  for (const { fixes } of found) expect(applyFix(text, fixes[0] as Fix)).toContain(`"${better}"`);
});

test('where the sentence has several parts, which of them hangs on the condition is left to the writer', () => {
  const found = findingsOf(withSteps('  step "Use a hoist, a jack or a second man when the part is heavy."'), {
    only: ['prose.condition-last'],
  });
  expect(found.map(({ fixes }) => fixes)).toEqual([[]]);
});

test('a card in another language is not held against the rules for English', () => {
  const vague = '  step "Set the lever properly if needed and close the tap when the lamp lights."';
  const card = (language: string) => `card c "C" { ${language}\n${vague}\n}`;
  const codes = (text: string) => new Set(findingsOf(text, { only: ['prose'] }).map(({ code }) => code));
  expect(codes(card('language "en"'))).toContain('prose.vague');
  expect(codes(card('language "en-GB"'))).toContain('prose.vague');
  expect(codes(card(''))).toContain('prose.vague');
  expect(codes(card('language "de"'))).toEqual(new Set());
});
