/** Rules, hazards and what is left behind, at each edge of their meaning. */
import { describe, expect, test } from 'vitest';
import { card, kinds, proofOf } from './prove.ts';

const drain = 'item drain : valve "the drain valve" normally closed';
const lid = 'item lid : valve "the lid" normally closed';
const cap = 'item cap : valve "the cap"';
const machine = [kinds, drain, lid, cap].join('\n');

function prove(declared: string, body: string, fields = '') {
  return proofOf([machine, declared, card(body, fields)].join('\n'));
}

function rules(declared: string, body: string, fields = ''): string[] {
  const { proof, at } = prove(`rule r "R" { ${declared} }`, body, fields);
  return proof.rules.map(({ place }) => at(place));
}

describe('before', () => {
  test('is asked where it becomes so, not where it is so already', () => {
    const declared = 'before drain open require lid open';
    expect(rules(declared, 'step { set drain open set drain open set drain closed }')).toEqual(['set drain open']);
    expect(rules(declared, 'step set drain closed')).toEqual([]);
    expect(rules(declared, 'step { run drain open for 1 s }')).toEqual(['run drain open for 1 s']);
    expect(
      rules(declared, 'step ensure drain open step set drain closed', 'assume drain open leaves drain open'),
    ).toEqual([]);
  });

  test('looks at what is so just before', () => {
    expect(rules('before drain open require drain closed', 'step { set drain open set drain closed }')).toEqual([]);
    expect(
      rules(
        'before drain open require lid closed',
        'step { set lid open set drain open set drain closed set lid closed }',
      ),
    ).toEqual(['set drain open']);
  });

  test('of two things at once, whichever comes last', () => {
    const declared = 'before drain open and lid open require cap closed';
    expect(rules(declared, 'step { set drain open set lid open set drain closed set lid closed }')).toEqual([
      'set lid open',
    ]);
    expect(rules(declared, 'step { set lid open set drain open set drain closed set lid closed }')).toEqual([
      'set drain open',
    ]);
    expect(rules(declared, 'step { set lid open set lid closed set drain open set drain closed }')).toEqual([]);
  });

  test('of either of two things, each', () => {
    const declared = 'before drain open or lid open require cap closed';
    expect(rules(declared, 'step { set drain open set lid open set drain closed set lid closed }')).toEqual([
      'set drain open',
      'set lid open',
    ]);
  });

  test('something is no longer so', () => {
    const declared = 'before not drain closed require cap closed';
    expect(rules(declared, 'step { set drain open set drain closed }')).toEqual(['set drain open']);
    expect(rules(declared, 'step { set lid open set lid closed }')).toEqual([]);
  });

  test('any of a kind', () => {
    expect(rules('before any valve open require cap closed', 'step { set lid open set lid closed }')).toEqual([
      'set lid open',
    ]);
    expect(
      rules(
        'before every valve open require drain open',
        'step { set cap open set lid open set drain open set drain closed set lid closed }',
      ),
    ).toEqual(['set drain open']);
  });
});

