/** Bounds held against what a gauge says of itself, against each other, and against the prose beside them. */
import { describe, expect, test } from 'vitest';
import { openFiles } from '../support/check.ts';
import { codesOf, expectMarked, findingsIn, messageOf } from './support.ts';

// The machine has: pressure in psi, 0 to 100 by 2, normal 20 to 80 psi; level in %, with nothing said of it.

describe('a bound written out', () => {
  test('lets nothing pass on either side that no named limit does', () => {
    expectMarked('  step read pressure 20 psi to 80 psi\n  step read pressure at least 40 psi');
    expectMarked('  step read pressure 18 psi to 80 psi\n  //                 ^^^^^^^^^^^^^^^^ limit.looser');
    expectMarked('  step read pressure at most 90 psi\n  //                 ^^^^^^^^^^^^^^ limit.looser');
    expectMarked('  step check pressure above 10 psi\n  //                  ^^^^^^^^^^^^ limit.looser');
    expectMarked('  step bring pressure exactly 80 psi +/- 2 psi\n  //                  ^ limit.looser');
    expectMarked('  step wait until pressure at least 10 psi within 5 s\n  //                       ^ limit.looser');
    expectMarked(
      '  step run motor-1 running for 5 s {\n    watch pressure reaches at least 10 psi within 3 s\n    //                     ^ limit.looser\n  }',
    );
  });

  test('is measured against the furthest of several limits, and is free on a side that none has', () => {
    const given = { given: 'gauge oil "oil" in psi { limit cold at least 10 psi limit warm at least 20 psi }' };
    expectMarked('  step read oil at least 10 psi\n  step read oil at most 1000 psi', given);
    expectMarked('  step read oil at least 9 psi\n  //            ^ limit.looser', given);
  });

  test('is exact across units: 20 psi is 137.895… kPa', () => {
    expect(codesOf('step read pressure at least 137.9 kPa')).toEqual([]);
    expect(codesOf('step read pressure at least 137.8 kPa')).toEqual(['limit.looser']);
  });

  test('is not measured where it only asks for the way', () => {
    expectMarked('  if pressure at most 10 psi { step "Look at the lamp." } else { step "Look at the lid." }');
  });

  test('must hold something', () => {
    expectMarked('  step read pressure 60 psi to 40 psi\n  //                 ^^^^^^^^^^^^^^^^ limit.empty');
  });

  test('lies on the scale and on one of its marks, in the unit of the gauge', () => {
    const given = { given: 'gauge oil "oil" in psi { reads 0 to 100 by 2 }' };
    expectMarked('  step read oil at most 102 psi\n  //            ^ limit.off-scale', given);
    expectMarked('  step read oil at most 35 psi\n  //            ^ limit.between-marks', given);
    expectMarked('  step read oil at most 235 kPa', given);
  });

  test('has the dimension of the gauge', () => {
    expectMarked('  step read pressure at least 28 V\n  //                             ^ unit.mismatch');
  });
});

describe('named limits', () => {
  test('that depend on another gauge take its row, and all rows count', () => {
    const given = {
      given: `gauge air "outside air" in degC { reads -40 to 50 by 1 }
gauge oil "oil" in psi { limit start by air { below 0 degC: at least 10 psi, at least 0 degC: at least 30 psi } }
rule oil-first "Oil first" { before drain open require oil in start }`,
    };
    expectMarked('  step read oil at least 10 psi', given);
    expectMarked('  step read oil at least 9 psi\n  //            ^ limit.looser', given);
    const open = 'step set drain closed';
    expect(codesOf(`step { read air below 0 degC read oil at least 10 psi set drain open } ${open}`, given)).toEqual(
      [],
    );
    expect(codesOf(`step { read air at least 0 degC read oil at least 10 psi set drain open } ${open}`, given)).toEqual(
      ['safety.rule'],
    );
  });

  // The engine asks which row it is, even where the bound is in all of them.
  test('that depend on another gauge hold where all rows hold', () => {
    const given = {
      given: `gauge air "outside air" in degC { reads -40 to 50 by 1 }
gauge oil "oil" in psi { limit start by air { below 0 degC: at least 10 psi, at least 0 degC: at least 30 psi } }
rule oil-first "Oil first" { before drain open require oil in start }`,
    };
    expect(codesOf('step { read oil at least 30 psi set drain open } step set drain closed', given)).toEqual([]);
  });

  test('leave no gap and no overlap between their rows', () => {
    const rows = (...each: string[]) => ({
      given: `gauge air "outside air" in degC { reads -40 to 50 by 1 }
gauge oil "oil" in psi { limit start by air { ${each.map((row) => `${row}: at least 30 psi`).join(', ')} } }`,
    });
    const use = 'step { read air read oil in start }';
    expect(codesOf(use, rows('below 0 degC', 'at least 0 degC'))).toEqual([]);
    expect(codesOf(use, rows('below 0 degC', 'above 0 degC'))).toEqual(['flow.gap']);
    expect(codesOf(use, rows('below 0 degC', '0 degC to 40 degC'))).toEqual(['flow.gap']);
    expect(codesOf(use, rows('at most 0 degC', 'at least 0 degC'))).toEqual(['flow.overlap']);
  });
});

