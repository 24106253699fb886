/** Units, quantities, times and numbers. */
import { describe, expect, test } from 'vitest';
import { expectMarked, only } from './support.ts';

describe('units', () => {
  test('one that is none, with the nearest', () => {
    const bound = expectMarked('gauge g in pis\n//         ^^^ unknown-unit');
    expect(only(bound, 'unknown-unit').near).toContain('psi');
  });

  test('of another dimension than the gauge', () => {
    const bound = expectMarked(`
      gauge g "the pressure" in psi {
        limit low below 5 L
        //                ^ unit-mismatch
        limit normal 40 to 60 gal
        //                    ^^^ unit-mismatch
        limit fill exactly 50 psi +/- 1 s
        //                              ^ unit-mismatch
        limit metric 2 bar to 3 bar
      }`);
    expect(bound.problems[0]).toMatchObject({ expected: 'pressure', of: 'the pressure', needed: { symbol: 'psi' } });
  });

  test('of a time that is none, of noise that is none', () => {
    expectMarked(`
      item muffs : worn reduces 25 dBA
      //                           ^^^ unit-mismatch
      hazard h "H" while muffs away { level 98 dB warning "W" }
      //                                       ^^ unit-mismatch
      card c "C" { step wait 5 V   step takes 2 min 3 L "Do it" }
      //                       ^ unit-mismatch
      //                                              ^ unit-mismatch`);
  });

  test('a bound with a unit problem leaves its condition open', () => {
    const bound = expectMarked(`
      gauge g in psi { limit low below 5 L }
      //                                 ^ unit-mismatch
      rule r "R" { at end require g in low }`);
    expect(bound.equipment.rules[0]?.require.type).toBe('open');
  });

  test('differences of two gauges are of their dimension', () => {
    expectMarked(`
      gauge a in degC   gauge b in degF   gauge c in psi
      gauge d in degC = a - b { limit close at most 18 degF }
      gauge e in degC = a - c
      //                    ^ unit-mismatch`);
  });
});

test('a tolerance and a difference of temperature have no offset', () => {
  const { equipment } = expectMarked(`
    gauge a in degC { limit normal exactly 15 degC +/- 18 degF }
    gauge b in degC
    gauge d in degC = a - b { limit close at most 18 degF }`);
  const [a, , d] = equipment.gauges;
  expect(a?.limits[0]?.bound?.interval.low?.value.toFraction()).toBe('5563/20');
  expect(a?.limits[0]?.bound?.high?.value.toFraction()).toBe('25');
  expect(d?.limits[0]?.bound?.interval.high?.value.toFraction()).toBe('10');
});

test('zeros that are written are kept for the reader', () => {
  const { equipment } = expectMarked('gauge g in V { limit low below 24.0 V }');
  expect(equipment.gauges[0]?.limits[0]?.bound?.high).toMatchObject({ places: 1 });
});

test('a limit takes the row of another gauge', () => {
  const { equipment } = expectMarked(`
    gauge oat "outside temperature" in degC
    gauge p "pressure" in psi {
      limit normal by oat { below 0 degC: 20 to 30 psi, at least 0 degC: 25 psi to 35 psi }
    }
    hazard h "H" while p in normal { note "Keep {p.normal}." }`);
  expect(equipment.gauges[1]?.limits[0]?.by?.rows).toHaveLength(2);
  expect(equipment.hazards[0]?.text).toBe(
    'Keep 20 to 30 psi (outside temperature below 0 °C), 25 to 35 psi (outside temperature at least 0 °C).',
  );
});

describe('numbers', () => {
  test('that cannot be', () => {
    const bound = expectMarked(`
      item m : motor { duty running at most 0 times, then rest 1 min duty running at most -5 s }
      //                                    ^ bad-number
      //                                                                                  ^^^^ bad-number
      gauge g in psi { reads 100 to 0 by 2 }
      //                            ^ bad-number
      gauge h in psi { reads 0 to 100 by 0 }
      //                                 ^ bad-number
      variant unit 4 to 1
      //                ^ bad-number
      rule r "R" { at end require m stopped and g at least 1 psi and h at least 1 psi }
      card c "C" {
        applies unit 2
        repeat 0 times { step takes 5 min to 2 min "Look" }
        //     ^ bad-number
        //                          ^^^^^^^^^^^^^^ bad-number
        repeat 2.5 times { step "Look" }
        //     ^^^ bad-number
      }`);
    expect(bound.problems.map((problem) => 'what' in problem && problem.what)).toContain('repeats less than once');
  });
});

test('two gauges that are worked out from each other', () => {
  expectMarked(`
    gauge c in psi
    gauge a in psi = b - c
    gauge b in psi = a - c
    //    ^ recursion`);
});

describe('supplies', () => {
  test('a node that no source reaches is a slip, and what hangs on it is not a second one', () => {
    const bound = expectMarked(`
      item cart : cart   item starter-1 : starter needs dc while cranking
      supply dc "28 V" {
        source cart when cart running
        link cart -> right-bus
        link rigth-bus <-> left-bus
        //   ^^^^^^^^^ unreachable-node
        link left-bus -> starter-1
      }`);
    expect(only(bound, 'unreachable-node').near).toEqual(['right-bus']);
  });

  test('an item that needs a supply is on it', () => {
    expectMarked(`
      item cart : cart   item starter-1 : starter needs dc while cranking
      //                                                ^^ not-on-supply
      supply dc { source cart link cart -> bus }`);
  });
});