describe('while', () => {
  test('is told where it comes about, by either side', () => {
    const declared = 'while drain open require lid open';
    expect(rules(declared, 'step { set drain open set drain closed }')).toEqual(['set drain open']);
    expect(rules(declared, 'step { set lid open set drain open set lid closed set drain closed }')).toEqual([
      'set lid closed',
    ]);
    expect(rules(declared, 'step { set lid open set drain open set drain closed set lid closed }')).toEqual([]);
    expect(rules(declared, 'step { set lid open run drain open for 1 s set lid closed }')).toEqual([]);
    expect(rules(declared, 'step { set drain open wait 1 s set cap open set drain closed }')).toEqual([
      'set drain open',
    ]);
  });

  test('again where it came about again', () => {
    expect(
      rules(
        'while drain open require lid open',
        'step { set drain open set lid open set lid closed set drain closed }',
      ),
    ).toEqual(['set drain open', 'set lid closed']);
  });

  test('the end of a run brings back what was', () => {
    expect(
      rules(
        'while drain open require lid open',
        'step { set lid open set drain open run lid closed for 1 s set drain closed set lid closed }',
      ),
    ).toEqual(['run lid closed for 1 s']);
    expect(
      rules(
        'while lid closed require drain closed',
        'step { set lid open set drain open run lid open for 1 s set drain closed set lid closed }',
      ),
    ).toEqual([]);
    expect(
      rules('while drain open require lid open', 'step { set drain open run lid open for 1 s set drain closed }'),
    ).toEqual(['set drain open', 'run lid open for 1 s']);
  });

  test('what is broken from the start is told at the first touch, a check is none', () => {
    const declared = 'while lid closed require drain open';
    expect(rules(declared, 'step { check cap closed set cap open }')).toEqual(['set cap open']);
    expect(rules(declared, 'step { wait 1 s } step { wait 2 s }')).toEqual(['wait 1 s']);
    expect(rules(declared, 'step "Look."')).toEqual([]);
    expect(prove(`rule r "R" { ${declared} }`, 'step { wait 1 s }').proof.rules[0]?.sinceStart).toBe(true);
  });

  test('by a reading: while it is met it is not asked again', () => {
    const oil = 'gauge oil "oil" in psi rule r "R" { while oil above 5 psi require lid open }';
    const at = (body: string) => {
      const { proof, at: said } = prove(oil, body);
      return proof.rules.map(({ place }) => said(place));
    };
    expect(at('step { read oil above 5 psi set drain open set drain closed }')).toEqual(['set drain open']);
    expect(at('step { read oil below 5 psi set drain open set drain closed }')).toEqual([]);
    expect(at('step { set lid open read oil above 5 psi set drain open set lid closed set drain closed }')).toEqual([]);
  });

  test('a requirement on a reading must be known', () => {
    const oil = 'gauge oil "oil" in psi rule r "R" { while drain open require oil above 5 psi }';
    const count = (body: string) => prove(oil, body).proof.rules.length;
    expect(count('step { read oil above 5 psi set drain open wait 1 s set drain closed }')).toBe(0);
    expect(count('step { set drain open set drain closed }')).toBe(1);
    expect(count('step { read oil below 5 psi set drain open set drain closed }')).toBe(1);
  });

  test('a reading that nobody has taken since the start is missed at the first touch, and not by a look', () => {
    const oil = 'gauge oil "oil" in psi rule r "R" { while lid closed require oil above 5 psi }';
    const { proof, at } = prove(oil, 'step "Look." step { set cap open }');
    expect(proof.rules.map(({ place }) => at(place))).toEqual(['set cap open']);
  });
});

describe('at the end, at a stop', () => {
  test('each finish, each stop', () => {
    const text = (trigger: string) =>
      rules(
        `${trigger} require lid closed`,
        'step set lid open if "A?" { finish } if "B?" { stop "No." } step check "Well?" step set lid closed',
      );
    expect(text('at end')).toEqual(['finish']);
    expect(text('at stop')).toEqual(['stop "No."', 'check "Well?"']);
  });

  test('what is not known there is broken', () => {
    expect(rules('at end require cap closed', 'step wait 1 s')).toHaveLength(1);
    expect(rules('at end require cap closed', 'step check cap closed')).toEqual([]);
    expect(rules('at end require cap closed', 'step { check cap closed set cap open set cap closed }')).toEqual([]);
  });

  test('a stage for a stop may mend it', () => {
    const body = (safe: string) =>
      `stage "A" { step set lid open step check "Well?" step set lid closed } stage "Safe" when stopped { ${safe} }`;
    expect(rules('at stop require lid closed', body('step set lid closed'))).toEqual([]);
    expect(rules('at stop require lid closed', body('step wait 1 s'))).toEqual(['check "Well?"']);
    expect(rules('at stop require lid closed', body('step check "Is it?" step set lid closed'))).toEqual([
      'check "Well?"',
    ]);
    const lanes = 'together { by one { step check lid closed } by two { step wait 1 s } } step set lid closed';
    expect(rules('at stop require lid closed', body(lanes))).toEqual(['check "Well?"']);
  });
});

