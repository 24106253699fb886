import { describe, expect, test } from 'vitest';
import { check, findingsOf, mainFile, openFiles, openText } from '../support/check.ts';

const head = 'number "1" revision "A" crew mechanic "Mechanic"';
const breaker = `kind breaker { closed "Close {}", pulled "Pull {}" }
item ignition : breaker "the ignition breaker" normally closed`;

describe('accepting', () => {
  test.each([
    ['a step', 'step { set ignition pulled  accept safety.left-changed because "The next card closes it." }'],
    [
      'a stage',
      'stage "One" { accept safety.left-changed because "The next card closes it."  step set ignition pulled }',
    ],
    ['a card', 'accept safety.left-changed because "The next card closes it."\n  step set ignition pulled'],
  ])('silences the findings of %s', (_, body) => {
    check(`${breaker}\ncard wash "Wash" {\n  ${head}\n  ${body}\n}`);
  });

  test('reaches no further than the step it stands in', () => {
    check(`${breaker}
card wash "Wash" {
  ${head}
  step "Look at the hose." { accept safety.left-changed because "The next card closes it." }
  //                         ^ accept.unused
  step set ignition pulled
  //   ^ safety.left-changed
}`);
  });

  test('cannot silence what does not parse', () => {
    const findings = findingsOf(
      `card wash "Wash" {\n  ${head}\n  step { accept syntax.missing because "I know."  set }\n}`,
    );
    expect(findings.map(({ code }) => code)).toEqual(['syntax.missing']);
  });

  test('of a code that is none says so', () => {
    const [finding] = findingsOf(`card wash "Wash" {\n  ${head}\n  step { accept safety.rules because "A slip." }\n}`);
    expect(finding?.message).toContain('There is no finding of that code');
  });

  test('cannot silence what has no meaning: nothing of it is proved', () => {
    const found = findingsOf(
      `card wash "Wash" {\n  ${head}\n  step { set drian open accept name.unknown because "It is there." }\n}`,
    );
    expect(found.map(({ code }) => code)).toEqual(['name.unknown', 'accept.unused']);
    expect(found[1]?.message).toContain('cannot be accepted');
  });

  test('in a procedure that no card does is not called unused', () => {
    expect(findingsOf('procedure look() { step "Look." { accept prose.vague because "It is short." } }')).toEqual([]);
  });
});

describe('several files', () => {
  test('report the findings of those they use, at their places', () => {
    const files = { 'kinds.card': 'kind valve { closed, open }\nitem drain : valv "the drain"' };
    const findings = findingsOf(`use "kinds.card"\ncard wash "Wash" {\n  ${head}\n  step set drain open\n}`, { files });
    expect(findings.map(({ place, code }) => `${place.file} ${code}`)).toEqual(['kinds.card name.unknown']);
  });

  test('have each number once', () => {
    const card = (name: string) => `card ${name} "Wash" {\n  ${head}\n  step "Look at the hose."\n}`;
    const { findings, cards } = openFiles({ 'a.card': card('a'), 'b.card': card('b') }).check(['b.card', 'a.card']);
    expect(findings.map(({ place, code }) => `${place.file} ${code}`)).toEqual(['b.card card.duplicate-number']);
    expect(cards).toHaveLength(2);
  });

  test('a procedure that two cards do has its findings once', () => {
    check(`procedure look() {
  step "Let sufficient water run."
  //        ^^^^^^^^^^ prose.vague
}
card wash "Wash" {
  ${head}
  do look
}
card rinse "Rinse" {
  ${head.replace('"1"', '"2"')}
  do look
}`);
  });
});

describe('settings', () => {
  const vague = `card wash "Wash" {\n  ${head}\n  step "Let sufficient water run."\n}`;

  test('give findings other levels, by code or by family', () => {
    expect(findingsOf(vague, { settings: { levels: { prose: 'error' } } })[0]?.level).toBe('error');
    expect(findingsOf(vague, { settings: { levels: { prose: 'error', 'prose.vague': 'off' } } })).toEqual([]);
  });

  test('keep what does not parse an error', () => {
    const findings = findingsOf('card', { settings: { levels: { syntax: 'off' } } });
    expect(findings.map(({ level }) => level)).toContain('error');
  });

  test('bound the findings of a file, errors first', () => {
    const text = `${breaker}\ncard wash "Wash" {\n  ${head}\n  step "Let sufficient water run."\n  step set ignition pulled\n}`;
    expect(findingsOf(text, { settings: { maximumFindings: 1 } }).map(({ code }) => code)).toEqual([
      'safety.left-changed',
    ]);
  });

  test('hold the word lists', () => {
    expect(findingsOf(vague, { settings: { vagueWords: [] } })).toEqual([]);
  });
});

