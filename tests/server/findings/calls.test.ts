/** What goes wrong in a procedure that a card does several times is told with the places at which it is done. */
import { expect, test } from 'vitest';
import { check, findingsOf } from '../../support/check.ts';

const spin = `kind motor { off, running }
kind valve { closed, open }
item m : motor "the motor" normally off { duty running at most 10 s, then rest 60 s }
item v : valve "the valve" normally closed
rule closed "Closed" { before m running require v closed }
procedure spin (x: motor) {
`;

test('the call that lacks a rest is named, and the wait is written before it', () => {
  const [finding] = check(
    `${spin}  step run x running for 10 s
  //   ^^^^^^^^^^^^^^^^^^^^^^ duty.short-rest
}
card a "A" {
  do spin(m)
  step wait 60 s
  do spin(m)
  step wait 30 s
  do spin(m)
}`,
    { only: ['duty'] },
  );
  expect(finding?.message).toContain('This is so in the third “do spin”.');
  expect(finding?.path.map(({ text }) => text)).toEqual([
    'the motor: running, in the second “do spin”',
    'the motor goes back, in the second “do spin” (10 s later)',
    'the third “do spin”',
  ]);
  const [edit] = finding?.fixes[0]?.edits ?? [];
  expect([finding?.fixes[0]?.title, edit?.place.start]).toEqual([
    'Insert: step wait 30 s',
    finding?.path.at(-1)?.place.start,
  ]);
});

test('a rule that is broken in one of them says so, and its fix says that it is for every one', () => {
  const [finding] = check(
    `${spin}  step { set x running wait 1 s set x off }
  //     ^^^^^^^^^^^^^ safety.rule
}
card a "A" {
  do spin(m)
  step set v open
  do spin(m)
  step set v closed
}`,
    { only: ['safety'] },
  );
  expect(finding?.message).toContain('This is so in the second “do spin”.');
  for (const { title } of finding?.fixes ?? []) expect(title).toContain('(in every “do spin”)');
});

test('of procedures that do each other the outermost is named', () => {
  const [finding] = check(
    `${spin}  step { set x running wait 1 s set x off }
  //     ^^^^^^^^^^^^^ safety.rule
}
procedure around () { do spin(m) }
card a "A" {
  do around()
  step set v open
  do around()
  step set v closed
}`,
    { only: ['safety'] },
  );
  expect(finding?.message).toContain('This is so in the second “do around”.');
});

test('what is so in all of them needs no name', () => {
  const [finding] = check(
    `${spin}  step { set x running wait 1 s set x off }
  //     ^^^^^^^^^^^^^ safety.rule
}
card a "A" {
  step set v open
  do spin(m)
  do spin(m)
  step set v closed
}`,
    { only: ['safety'] },
  );
  expect(finding?.message).not.toContain('do spin');
});

test('what is so too where another procedure does it needs no name', () => {
  const [finding] = check(
    `${spin}  step { set x running wait 1 s set x off }
  //     ^^^^^^^^^^^^^ safety.rule
}
procedure around () { do spin(m) }
card a "A" {
  step set v open
  do spin(m)
  step set v closed
  do spin(m)
  do spin(m)
  step set v open
  do around()
  step set v closed
}`,
    { only: ['safety'] },
  );
  expect(finding?.message).not.toContain('do spin');
});

test('a way out of a procedure is refused with what to write instead', () => {
  const [finding] = findingsOf(
    'procedure look() { step check "Is it dry?" else go to blocked }\ncard c "C" {\n  do look\n  stage blocked "Blocked" { step "Report it." }\n}',
    { only: ['name.unknown'] },
  );
  expect(finding?.message).toContain('behind the “do”');
});

test('an argument that is none is told once', () => {
  const text = 'item v : valve procedure shut (x: valve) { step set x closed } card a "A" { do shut("v") }';
  expect(findingsOf(text, { only: ['name', 'syntax'] }).map(({ code }) => code)).toEqual(['syntax.unexpected']);
});