describe('hazards', () => {
  const hot = (protect = '') => `hazard hot "heat" while drain open { warning "Hot." ${protect} }`;
  const told = (body: string, declared = hot(), fields = '') => {
    const { proof, at } = prove(declared, body, fields);
    return proof.hazards.map(({ place, late }) => `${at(place)}${late ? ' late' : ''}`);
  };

  test('shown before, late, or not at all', () => {
    expect(told('warning hot step { set drain open set drain closed }')).toEqual([]);
    expect(told('step { set drain open } warning hot step { set drain closed }')).toEqual(['set drain open late']);
    expect(told('step { set drain open set drain closed }')).toEqual(['set drain open']);
    expect(told('warning "Hot." step { set drain open set drain closed }')).toEqual(['set drain open']);
  });

  test('of the level or above', () => {
    expect(told('danger hot step { set drain open set drain closed }')).toEqual([]);
    expect(told('caution hot step { set drain open set drain closed }')).toEqual(['set drain open']);
    expect(told('note hot step { set drain open set drain closed }')).toEqual(['set drain open']);
    const mild = 'hazard hot "heat" while drain open { caution "Hot." }';
    expect(told('caution hot step { set drain open set drain closed }', mild)).toEqual([]);
    expect(told('note hot step { set drain open set drain closed }', mild)).toEqual(['set drain open']);
  });

  test('on every path', () => {
    expect(told('if "A?" { warning hot } step { set drain open set drain closed }')).toEqual(['set drain open']);
    expect(told('if "A?" { warning hot } else { warning hot } step { set drain open set drain closed }')).toEqual([]);
    expect(told('step { set drain open } if "A?" { warning hot } step { set drain closed }')).toEqual([
      'set drain open late',
    ]);
  });

  test('each begin is told', () => {
    expect(told('step { set drain open set drain closed set drain open set drain closed }')).toHaveLength(2);
    expect(told('step { set drain open wait 1 s set drain closed }')).toHaveLength(1);
  });

  test('for another hazard counts nothing', () => {
    const two = `${hot()} hazard wet "water" while drain open { warning "Wet." }`;
    expect(told('warning wet step { set drain open set drain closed }', two)).toEqual(['set drain open']);
  });

  test('protected while it is active', () => {
    const at = (body: string) => {
      const { proof, at: said } = prove(hot('protect lid open'), `warning hot ${body}`);
      return proof.unprotected.map(({ place }) => said(place));
    };
    expect(at('step { set lid open set drain open set drain closed set lid closed }')).toEqual([]);
    expect(at('step { set drain open set drain closed }')).toEqual(['set drain open']);
    expect(at('step { set lid open set drain open set lid closed set drain closed }')).toEqual(['set lid closed']);
    expect(at('if "A?" { step set lid open } step { set drain open set drain closed set lid closed }')).toEqual([
      'set drain open',
    ]);
  });

  test('each stop with the hazard still there', () => {
    const at = (body: string) => {
      const { proof, at: said } = prove(hot(), `warning hot ${body}`);
      return proof.unsafeStops.map(({ place }) => said(place));
    };
    expect(at('step { set drain open check "A?" check "B?" set drain closed check "C?" }')).toEqual([
      'check "A?"',
      'check "B?"',
    ]);
    expect(at('step { check "A?" set drain open set drain closed check "B?" }')).toEqual([]);
  });

  test('a stage for stops that itself stops too early is told where it does', () => {
    const at = (stage: string) => {
      const body = 'stage "A" { step { set drain open check "A?" set drain closed } }';
      const { proof, at: said } = prove(hot(), `warning hot ${body} stage "Safe" when stopped { ${stage} }`);
      return proof.unsafeStops.map(({ place }) => said(place));
    };
    expect(at('step { check "B?" set drain closed }')).toEqual(['check "B?"']);
    expect(at('step { set drain closed check "B?" }')).toEqual([]);
    expect(at('step "Look."')).toEqual(['check "A?"']);
  });
});