describe('one slip is one finding', () => {
  test.each([
    [
      'an unknown state in the step that puts back',
      'step set ignition pulled\n  step set ignition closd',
      'name.unknown',
    ],
    [
      'an unknown item in the step that puts back',
      'step set ignition pulled\n  step set ignitoin closed',
      'name.unknown',
    ],
    ['a state that is missing', 'step set ignition pulled\n  step set ignition', 'syntax.missing'],
    ['a misspelt action', 'step set ignition pulled\n  step sett ignition closed', 'syntax.unexpected'],
    [
      'a label that is none',
      'step set ignition pulled\n  go to beck\n  step back: set ignition closed',
      'name.unknown',
    ],
  ])('%s', (_, body, code) => {
    const findings = findingsOf(`${breaker}\ncard wash "Wash" {\n  ${head}\n  ${body}\n}`);
    expect(findings.map((finding) => `${finding.code}`)).toEqual([code]);
  });

  test('a misspelt warning', () => {
    const text = `kind cart { stopped, running }
item power-cart : cart "the power cart"
hazard noise "noise" while power-cart running { warning "Noise can damage your hearing." }
card power "Power" {
  ${head}
  step set power-cart stopped
  warning niose
  //      ^^^^^ name.unknown
  step set power-cart running
}`;
    check(text);
  });

  test('a unit that is none in a wait', () => {
    check(`kind starter { off, cranking }
item starter-1 : starter "the starter" normally off { duty cranking at most 30 s, then rest 60 s }
card crank "Crank" {
  ${head}
  step run starter-1 cranking for 30 s
  step wait 60 sek
  //           ^^^ unit.unknown
  step run starter-1 cranking for 30 s
}`);
  });
});

describe('snapshots', () => {
  test('stay the same until a text that they rest on changes', () => {
    const api = openText('use "kinds.card"', { files: { 'kinds.card': 'kind valve { closed, open }' } });
    const { workspace } = api;
    const before = workspace.snapshot(mainFile);
    before?.bound.cards;
    expect(workspace.snapshot(mainFile)).toBe(before);
    workspace.setText('other.card', 'kind tap { closed, open }');
    expect(workspace.snapshot(mainFile)).toBe(before);
    workspace.setText('kinds.card', 'kind tap { closed, open }');
    expect(workspace.snapshot(mainFile)).not.toBe(before);
  });

  test('notice a used file that comes later', () => {
    const texts: Record<string, string> = {};
    const api = openFiles(texts);
    api.workspace.setText(mainFile, 'use "kinds.card"');
    expect(api.check([mainFile]).findings.map(({ code }) => code)).toEqual(['name.unknown']);
    texts['kinds.card'] = 'kind valve { closed, open }';
    api.workspace.forget('kinds.card');
    expect(api.check([mainFile]).findings).toEqual([]);
  });
});

test('a card for more sorts of machine than are proved is not called clean', () => {
  const variants = Array.from({ length: 12 }, (_, n) => `v${n}`);
  const findings = findingsOf(`${variants.map((name) => `variant ${name} old, new`).join('\n')}
card wash "Wash" {
  ${head}
  ${variants.map((name) => `step "Look at the ${name}." only ${name} old`).join('\n  ')}
}`);
  expect(findings.map(({ code, message }) => `${code} ${message}`).join()).toMatch(
    /syntax\.too-large .* only 512 of them/,
  );
});

describe('a slip quiets what follows from it', () => {
  const motors = `kind motor { off, on }
item m-1 : motor "motor 1" normally off { duty on at most 1 min }
item m-2 : motor "motor 2" normally off { duty on at most 1 min }
`;

  test('in its card and in those that do it, and in no other', () => {
    check(
      `${motors}card a "A" {
  step run m-1 onn for 10 s
  //           ^^^ name.unknown
  step set m-1 on
}
card b "B" { step run m-2 on for 3 h }
//                ^^^^^^^^^^^^^^^^^^ duty.too-long
card c "C" { step { set m-1 on wait 3 h } }
//                  ^^^^^^^^^^ safety.left-changed, duty.unbounded
card d "D" { do a   step set m-1 on }`,
      { only: ['name.unknown', 'duty', 'safety'] },
    );
  });

  test.each(['\n', '\r\n', '\r'])('on its line, however lines end: %j', (lineEnd) => {
    const text = `${motors}card c "C" {\n  step set nov on\n  step set m-1 on\n  step set m-2 on\n}\n`;
    const findings = findingsOf(text.replaceAll('\n', lineEnd), { only: ['name.unknown', 'duty'] });
    expect(findings.map(({ code }) => code)).toEqual(['name.unknown', 'duty.unbounded', 'duty.unbounded']);
  });

  test('in a declaration, in every card', () => {
    check(
      `kind motor { off, on }
item m-1 : moter "motor 1" normally off { duty on at most 1 min }
//         ^^^^^ name.unknown
card c "C" { step set m-1 on }`,
      { only: ['name.unknown', 'duty', 'safety'] },
    );
  });
});
