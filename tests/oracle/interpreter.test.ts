/** The oracle itself, held against cards whose verdicts can be read off by hand. */
import { describe, expect, test } from 'vitest';
import { bindCard } from './engine.ts';
import { runEverything } from './interpreter.ts';
import { placeOfKey, type Verdict } from './verdicts.ts';

const KINDS = `
kind valve { closed, open }
kind pump { off, on }
kind lamp seen { dark, lit }
`;

function seenOn(equipment: string, body: string) {
  const text = `${KINDS}${equipment}\ncard trial "A trial" {\n${body}\n}`;
  return { text, seen: runEverything(bindCard(text)) };
}

/** Each verdict as `code subject: the text where it stands`. */
function verdicts(equipment: string, body: string): readonly string[] {
  const { text, seen } = seenOn(equipment, body);
  return inWords(text, seen.verdicts());
}

function mayBeTold(equipment: string, body: string): readonly string[] {
  const { text, seen } = seenOn(equipment, body);
  return inWords(text, seen.verdictsThatMayBeTold());
}

function inWords(text: string, found: readonly Verdict[]): readonly string[] {
  return found
    .map(({ code, place, subject }) => {
      const { start, end } = placeOfKey(place);
      return `${code} ${subject}: ${text.slice(start, end)}`;
    })
    .sort();
}

const TWO_VALVES = 'item alpha : valve normally closed\nitem bravo : valve normally closed verify';

describe('rules', () => {
  const rule = (text: string) => `${TWO_VALVES}\nrule first "First" { ${text} }`;

  test('before: asked of the states just before the change, on every start', () => {
    expect(
      verdicts(rule('before alpha open require bravo closed'), 'step { set alpha open } step { set alpha closed }'),
    ).toEqual(['safety.rule first: set alpha open']);
    expect(
      verdicts(
        rule('before alpha open require bravo closed'),
        'step { check bravo closed set alpha open } step { set alpha closed }',
      ),
    ).toEqual([]);
  });
  test('before: not asked where nothing changes', () => {
    expect(verdicts(rule('before alpha closed require bravo open'), 'step { ensure alpha closed }')).toEqual([]);
  });
  test('while: once, where it becomes broken', () => {
    const body = 'step { check bravo closed } step { set alpha open } step { wait 1 s } step { set alpha closed }';
    expect(verdicts(rule('while alpha open require bravo open'), body)).toEqual(['safety.rule first: set alpha open']);
  });
  test('while: what is broken from the start, at the first action while it still is', () => {
    expect(
      verdicts(rule('while alpha closed require bravo open'), 'step { set bravo open set bravo closed }'),
    ).toContain('safety.rule first: set bravo closed');
    expect(
      verdicts(rule('while alpha closed require bravo open'), 'step { wait 1 s set bravo open set bravo closed }'),
    ).toContain('safety.rule first: wait 1 s');
  });
  test('at end: at the name where the card just ends', () => {
    expect(verdicts(rule('at end require bravo closed'), 'step { wait 1 s }')).toEqual(['safety.rule first: trial']);
  });
});

describe('readings', () => {
  const gauge =
    'item alpha : valve normally closed\ngauge air "air" in psi { reads 0 to 100 by 1 limit low 20 psi to 40 psi }\nrule known "Known" { before alpha open require air in low }';

  test('a reading counts until something is done', () => {
    expect(verdicts(gauge, 'step { read air in low set alpha open set alpha closed }')).toEqual([]);
    expect(verdicts(gauge, 'step { read air in low wait 1 s set alpha open set alpha closed }')).toEqual([
      'safety.rule known: set alpha open',
    ]);
  });
  test('two checks that together leave only the limit', () => {
    expect(
      verdicts(gauge, 'step { check air at least 20 psi check air at most 40 psi set alpha open set alpha closed }'),
    ).toEqual([]);
    expect(verdicts(gauge, 'step { check air at least 20 psi set alpha open set alpha closed }')).toEqual([
      'safety.rule known: set alpha open',
    ]);
  });
});