describe('what is left', () => {
  const left = (body: string, fields = '') => {
    const { proof, at } = prove('', body, fields);
    return proof.leftChanged.map(
      ({ place, item, left: states, wanted }) =>
        `${at(place)}: ${states.map((state) => item.kind.states[state]?.name)} not ${item.kind.states[wanted]?.name}`,
    );
  };

  test('the last change that was not taken back, on any path to a finish', () => {
    expect(left('step set lid open')).toEqual(['set lid open: open not closed']);
    expect(left('step { set lid open set lid closed }')).toEqual([]);
    expect(left('step set lid open if "A?" { step set lid closed }')).toEqual(['set lid open: open not closed']);
    expect(left('step { set lid open set lid closed set lid open }')).toHaveLength(1);
    expect(left('step { set lid open wait 1 s ensure lid open }')).toEqual(['set lid open: open not closed']);
    expect(left('step set cap open')).toEqual([]);
    expect(left('step run lid open for 1 s')).toEqual([]);
    expect(left('step { set lid open } stop "No."')).toEqual([]);
  });

  test('each state may be the one to go back to', () => {
    const tap = (body: string) => prove('item tap : valve "the tap" normally open', body).proof.leftChanged.length;
    expect([tap('step { set tap closed set tap open }'), tap('step set tap closed')]).toEqual([0, 1]);
  });

  test('two changes on two paths', () => {
    expect(left('if "A?" { step { set lid open wait 1 s } } else { step { set lid open wait 2 s } }')).toHaveLength(2);
  });

  test('a run brings back what was, and how it came to be', () => {
    expect(left('step { set lid open run lid closed for 1 s }')).toEqual(['set lid open: open not closed']);
    expect(left('step { set lid open run lid closed for 1 s set lid closed }')).toEqual([]);
  });

  test('leaves says that it stays so', () => {
    expect(left('step set lid open', 'leaves lid open')).toEqual([]);
    expect(left('step { set lid open set lid closed }', 'leaves lid open')).toEqual([]);
    expect(left('step wait 1 s', 'assume lid open')).toEqual(['lid open: open not closed']);
    expect(left('step set lid closed', 'assume lid open')).toEqual([]);
    expect(left('step wait 1 s', 'assume lid closed')).toEqual([]);
    expect(left('step set lid open', 'assume lid open')).toEqual(['lid open: open not closed']);
  });

  test('a set that never changes anything', () => {
    const idle = (body: string, fields = '') => {
      const { proof, at } = prove('', body, fields);
      return proof.noChange.map(({ place }) => at(place));
    };
    expect(idle('step set lid closed')).toEqual(['set lid closed']);
    expect(idle('step { set lid open set lid open set lid closed }')).toEqual(['set lid open']);
    expect(idle('step set cap closed')).toEqual([]);
    expect(idle('step ensure lid closed')).toEqual([]);
    expect(idle('if "A?" { step set lid open } step set lid closed')).toEqual([]);
    expect(idle('step { check cap closed set cap closed }')).toEqual(['set cap closed']);
  });
});

describe('a card that is done', () => {
  const other =
    'card other "Other" { number "T-2" revision "A" crew one "One" assume cap closed, lid open leaves lid open step wait 1 s }';
  const told = (body: string) => {
    const { proof, at } = prove(other, body);
    return proof.notAssumed.map(({ place, item, possible }) => `${at(place)}: ${item.name} ${possible}`);
  };

  test('may not find what it assumes', () => {
    expect(told('step { set cap closed set lid open } do other step set lid closed')).toEqual([]);
    expect(told('step { set lid open } do other step set lid closed')).toEqual(['do other: cap 0,1']);
    expect(told('step { set cap closed } do other step set lid closed')).toEqual(['do other: lid 0']);
    expect(told('do other step set lid closed')).toEqual(['do other: cap 0,1', 'do other: lid 0']);
  });

  test('goes on as if it had', () => {
    const { proof } = prove(
      `${other} rule r "R" { before drain open require cap closed }`,
      'do other step { set drain open set drain closed set lid closed }',
    );
    expect(proof.rules).toEqual([]);
  });
});

