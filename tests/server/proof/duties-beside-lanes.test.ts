/** Duties of an item beside lanes that set, ask and leave: all that matters is known in every interleaving. */
import { describe, expect, test } from 'vitest';
import { card, kinds, pathTold, proofOf } from './prove.ts';

const run = 'step run starter-1 cranking for 10 s';

function duties(duty: string, body: string, before = '') {
  const items = `item starter-1 : starter "the starter" normally off { duty cranking at most ${duty} }
item one-valve : valve "valve one"
item other-valve : valve "valve two"
item lamp-1 : lamp "the lamp"`;
  return proofOf([kinds, items, before, card(body)].join('\n')).proof.duties;
}

function told(duty: string, body: string, before?: string): string[] {
  return duties(duty, body, before).map(
    ({ sort, worst, limit }) => `${sort} ${worst?.valueOf() ?? 'any'}/${limit.valueOf()}`,
  );
}

describe('what another lane has found and done is known', () => {
  const rest = '60 s, then rest 240 s';

  test('a lane that did the same in the same case', () => {
    const sameCase = (second: string) => `together {
      by one { step takes 0 s if one-valve open { ${run} } }
      by two { step takes 0 s if one-valve open { step takes 0 s set other-valve open } else { step takes 0 s set other-valve closed } }
    } step takes 0 s if other-valve ${second} { ${run} }`;
    expect(told(rest, sameCase('closed'))).toEqual([]);
    expect(told(rest, sameCase('open'))).toEqual(['short-rest 0/240']);
  });

  test('a lane that takes its time only where the first has not run', () => {
    const slow = (state: string) => `together {
      by one { step takes 0 s if one-valve open { ${run} } }
      by two { step takes 0 s if one-valve ${state} { step wait 300 s } }
    } step takes 0 s if one-valve open { ${run} }`;
    expect(told(rest, slow('open'))).toEqual([]);
    expect(told(rest, slow('closed'))).toEqual(['short-rest 0/240']);
  });

  test('a lane that leaves only where the run has not begun', () => {
    const leaving = (state: string) => `step takes 0 s set one-valve closed together {
      by one { step takes 0 s { set one-valve open set starter-1 cranking } step wait 10 s step takes 0 s set starter-1 off }
      by two { step takes 0 s check one-valve ${state} else finish }
    }`;
    expect(told('60 s', leaving('open'))).toEqual([]);
    expect(told('60 s', leaving('closed'))).toEqual(['unbounded any/60']);
  });
});

test('what stops the card in a lane of a lane does so before any other lane goes on', () => {
  const lanes = `step takes 0 s set one-valve closed together {
    by one { together { by one { step takes 0 s check one-valve closed } by three { } } }
    by two { step takes 0 s { set one-valve open set one-valve closed set starter-1 cranking set starter-1 off } }
  }`;
  expect(told('60 s', lanes)).toEqual([]);
});

describe('a lane that leaves takes the others with it, at the latest time that any has come to', () => {
  const toldAround = (duty: string, lanes: string) =>
    told(
      duty,
      'step takes 0 s set starter-1 cranking do lanes() step takes 0 s set starter-1 off',
      `procedure lanes() { ${lanes} }`,
    );
  const leaving = (wait: string) => `together { by one { step wait ${wait} finish } by two { step wait 50 s } }`;

  test('the leaving lane is the latest', () => {
    expect(toldAround('60 s', leaving('61 s'))).toEqual(['too-long 61/60']);
    expect(toldAround('60 s', leaving('60 s'))).toEqual([]);
  });

  test('another lane is the latest', () => {
    expect(toldAround('49 s', leaving('1 s'))).toEqual(['too-long 50/49']);
    expect(toldAround('50 s', leaving('1 s'))).toEqual([]);
  });

  test('a lane of a lane leaves both', () => {
    const inner = `together {
      by one { together { by one { step wait 10 s } by two { step wait 5 s finish } } }
      by three { step wait 30 s }
    }`;
    expect(toldAround('29 s', inner)).toEqual(['too-long 30/29']);
    expect(toldAround('30 s', inner)).toEqual([]);
  });
});

describe('lanes of which no step is looked at', () => {
  test('rounds are as long as they are', () => {
    const rounds = `step takes 0 s set starter-1 cranking together {
      by one { repeat 3 times { step wait 20 s } }
      by two { step wait 5 s }
    } step takes 0 s set starter-1 off`;
    expect(told('59 s', rounds)).toEqual(['too-long 60/59']);
    expect(told('60 s', rounds)).toEqual([]);
  });

  test('a lane that may finish the card leaves the run without an end', () => {
    const finishing = `step takes 0 s set starter-1 cranking together {
      by one { step takes 0 s if "Done?" { finish } }
      by two { step wait 5 s }
    } step takes 0 s set starter-1 off`;
    expect(told('60 s', finishing)).toEqual(['unbounded any/60']);
  });

  test('lanes in a lane that is not timed come together in it', () => {
    const nested = `${run} together {
      by one { together { by one { step wait 100 s } by two { step wait 30 s } } together { by one { step wait 40 s } by two { step wait 139 s } } }
      by three { step wait 5 s }
    } ${run}`;
    expect(told('60 s, then rest 239 s', nested)).toEqual([]);
    expect(told('60 s, then rest 240 s', nested)).toEqual(['short-rest 239/240']);
  });
});