describe('hazards and needs', () => {
  const hot =
    'item alpha : valve normally closed\nitem bravo : valve normally closed\nhazard heat "heat" while alpha open { warning "Hot." protect bravo open }';

  test('missing, late and in time', () => {
    expect(verdicts(hot, 'step { set bravo open set alpha open } step { set alpha closed set bravo closed }')).toEqual([
      'safety.warning-missing heat: set alpha open',
    ]);
    expect(
      verdicts(hot, 'step { set bravo open set alpha open } warning heat step { set alpha closed set bravo closed }'),
    ).toEqual(['safety.warning-late heat: set alpha open']);
    expect(verdicts(hot, 'note heat step { set bravo open set alpha open set alpha closed set bravo closed }')).toEqual(
      ['safety.warning-missing heat: set alpha open'],
    );
    expect(
      verdicts(hot, 'danger heat step { set bravo open set alpha open set alpha closed set bravo closed }'),
    ).toEqual([]);
  });
  test('unprotected, and a stop that leaves it so', () => {
    expect(verdicts(hot, 'warning heat step { set alpha open } stop "Enough."')).toEqual([
      'safety.unprotected heat: set alpha open',
      'safety.unsafe-stop heat: stop "Enough."',
    ]);
  });
  test('a stop goes through the stages for it', () => {
    const body =
      'stage "A" { warning heat step { set bravo open set alpha open } step { check "Is it well?" } step { set alpha closed set bravo closed } }';
    expect(verdicts(hot, body)).toEqual(['safety.unsafe-stop heat: check "Is it well?"']);
    expect(verdicts(hot, `${body} stage "Safe" when stopped { step { set alpha closed } }`)).toEqual([]);
  });
  test('fed round a loop, and not', () => {
    const net = `item alpha : pump normally off needs power while on\nitem bravo : valve normally closed
      supply power "power" { source mains when bravo open link mains -> one link one <-> two link two -> mains link two -> alpha }`;
    expect(verdicts(net, 'step { set alpha on set alpha off }')).toEqual(['supply.not-fed alpha: set alpha on']);
    expect(verdicts(net, 'step { set bravo open set alpha on set alpha off set bravo closed }')).toEqual([]);
    expect(verdicts(net, 'step { set bravo open set alpha on set bravo closed set alpha off }')).toEqual([
      'supply.not-fed alpha: set bravo closed',
    ]);
  });
});

describe('putting back', () => {
  test('at the action that changed it, or at the assumption', () => {
    expect(verdicts(TWO_VALVES, 'step { set alpha open set alpha open }')).toEqual([
      'safety.left-changed alpha: set alpha open',
    ]);
    expect(verdicts(TWO_VALVES, 'assume alpha open\nstep { wait 1 s }')).toEqual([
      'safety.left-changed alpha: alpha open',
    ]);
    expect(verdicts(TWO_VALVES, 'leaves alpha open\nstep { set alpha open }')).toEqual([]);
    expect(verdicts(TWO_VALVES, 'step { ensure bravo open }')).toEqual([
      'safety.left-changed bravo: ensure bravo open',
    ]);
  });
});

describe('time', () => {
  const motor = (duty: string) => `item motor : pump normally off { duty on at most ${duty} }`;

  test('longest run, over steps and without an end', () => {
    expect(verdicts(motor('30 s'), 'step { set motor on wait 20 s } step { wait 10 s set motor off }')).toEqual([]);
    expect(verdicts(motor('30 s'), 'step { set motor on wait 20 s } step { wait 10 s to 11 s set motor off }')).toEqual(
      ['duty.too-long motor: set motor on'],
    );
    expect(verdicts(motor('30 s'), 'step { set motor on } step { set motor off }')).toEqual([
      'duty.unbounded motor: set motor on',
    ]);
  });
  test('a run that goes on round after round of a jump back has no end; one that a few rounds end has', () => {
    const until = (round: string) =>
      verdicts(motor('30 s'), `step { set motor on } ${round} step takes 1 s { set motor off }`).map(
        (each) => each.split(' ')[0],
      );
    expect(until('step again: { wait 10 s check "Is it warm?" else go to again }')).toEqual([
      'duty.too-long',
      'duty.unbounded',
    ]);
    expect(until('repeat 9 times { step { wait 10 s } }')).toEqual(['duty.too-long']);
    expect(until('step again: takes 0 s { check "Is it warm?" else go to again }')).toEqual([]);
    const anew = 'step again: { wait 40 s set motor off set motor on check "Is it warm?" else go to again }';
    expect(until(anew)).toEqual(['duty.too-long', 'duty.too-long']);
  });
  test('shortest rest', () => {
    const body = (rest: string) => `step { run motor on for 5 s wait ${rest} run motor on for 6 s }`;
    expect(verdicts(motor('30 s, then rest 60 s'), body('60 s to 90 s'))).toEqual([]);
    expect(verdicts(motor('30 s, then rest 60 s'), body('59 s to 90 s'))).toEqual([
      'duty.short-rest motor: run motor on for 6 s',
    ]);
  });
  test('lanes have one clock', () => {
    const lanes = (left: number) =>
      `crew l "L", r "R"\nstep { run motor on for 5 s } together { by l { step { wait ${left} s } } by r { step { wait 60 s } } } step { run motor on for 6 s }`;
    expect(verdicts(motor('30 s, then rest 60 s'), lanes(10))).toEqual([]);
    expect(verdicts(motor('30 s, then rest 90 s'), lanes(90))).toEqual([]);
    expect(verdicts(motor('30 s, then rest 90 s'), lanes(80))).toEqual(['duty.short-rest motor: run motor on for 6 s']);
  });
  test('how long a state has lasted', () => {
    const rule = `${TWO_VALVES}\nrule cooled "Cooled" { before bravo open require alpha closed for at least 1 min }`;
    const undo = 'set bravo closed';
    expect(verdicts(rule, `step { set bravo open ${undo} }`)).toEqual(['safety.rule cooled: set bravo open']);
    expect(verdicts(rule, `step { check alpha closed for at least 1 min set bravo open ${undo} }`)).toEqual([]);
    expect(verdicts(rule, `step { wait 60 s set bravo open ${undo} }`)).toEqual([]);
  });
});

