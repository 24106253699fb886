/** What goes wrong in a procedure that a card does several times is told with the places at which it is done. */
import { describe, expect, test } from 'vitest';
import { applyFix } from '../../support/apply.ts';
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

test.each([
  [
    'the second',
    'do hold step set x off step wait 9 min do hold step wait 20 s step set x off step wait 9 min do hold step set x off',
  ],
  [
    'the third',
    'do hold step set x off step wait 9 min do hold step set x off step wait 9 min do hold step wait 20 s step set x off',
  ],
])('the call that begins a run that is too long is named: %s', (which, body) => {
  const text = `${spin}}
procedure hold () { step takes 0 s set m running }
card a "A" { ${body.replaceAll('set x', 'takes 0 s set m')} }`;
  const [finding] = findingsOf(text, { only: ['duty.too-long'] });
  expect(finding?.message).toContain(`This is so in ${which} “do hold”.`);
});

test('a run that is too long in each of them is no matter of one', () => {
  const text = `${spin}  step run x running for 20 s
}
card a "A" { do spin(m) step wait 60 s do spin(m) }`;
  const found = findingsOf(text, { only: ['duty.too-long'] });
  expect(found.map(({ message }) => message.includes('do spin'))).toEqual([false]);
});

describe('what is so where a card stops, or at its end,', () => {
  const told = (declared: string, code: string, body: string) =>
    findingsOf(
      `kind motor { off, running }
kind valve { closed, open }
item m : motor "the motor" normally off
item v : valve "the valve" normally closed
${declared}
card a "A" { ${body} }`,
      { only: [code] },
    ).map(({ message }) => /This is so in .*/u.exec(message)?.[0]);
  const ask = 'procedure ask () { step check "Is it dry?" }';
  const second = ['This is so in the second “do ask”.'];

  test('names the call of the stop', () => {
    const body = 'do ask step set m running do ask step set m off do ask';
    expect(told(`${ask} rule off "Off" { at stop require m off }`, 'safety.rule', body)).toEqual(second);
    expect(told(`${ask} hazard hot "heat" while m running { warning "Hot." }`, 'safety.unsafe-stop', body)).toEqual(
      second,
    );
  });

  test('names the call in which it is changed', () => {
    const declared = 'procedure ask () { step set v open }';
    expect(told(declared, 'safety.left-changed', 'do ask step set v closed do ask')).toEqual(second);
    expect(told(declared, 'safety.left-changed', 'if "Wet?" { do ask } else { do ask }')).toEqual([undefined]);
  });
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

test('a fix in what is done by what is done several times says so too', () => {
  const wait = (calls: string) =>
    findingsOf(
      `${spin}  step run x running for 10 s
}
procedure twice (x: motor) { do spin(x) step wait 30 s do spin(x) }
procedure once (x: motor) { do spin(x) }
card a "A" {
  ${calls}
}`,
      { only: ['duty'] },
    ).map(({ fixes }) => fixes.map(({ title }) => title));
  expect(wait('do twice(m)')).toEqual([['Insert: step wait 30 s']]);
  expect(wait('do twice(m) step wait 60 s do twice(m)')).toEqual([['Insert: step wait 30 s (in every “do twice”)']]);
  expect(wait('do twice(m) step wait 30 s do twice(m)')).toEqual([['Insert: step wait 30 s (in every “do spin”)']]);
  expect(wait('repeat 2 times { do once(m) step wait 30 s }')).toEqual([['Insert: step wait 30 s']]);
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

test('a card that is done there, and what it assumes', () => {
  const [finding] = findingsOf(
    `${spin}  step "Look." }
card drained "Drained" { assume v open step "Look." }
procedure both () { do drained }
card a "A" { step set v open do both step set v closed do both }`,
    { only: ['safety.not-assumed'] },
  );
  expect(finding?.message).toContain('This is so in the second “do both”.');
});

test('a loop that is left only where it is done with something else', () => {
  const [finding] = findingsOf(
    `${spin}  step again: "Look." if w open { go to again } }
item w : valve "the other valve"
card a "A" { step set w closed do spin(m) step set w open do spin(m) }`,
    { only: ['flow.endless'] },
  );
  expect(finding?.message).toContain('This is so in the second “do spin”.');
});

test('a `keep` that fails while something is done fails where it is written', () => {
  const [finding] = findingsOf(
    `${spin}  step { set x running wait 1 s set x off } }
item w : valve "the other valve"
rule safe "Safe" { at stop require v open }
card a "A" { do spin(m) keep w open do spin(m) }`,
    { only: ['safety.rule'] },
  );
  expect(finding?.message).not.toContain('do spin');
  expect(finding?.path.map(({ text }) => text)).toEqual([
    'the valve is closed since the start',
    'what is to be kept no longer holds, in the second “do spin”',
    'the card stops',
  ]);
});

describe('in a procedure that another one does', () => {
  const told = (calls: string) => {
    const text = `${spin}  step { set x running wait 1 s set x off } }
procedure twice () { do spin(m) step set v open do spin(m) step set v closed }
procedure then (y: valve) { step set y open do spin(m) step set y closed do spin(m) }
card a "A" { ${calls} }`;
    return findingsOf(text, { only: ['safety.rule'] }).map(({ message, path }) => [
      /This is so in .*/u.exec(message)?.[0] ?? '',
      path.slice(-2).map(({ place }) => text.slice(place.start, place.end)),
    ]);
  };
  const inSpin = expect.any(Array);

  test('its place there is named, wherever that is done', () => {
    expect(told('do twice')).toEqual([['This is so in the second “do spin”.', inSpin]]);
    expect(told('do twice do twice')).toEqual([['This is so in the second “do spin”.', inSpin]]);
  });

  test('and where that is done, if it is so in one of them', () => {
    expect(told('step set v open do twice do twice')).toEqual([
      ['This is so in the first “do spin” in the first “do twice” and the second “do spin”.', inSpin],
    ]);
    const rest = 'step wait 1 s';
    expect(told(`do then(v) ${rest} do then(v)`)).toEqual([['This is so in the first “do spin”.', inSpin]]);
  });

  test('in the order of the card, whichever is come to sooner', () => {
    const text = `${spin}  step { set x running wait 1 s set x off } }
card a "A" {
  step set v open
  if "Is it wet?" { step set v closed step set v open do spin(m) } else { do spin(m) }
  step set v closed
  do spin(m)
}`;
    const [finding] = findingsOf(text, { only: ['safety.rule'] });
    expect(finding?.message).toContain('This is so in the first “do spin” and the second “do spin”.');
  });

  test('how often, where there are many', () => {
    const text = `kind motor { off, running }
item m, n, o : motor normally off
rule wet "Wet" { before n running require m running }
procedure spin () { step takes 0 s set n running step takes 0 s set n off }
procedure both () { do spin if o running { step set m running } else { step set m off } do spin }
card a "A" {
  step set o running do both step set m off do both
  step set o off, m running do both step set m running do both
}`;
    const [finding] = findingsOf(text, { only: ['safety.rule'] });
    expect(finding?.message).toContain('This is so in 4 of the places where “do spin” is done.');
  });

  test('which it is alone, if it is so in all of its places', () => {
    const text = 'step set v open do both step set v closed do both';
    const both = 'procedure both () { do spin(m) step "Look." do spin(m) }';
    const [finding] = findingsOf(
      `${spin}  step { set x running wait 1 s set x off } }\n${both} card a "A" { ${text} }`,
      {
        only: ['safety.rule'],
      },
    );
    expect(finding?.message).toContain('This is so in the first “do both”.');
  });
});

test('of another procedure that does it, it says which of all it is', () => {
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
  expect(finding?.message).toContain('This is so in the first “do spin” and the fourth “do spin”.');
});

test('the rounds of a for each do it at one place', () => {
  const text = (body: string) => `kind motor { off, running }
kind valve { closed, open }
item m, n : motor normally off
item v : valve normally closed
rule closed "Closed" { before m running require v closed }
procedure spin (x: motor) { step { set x running wait 1 s set x off } }
card a "A" { step set v open ${body} step set v closed }`;
  const told = (body: string) =>
    findingsOf(text(body), { only: ['safety.rule'] }).map(({ message }) => /This is so in .*/u.exec(message)?.[0]);
  expect(told('for each x in motor { do spin(x) }')).toEqual([undefined]);
  expect(told('for each x in motor { do spin(x) } do spin(n)')).toEqual(['This is so in the first “do spin”.']);
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

const pairs = `kind motor { off, running }
kind valve { closed, open }
item m1, m2 : motor normally off
item v1, v2 : valve normally closed
gauge p1 in bar gauge p2 in bar
`;

/** What a text becomes with the first fix for a code. */
function mended(text: string, code: string): string | undefined {
  const [fix] = findingsOf(text, { only: [code] }).flatMap(({ fixes }) => fixes);
  return fix && applyFix(text, fix);
}

test('what is written into a procedure goes by the names of its parameters, and is put back in all that it is done with', () => {
  const rules = 'rule a "A" { before m1 running require v1 open } rule b "B" { before m2 running require v2 open }';
  const text = `${pairs}${rules}
procedure start(x : motor, v : valve) {
  step set x running
}
card a "A" {
  do start(m1, v1)
  do start(m2, v2)
  step set m1 off, m2 off
}`;
  const after = mended(text, 'safety.rule') ?? '';
  expect(after).toContain('  step set v open\n  step set x running');
  expect(after).toContain('m2 off\n  step set v2 closed, v1 closed');
  expect(findingsOf(after, { only: ['safety'] })).toEqual([]);
});

test('what is read in a procedure goes by the name of the parameter', () => {
  const rule = 'rule a "A" { before m1 running require p1 above 2 bar }';
  const text = `${pairs}${rule}
procedure start(x : motor, p : gauge) { step run x running for 5 s }
card a "A" { do start(m1, p1) do start(m2, p2) }`;
  expect(mended(text, 'safety.rule')).toContain('step read p above 2 bar step run x');
});

test('what is written into the rounds of a for each goes by its name', () => {
  const text = `${pairs}
card a "A" {
  for each v in valve { step check v open  step set v closed }
}`;
  expect(mended(text, 'flow.never-passes')).toContain('step set v open step check v open');
});

test('what has another name in each call is not written', () => {
  const rule = 'rule a "A" { before m1 running require v1 open }';
  const text = `${pairs}${rule}
procedure start(x : motor, v : valve, w : valve) { step run x running for 5 s }
card a "A" { do start(m1, v1, v2) do start(m1, v2, v1) }`;
  const [finding] = findingsOf(text, { only: ['safety.rule'] });
  expect(finding?.fixes).toEqual([]);
});

test('what a parameter hides is not written', () => {
  const rule = 'rule a "A" { before m1 running require v1 open }';
  const text = `${pairs}${rule}
procedure start(x : motor, v1 : valve) { step run x running for 5 s }
card a "A" { do start(m1, v2) }`;
  const [finding] = findingsOf(text, { only: ['safety.rule'] });
  expect(finding?.fixes).toEqual([]);
});

test('protection that is put on for a run in a procedure is taken off in it', () => {
  const hazard = 'hazard a "A" while m1 running { warning "It is hot." protect v1 open }';
  const text = `${pairs}${hazard}
procedure start(x : motor, v : valve) { warning a step run x running for 5 s }
card a "A" { do start(m1, v1) do start(m2, v2) }`;
  const after = mended(text, 'safety.unprotected') ?? '';
  expect(after).toContain('step set v open step run x running for 5 s step set v closed');
});

describe('a run of several items without a known end', () => {
  const text = (duty2: string) => `kind motor { off, running }
item m1 : motor normally off { duty running at most 10 min }
item m2 : motor normally off ${duty2}
procedure start(x : motor) { step set x running }
card a "A" {
  do start(m1)
  do start(m2)
  step "Look at them."
  step set m1 off, m2 off
}`;
  const runs = (duty2: string) =>
    findingsOf(text(duty2), { only: ['duty.unbounded'] }).map(({ fixes }) => fixes.map(({ title }) => title));
  const fix = (minutes: number) => [`Change to: run x running for ${minutes} min (in every “do start”)`];

  test('gets an end that goes by the name of the parameter', () => {
    expect(runs('{ duty running at most 10 min }')).toEqual([fix(10), fix(10)]);
  });

  test('gets none that one of them must not run for, or need not end', () => {
    expect(runs('{ duty running at most 5 min }')).toEqual([[], fix(5)]);
    expect(runs('')).toEqual([[]]);
  });
});

describe('a bound that is asked for in each round or call', () => {
  const gauges = `gauge g "wash pressure" in bar { reads 0 to 10 by 1 limit ok 2 bar to 4 bar }
gauge h "rinse pressure" in bar { reads 0 to 10 by 1 limit ok 2 bar to 6 bar }
`;
  const fixesOf = (code: string, body: string, before = '') =>
    findingsOf(`${gauges}${before}card a "A" { ${body} }`, { only: [code] }).map(({ fixes }) =>
      fixes.map(({ title }) => title),
    );

  test('is not drawn in for one of them', () => {
    const each = (values: string, asked: string) =>
      fixesOf('limit.looser', `for each x in ${values} { step ${asked} }`);
    expect(each('2, 3, 5 bar', 'wait until g at most x within 5 min')).toEqual([[]]);
    expect(each('3, 5 bar', 'read g 2 bar to x')).toEqual([[]]);
    expect(each('20, 30 psi', 'read g at least x')).toEqual([[]]);
    expect(each('1, 2 s', 'read g at most 8 bar')).toEqual([['Tighten to at most 4 bar']]);
    const procedure = 'procedure look(p : gauge) { step read p at most 8 bar }';
    expect(fixesOf('limit.looser', 'do look(g) do look(h)', procedure)).toEqual([[], []]);
    expect(fixesOf('limit.looser', 'do look(g) step "Wait." do look(g)', procedure)).toEqual([
      ['Tighten to at most 4 bar (in every “do look”)'],
    ]);
  });

  test('ends no other branch of all of them', () => {
    const row = (most: string) =>
      fixesOf(
        'flow.overlap',
        `for each x in 3, 5 bar { if g at most ${most} { step "A." } else if g at least 2 bar { step "B." } }`,
      );
    expect(row('x')).toEqual([[], []]);
    expect(row('4 bar')).toEqual([['Change the second to: above 4 bar']]);
  });

  test('leaves a value out, which is said of each gauge by the name of the parameter', () => {
    const look = (most: string, least: string) =>
      `procedure look(p : gauge) { if p ${most} { step "A." } else if p ${least} { step "B." } }\n`;
    const fix = 'Insert: else { stop "Report that {p} is above 4 bar and below 6 bar." } (in every “do look”)';
    const body = 'do look(g) do look(h)';
    expect(fixesOf('flow.gap', body, look('at most 4 bar', 'at least 6 bar'))).toEqual([[fix], [fix]]);
    expect(fixesOf('flow.gap', body, look('at most 3 bar', 'in ok'))).toEqual([[], []]);
  });

  test('leaves another value out in each round, which no text can say', () => {
    const row = 'if g at most x { step "A." } else if g above 8 bar { step "B." }';
    expect(fixesOf('flow.gap', `for each x in 3, 5 bar { ${row} }`)).toEqual([[], []]);
  });
});

test('what a card shows by itself too is told once, without the calls', () => {
  const text = `${spin}}
card d "D" {
  step { set m running wait 1 s set m off }
  //     ^^^^^^^^^^^^^ safety.rule
}
card b "B" {
  do d
  step set v closed
  do d
}`.replace('valve "the valve" normally closed', 'valve "the valve"');
  const [finding] = check(text, { only: ['safety'] });
  expect(finding?.message).not.toContain('do d');
});

test('a procedure that is come to and has no step that is reached is done all the same', () => {
  const text = `${pairs}procedure look() { if v1 open { step set v2 open } }
card a "A" { do look step set v1 open do look step set v1 closed, v2 closed }`;
  const [finding] = findingsOf(text, { only: ['flow.unreachable'] });
  expect(finding?.message).toContain('Done here, “look” has a step that no path reaches.');
  expect(finding?.fixes).toEqual([]);
});