test('what a rule hangs on and nobody has settled is told with it', () => {
  const rule = 'rule r "R" { while cap open require lid closed }';
  const [open] = prove(rule, 'step set lid open step set lid closed').proof.rules;
  expect(open?.mayBeMet.map((term) => term.type === 'item' && term.item.label)).toEqual(['the cap']);
  const [settled] = prove(rule, 'step set cap open step set lid open step set lid closed').proof.rules;
  expect(settled?.mayBeMet).toEqual([]);
});

test('what the card itself brings about was not so since the start', () => {
  const since = (declared: string, body: string) =>
    prove(`rule r "R" { ${declared} }`, body).proof.rules.map(({ sinceStart }) => sinceStart);
  const opens = 'step { set drain open set drain closed }';
  expect(since('before drain open require lid open', opens)).toEqual([false]);
  expect(since('while drain open require lid open', opens)).toEqual([false]);
  expect(since('at end require lid open', opens)).toEqual([false]);
  expect(since('while cap open require lid open', 'step { check cap closed set cap open set cap closed }')).toEqual([
    false,
  ]);
  expect(since('while lid closed require drain open', 'step { wait 1 s }')).toEqual([true]);
});

test('what the move itself makes of an item was not so since the start', () => {
  const { proof } = prove(
    'rule r "R" { while drain open require cap open }',
    'step { check cap open set drain open set cap closed set drain closed }',
  );
  expect(proof.rules.map(({ path }) => path.map(({ happens }) => happens.type))).toEqual([['set']]);
});

test('what came about by itself was not so since the start', () => {
  const flap = 'item flap : valve "the flap" may open gauge oil "oil" in psi';
  const rule = 'rule r "R" { while flap open require oil above 5 psi }';
  const { proof } = prove(
    `${flap} ${rule}`,
    'step check flap closed step "Look." step set lid open step set lid closed',
  );
  expect(new Set(proof.rules.map(({ sinceStart }) => sinceStart))).toEqual(new Set([false]));
});

test('what is wrong is told as the move leaves it', () => {
  const unmet = (body: string, require = 'lid open') => {
    const { proof } = prove(`rule r "R" { while drain open require ${require} }`, body);
    return proof.rules.map((one) =>
      one.unmet.map((term) =>
        term.type === 'item' ? `${term.item.name} ${term.possible} not ${term.wanted}` : term.type,
      ),
    );
  };
  expect(unmet('step { set lid open set drain open set lid closed set drain closed }')).toEqual([['lid 0 not 1']]);
  expect(unmet('step { set drain open set drain closed }')).toEqual([['lid 0 not 1']]);
  expect(unmet('step { set drain open set drain closed }', 'cap open')).toEqual([['cap 0,1 not 1']]);
});

test('of two items of which either may be wrong both are told', () => {
  const vent = 'item vent : valve "the vent valve"';
  const { proof } = prove(`${vent}\nrule r "R" { at end require cap closed and vent closed }`, 'step "Look."');
  expect(proof.rules[0]?.unmet).toMatchObject([{ item: { name: 'cap' } }, { item: { name: 'vent' } }]);
});

test('a check of one of two is known where the other cannot be so', () => {
  const sure = (body: string) =>
    rules('before drain open require cap open', `if cap open or lid open { ${body} }`).length;
  expect(sure('step { set drain open set drain closed }')).toBe(0);
  expect(
    rules(
      'before drain open require cap open',
      'if "A?" { step set lid open } if cap open or lid open { step { set drain open set drain closed } } step set lid closed',
    ),
  ).toEqual(['set drain open']);
});

test('a rule is broken by what is done, not by what a card that is done assumes', () => {
  const other = 'card other "Other" { number "T-2" revision "A" assume lid open step "Look." }';
  const { proof, at } = prove(
    `${other} rule r "R" { while drain open require lid closed }`,
    'step set drain open do other step set drain closed',
  );
  expect(proof.notAssumed.map(({ place }) => at(place))).toEqual(['do other']);
  expect(proof.rules).toEqual([]);
});