describe('too many interleavings', () => {
  const asking = 'step takes 0 s check lamp-1 lit else finish '.repeat(30);
  const many = (wait: string) => `${run} together {
    by one { ${asking} step wait ${wait} } by two { ${asking} } by three { ${asking} }
  } ${run}`;

  test('one lane is followed, and the finding says that it may be a false alarm', () => {
    const found = duties('60 s, then rest 240 s', many('239 s'));
    expect(found.map(({ sort, blended }) => `${sort} ${blended}`)).toEqual(['short-rest true']);
  });
});

test('a lane that a keep leads back to a step goes on after it one time or another', () => {
  const ledBack = `together { by one {
    ${run} keep lamp-1 lit else go to again step again: "Look." takes 7 s ${run}
  } }`;
  expect(told('60 s, then rest 7 s', ledBack)).toEqual([]);
  expect(told('60 s, then rest 8 s', ledBack)).toEqual(['short-rest 7/8']);
});

test('a card that is done in a lane makes sure of what it assumes', () => {
  const tidy = `card tidy "Tidy" { number "T-2" revision "A" assume one-valve open because "It was left so." step wait 1 s }`;
  const lanes = `step takes 0 s set one-valve open together {
    by one { step takes 0 s if one-valve open { ${run} } }
    by two { do tidy }
  } step takes 0 s if one-valve open { ${run} }`;
  expect(told('60 s, then rest 2 s', lanes, tidy)).toEqual(['short-rest 0/2']);
});

test('what another lane may have done meanwhile', () => {
  const lanes = (second: string) => `step takes 0 s set one-valve closed together {
    by one { step takes 0 s if one-valve open { step run starter-1 cranking for 90 s } }
    by two { step takes 0 s set ${second} open }
  }`;
  expect(told('60 s', lanes('one-valve'))).toEqual(['too-long 90/60']);
  expect(told('60 s', lanes('other-valve'))).toEqual([]);
});

describe('of lanes with too many interleavings one is followed', () => {
  const sets = (valve: string) => `step takes 0 s { set ${valve} open set ${valve} closed } `.repeat(30);
  const beside = (more: string) => `together {
    by one { ${run} ${sets('other-valve')} } by two { ${sets('one-valve')} ${more} } by three { ${sets('one-valve')} }
  } step takes 0 s`;
  const lanes = beside('');

  test('the others may have set what they set', () => {
    const asking = (asked: string) => `step takes 0 s { set one-valve closed set other-valve closed } ${lanes}
      if one-valve ${asked} and other-valve closed { ${run} }`;
    for (const asked of ['open', 'closed'])
      expect(duties('60 s, then rest 240 s', asking(asked)).map(({ sort, blended }) => [sort, blended])).toEqual([
        ['short-rest', true],
      ]);
  });

  test('time passes in it', () => {
    const body = `step takes 0 s { set one-valve closed set other-valve closed } together {
      by one { ${run} step wait 100 s ${run} ${sets('other-valve')} } by two { ${sets('one-valve')} } by three { ${sets('one-valve')} }
    } step takes 0 s if one-valve open and other-valve closed { ${run} }`;
    expect(told('60 s, then rest 240 s', body)).toContain('short-rest 100/240');
  });

  test('it waits at its end for as long as they take', () => {
    const asking = (more: string) => `step takes 0 s { set one-valve closed set other-valve closed } ${beside(more)}
      if one-valve open and other-valve closed { ${run} }`;
    expect(told('60 s, then rest 240 s', asking('step wait 200 s'))).toHaveLength(1);
    expect(told('60 s, then rest 240 s', asking('step wait 400 s'))).toEqual([]);
  });

  test('where one of them never comes to its end, nobody comes to what is behind them', () => {
    const before = 'step takes 0 s { set one-valve closed set other-valve closed }';
    const asking = (last: string) => `${before} ${beside(last)} if one-valve open and other-valve closed { ${run} }`;
    expect(told('60 s, then rest 240 s', asking('step check one-valve open'))).toContain('short-rest 0/240');
    expect(told('60 s, then rest 240 s', asking('stop "Report it."'))).not.toContain('short-rest 0/240');
  });

  test('they may have set it just now', () => {
    const asking = `step takes 0 s { set one-valve open set other-valve closed } step wait 100 s ${lanes}
      if one-valve closed for at most 60 s { step takes 0 s if other-valve closed { ${run} } }`;
    expect(told('60 s, then rest 240 s', asking)).toEqual(['short-rest 0/240']);
  });
});

test('in a lane no time is told since the run before: each lane has a time of its own', () => {
  const lanes = `together { by one { ${run} step wait 9 s ${run} } by two { step wait 5 s } }`;
  expect(duties('60 s, then rest 240 s', lanes).map(pathTold)).toEqual([
    ['the starter: cranking', 'the starter goes back'],
  ]);
});