describe('a gauge worked out from two', () => {
  const filter = {
    given: `gauge up "upstream" in psi
gauge down "downstream" in psi
gauge drop "pressure drop" in psi = up - down { limit usual at most 10 psi }
rule clean "Clean filter" { before drain open require drop in usual }`,
  };
  const opened = (reading: string) => codesOf(`step { ${reading} set drain open } step set drain closed`, filter);

  test('is read as any other, and has the dimension of the two', () => {
    expect(opened('read drop in usual')).toEqual([]);
    expectMarked('  step read odd', {
      given: `gauge odd "odd" in psi = pressure - level
//                                  ^^^^^ unit.mismatch`,
    });
  });

  test('is known where the two are', () => {
    expect(opened('read up at most 50 psi read down at least 39 psi')).toEqual(['safety.rule']);
    expect(opened('read up at most 50 psi read down at least 40 psi')).toEqual([]);
  });

  test('of two temperatures is a difference without a zero', () => {
    const given = {
      given:
        'gauge hot "hot" in degC\ngauge cold "cold" in degC\ngauge rise "rise" in degC = hot - cold { limit usual at most 10 degC }',
    };
    expect(codesOf('step read rise at most 18 degF', given)).toEqual([]);
    expect(codesOf('step read rise at most 18.1 degF', given)).toEqual(['limit.looser']);
  });
});

describe('copies', () => {
  test('of one sort that differ by less than a twentieth of the larger are a slip', () => {
    expectMarked(
      '  step read level at least 40 %\n  step read level at least 41 %\n  //              ^ limit.conflict',
    );
    expectMarked('  step read level at least 38 %\n  step read level at least 40 %');
    expectMarked(
      '  step read level at least 38.1 %\n  step read level at least 40 %\n  //              ^ limit.conflict',
    );
    expectMarked('  step read level at least 40 %\n  step read level at most 41 %');
  });

  test('are held against each other over the cards of a workspace, and so are named limits', () => {
    const gauge = 'gauge oil "oil" in psi';
    const one = (name: string, bound: number) => `use "gauge.card"
card ${name} "Try" { number "${name}" revision "A" crew hand "Hand" step read oil at least ${bound} psi }`;
    const cards = openFiles({ 'gauge.card': gauge, 'a.card': one('a', 40), 'b.card': one('b', 41) });
    expect(
      cards.check(['a.card', 'b.card']).findings.map(({ code, level, place }) => [code, level, place.file]),
    ).toEqual([['limit.conflict', 'warning', 'b.card']]);
    const named = openFiles({
      'a.card': `${gauge} { limit low at least 20 psi }`,
      'b.card': `${gauge} { limit low at least 30 psi }`,
    });
    expect(named.check(['a.card', 'b.card']).findings.map(({ code }) => code)).toEqual(['limit.conflict']);
  });
});

describe('prose', () => {
  test('beside the name of a gauge gives its limits', () => {
    expectMarked('  step "Keep the oil pressure below 80 psi."');
    expectMarked(
      '  step "Keep the oil pressure below 85 psi."\n  //                                ^^^^^^ limit.in-text',
    );
    expectMarked(
      '  step "Keep the oil pressure below 70 psi."\n  //                                ^^^^^^ limit.in-text',
    );
    expectMarked('  step "The drum holds 85 psi."');
  });
});

describe('branches in a row on one gauge', () => {
  test('leave nothing out', () => {
    expectMarked(
      '  if pressure below 40 psi { step "Look left." }\n//^ flow.gap\n  else if pressure above 40 psi { step "Look right." }',
    );
    expectMarked(
      '  if pressure at most 40 psi { step "Look left." }\n  else if pressure above 40 psi { step "Look right." }',
    );
    expectMarked('  if pressure below 40 psi { step "Look left." }\n  else { step "Look right." }');
    expectMarked('  if pressure below 40 psi { step "Look left." }\n  if pressure above 60 psi { step "Look right." }');
  });

  test('share nothing, unless one lies within the other', () => {
    expectMarked(
      '  if pressure at most 60 psi { step "Look left." }\n//^ flow.overlap\n  else if pressure at least 40 psi { step "Look right." }',
    );
    expectMarked(
      '  if pressure 40 psi to 60 psi { step "Look left." }\n  else if pressure 20 psi to 80 psi { step "Look right." }\n  else { step "Look up." }',
    );
  });

  test('one alone is no row', () => {
    expectMarked('  if pressure below 40 psi { step "Look left." }');
  });

  test('are told in words that a writer would use', () => {
    expect(
      messageOf('if pressure below 30 psi { step "Up." } else if pressure above 40 psi { step "Down." }'),
    ).toContain('is from 30 psi to 40 psi');
  });
});

test('a bound with a finding of its own may pass or fail', () => {
  const findings = findingsIn(`
  step read pressure 60 psi to 40 psi else go to on
  step "Look at the lid."
  step on: "Look at the lamp."`);
  expect(findings.map(({ code }) => code)).toEqual(['limit.empty']);
});