describe('what goes by itself', () => {
  test('a lamp may be dark again after any action', () => {
    const lamp =
      'item alpha : valve normally closed\nitem light : lamp\nrule lit "Lit" { before alpha open require light lit }';
    expect(verdicts(lamp, 'step { check light lit set alpha open set alpha closed }')).toEqual([]);
    expect(verdicts(lamp, 'step { check light lit wait 1 s set alpha open set alpha closed }')).toEqual([
      'safety.rule lit: set alpha open',
    ]);
  });
  test('when a run ends it is known what its `until` has found', () => {
    const dark =
      'item alpha : valve normally closed\nitem light : lamp normally dark\nitem motor : pump normally off\nrule dark "Dark" { while alpha closed require light dark }';
    const run = 'run motor on until light dark within 9 s';
    expect(verdicts(dark, `step { wait 1 s ${run} }`)).toContain(`safety.rule dark: ${run}`);
    expect(verdicts(dark, 'step { wait 1 s run motor on for 9 s }')).toEqual(['safety.rule dark: wait 1 s']);
  });
  test('an item that may close, while its condition holds', () => {
    const drop =
      'item alpha : valve normally closed may closed when bravo open\nitem bravo : valve normally closed\nrule stays "Stays" { while bravo open require alpha open }';
    expect(verdicts(drop, 'step { set alpha open set bravo open set bravo closed set alpha closed }')).toEqual([
      'safety.rule stays: set bravo open',
    ]);
  });
});

describe('what breaks by itself', () => {
  const lamp =
    'item alpha : valve normally open\nitem light : lamp normally lit\nrule lit "Lit" { while alpha open require light lit }';

  test('must be told at the first place of a path where it may be, and at no later one', () => {
    expect(verdicts(lamp, 'step { wait 1 s wait 2 s }')).toEqual(['safety.rule lit: wait 1 s']);
    expect(mayBeTold(lamp, 'step { wait 1 s wait 2 s }')).toEqual([]);
    expect(verdicts(lamp, 'step { wait 1 s check light lit wait 2 s }')).toEqual([
      'safety.rule lit: wait 1 s',
      'safety.rule lit: wait 2 s',
    ]);
  });
  test('may be told again where the answer to a question may have told more than that it passed', () => {
    expect(verdicts(lamp, `step { wait 1 s check light dark or alpha open wait 2 s }`)).toEqual([
      'safety.rule lit: wait 1 s',
    ]);
    expect(mayBeTold(lamp, `step { wait 1 s check light dark or alpha open wait 2 s }`)).toEqual([
      'safety.rule lit: wait 2 s',
    ]);
  });
  test('is told at the first touch where it was so from the start', () => {
    const unknown = lamp.replace('lamp normally lit', 'lamp');
    expect(verdicts(unknown, 'step "Look." step { wait 1 s }')).toEqual(['safety.rule lit: wait 1 s']);
    expect(verdicts(lamp, 'step "Look." step { wait 1 s }')).toEqual(['safety.rule lit: step "Look."']);
  });
});

describe('two pairs of hands', () => {
  test('every interleaving counts', () => {
    const rule = `item alpha : valve normally closed\nitem bravo : valve normally closed\nrule never-both "Never both" { while alpha open require bravo closed }`;
    const lanes =
      'crew l "L", r "R"\ntogether { by l { step { set alpha open set alpha closed } } by r { step { set bravo open set bravo closed } } }';
    expect(verdicts(rule, lanes)).toEqual([
      'safety.rule never-both: set alpha open',
      'safety.rule never-both: set bravo open',
    ]);
  });
  test('the last change of two wins in each', () => {
    const rule = 'item alpha : valve normally closed\nrule shut "Shut" { at end require alpha closed }';
    const lanes = (right: string) =>
      `crew l "L", r "R"\ntogether { by l { step { set alpha open set alpha closed } } by r { step { ${right} } } }`;
    expect(verdicts(rule, lanes('set alpha closed'))).toEqual([]);
    const codes = verdicts(rule, lanes('run alpha open for 1 s')).map((each) => each.split(':')[0]);
    expect(codes).toContain('safety.rule shut');
  });
});
