import { expect, test } from 'vitest';
import { check, openFiles } from '../../support/check.ts';

const head = 'number "1" revision "A" crew mechanic "Mechanic"';
const spray = 'gauge pressure "wash pressure" in psi { reads 0 to 100 by 2   limit spray 40 psi to 60 psi }';

function withSteps(steps: string, gauge = spray): string {
  return `${gauge}\ncard wash "Wash" {\n  ${head}\n${steps}\n}`;
}

test('each side of a bound is measured by itself, across units', () => {
  check(
    withSteps(`
  step read pressure at least 40 psi
  step read pressure at most 60 psi
  step read pressure at least 275.8 kPa
  step read pressure at least 250 kPa
  //                 ^ limit.looser
  step read pressure 40 psi to 62 psi
  //                 ^ limit.looser`),
  );
});

test('a side that no named limit has is free', () => {
  check(
    withSteps('  step read speed at most 300 rpm', 'gauge speed "pump speed" in rpm { limit turning at least 12 rpm }'),
  );
});

test('a value that is left out of the limit is looser than one that is in it', () => {
  const gauge = 'gauge speed "pump speed" in rpm { limit turning above 12 rpm }';
  check(withSteps('  step read speed at least 12 rpm\n  //              ^ limit.looser', gauge));
});

test('a limit by another gauge counts with all its rows', () => {
  const gauges = `gauge outside "outside air" in degC { reads -40 to 50 by 1 }
gauge oil "oil pressure" in psi {
  limit start by outside { below 0 degC: at least 10 psi, at least 0 degC: at least 20 psi }
}`;
  check(
    withSteps(
      '  step read outside\n  step read oil at least 10 psi\n  step read oil at least 5 psi\n  //            ^ limit.looser',
      gauges,
    ),
  );
});

test('the rows of a limit may go beyond the limits of the gauge that selects them', () => {
  check(
    withSteps(
      '  step read outside\n  step read oil in start',
      `gauge outside "outside air" in degC { reads -40 to 50 by 1 limit mild -5 degC to 30 degC }
gauge oil "oil pressure" in psi {
  limit start by outside { below -20 degC: at least 10 psi, at least -20 degC: at least 20 psi }
}`,
    ),
  );
});

test('the rows of a limit leave no gap and no overlap', () => {
  check(
    withSteps(
      '  step read outside\n  step read oil in start\n  step read oil in warm',
      `gauge outside "outside air" in degC { reads -40 to 50 by 1 }
gauge oil "oil pressure" in psi {
  limit start by outside { below 0 degC: at least 10 psi, above 0 degC: at least 20 psi }
  //    ^ flow.gap
  limit warm by outside { at most 0 degC: at least 30 psi, at least 0 degC: at least 40 psi }
  //    ^ flow.overlap
}`,
    ),
  );
});

test('the bounds of an if are not measured', () => {
  check(
    withSteps(
      '  if pressure at most 10 psi { step "Open the tap." } else { step "Close the tap." }\n  step read pressure in spray',
    ),
  );
});

test('an empty bound is reported once, and nothing that follows from it', () => {
  check(withSteps('  step read pressure 60 to 40 psi\n  //                 ^ limit.empty\n  step "Look at the hose."'));
});

test('a bound off the scale or between marks is reported where it is declared', () => {
  check(
    withSteps(
      '  step read pressure in spray',
      `gauge pressure "wash pressure" in psi {
  reads 0 to 100 by 2
  limit spray 41 psi to 160 psi
  //          ^ limit.off-scale
  limit low at least 3 psi
  //        ^ limit.between-marks
}`,
    ),
  );
});

test('a bound in another unit need not lie on a mark', () => {
  check(withSteps('  step read pressure at least 300 kPa'));
});

test('a difference of two temperatures has no zero to be shifted', () => {
  check(
    withSteps(
      '  step read drop at most 18 degF\n  step read drop at most 19 degF\n  //             ^ limit.looser',
      `gauge inlet "inlet temperature" in degC
gauge outlet "outlet temperature" in degC
gauge drop "temperature drop" in degC = outlet - inlet { limit normal at most 10 degC }`,
    ),
  );
});

test('figures that were meant to be one differ by less than a twentieth', () => {
  const gauge = 'gauge pressure "wash pressure" in psi';
  check(
    withSteps(
      '  step read pressure at least 40 psi\n  step read pressure at least 42 psi\n  //                 ^ limit.conflict',
      gauge,
    ),
  );
  check(withSteps('  step read pressure at least 40 psi\n  step read pressure at least 43 psi', gauge));
  check(withSteps('  step read pressure at least 40 psi\n  step read pressure above 41 psi', gauge));
});

test('one limit of one gauge has one value in all files', () => {
  const declares = (most: number) => `gauge pressure "wash pressure" in psi { limit spray 40 psi to ${most} psi }`;
  const api = openFiles({ 'a.card': declares(60), 'b.card': declares(65), 'c.card': declares(60) });
  const { findings } = api.check(['a.card', 'b.card', 'c.card']);
  expect(findings.map(({ code, place }) => `${place.file} ${code}`)).toEqual(['b.card limit.conflict']);
});

test('a figure in prose beside the name of a gauge is held against its limits', () => {
  check(
    withSteps(`
  step "Keep the wash pressure below 65 psi."
  //                                 ^^^^^^ limit.in-text
  step "Keep the wash pressure between 40 and 60 psi."
  step "Keep the wash pressure below 60 psi (413 kPa)."
  step "Keep {pressure} at 44 psi."
  //                       ^^^^^^ limit.in-text
  step "The tank holds 65 psi."
  step "The wash pressure is steady after 65 s."
  step read pressure in spray`),
  );
});

test('no reason makes a bound right that nothing can meet', () => {
  check(
    withSteps(`
  step {
    read pressure 60 psi to 40 psi
    //            ^ limit.empty
    accept limit.empty because "So it is written in the manual."
    //^ accept.unused
  }`),
  );
});

test('a branch that nothing can lead to is told, and one beyond a limit is none', () => {
  check(
    withSteps(`
  if pressure 60 psi to 40 psi { step "Look at the hose." }
  //          ^^^^^^^^^^^^^^^^ limit.empty
  if pressure above 90 psi { step "Look at the pump." }`),
  );
});
