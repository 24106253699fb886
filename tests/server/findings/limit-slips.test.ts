/** Slips in limits: what is told, what is offered, and what is none. */
import { expect, test } from 'vitest';
import { applyFix } from '../../support/apply.ts';
import { findingsOf, openFiles } from '../../support/check.ts';

const head = 'number "1" revision "A" crew mechanic "Mechanic"';
const wide = 'gauge pressure "wash pressure" in psi { reads 0 to 1000 }';

/** `code: message`, and what is offered, of the limit findings in these steps. */
function told(steps: string, equipment = wide): string[] {
  return findingsOf(`${equipment}\ncard wash "Wash" {\n${head}\n${steps}\n}`, { only: ['limit'] }).flatMap(
    ({ code, message, fixes }) => [`${code}: ${message}`, ...(fixes ?? []).map(({ title }) => `  ${title}`)],
  );
}

const codes = (steps: string, equipment = wide) =>
  told(steps, equipment)
    .filter((line) => !line.startsWith(' '))
    .map((line) => line.split(':')[0]);

const pair = (first: string, second: string, equipment = wide) =>
  codes(`step read pressure ${first} step read pressure ${second}`, equipment);

test('two figures that were meant to be one are told at the later', () => {
  expect(told('step read pressure at least 400 psi step read pressure at least 410 psi')).toEqual([
    'limit.conflict: at least 410 psi here, and at least 400 psi elsewhere for wash pressure. Make the two equal, or name the limit.',
    '  Change to at least 400 psi',
  ]);
});

test.each([
  ['at least 400 psi', 'at least 400 psi', 0],
  ['at least 400 psi', 'at least 420 psi', 1],
  ['at least 400 psi', 'at least 421 psi', 1],
  ['at least 380 psi', 'at least 400 psi', 0],
  ['at least 381 psi', 'at least 400 psi', 1],
  ['at least 400 psi', 'at least 381 psi', 1],
  ['at least 400 psi', 'at most 410 psi', 0],
  ['at least 400 psi', 'above 410 psi', 0],
  ['100 psi to 400 psi', '100 psi to 410 psi', 1],
  ['100 psi to 400 psi', '102 psi to 900 psi', 1],
  ['100 psi to 400 psi', '100 psi to 900 psi', 0],
  ['at least 400 psi', 'at least 2757.9 kPa', 0],
  ['at least 400 psi', 'at least 2758 kPa', 0],
  ['at least 400 psi', 'at least 2757 kPa', 0],
  ['at least 2757 kPa', 'at least 400 psi', 0],
  ['at least 400 psi', 'at least 2760 kPa', 0],
  ['at least 400 psi', 'at least 2765 kPa', 1],
  ['at least 400 psi', 'at least 2700 kPa', 1],
  ['exactly 400 psi', 'exactly 410 psi', 1],
] as const)('%s and %s: %i', (first, second, count) => {
  expect(pair(first, second)).toHaveLength(count);
});

test('the slot of a limit takes the place of the words of a bound, which a sentence may begin with', () => {
  const most = 'gauge oil "oil pressure" in psi { limit most at most 90 psi }';
  const text = `${most} card wash "Wash" { ${head} step "Above 85 psi of oil pressure, stop." }`;
  const fix = findingsOf(text, { only: ['limit'] })[0]?.fixes.find(({ title }) => title.startsWith('Write'));
  expect(fix && applyFix(text, fix)).toBe(text.replace('Above 85 psi', '{oil.most}'));
});

test('a third figure is held against all before', () => {
  expect(
    codes(
      'step read pressure at least 400 psi step read pressure at least 800 psi step read pressure at least 790 psi',
    ),
  ).toEqual(['limit.conflict']);
});

test('a bound with a slip of its own is no copy', () => {
  expect(pair('at most 1001 psi', 'at most 990 psi')).toEqual(['limit.off-scale']);
});

test('a figure that was rounded in its own unit is another one', () => {
  expect(pair('at least 24.6 psi', 'at least 25 psi')).toEqual(['limit.conflict']);
});

test('a temperature is compared by its figure', () => {
  const equipment = 'gauge pressure "oil temperature" in degC';
  expect(pair('at least 100 degC', 'at least 104 degC', equipment)).toEqual(['limit.conflict']);
  expect(pair('at least 10 degC', 'at least 11 degC', equipment)).toEqual([]);
  expect(pair('at least -100 degC', 'at least -104 degC', equipment)).toEqual(['limit.conflict']);
});

test('a figure that is off by a whole last digit was not rounded', () => {
  const equipment = 'gauge pressure "length" in mm';
  expect(pair('at least 1.000 m', 'at least 1001 mm', equipment)).toEqual(['limit.conflict']);
  expect(pair('at least 1001 mm', 'at least 1.000 m', equipment)).toEqual(['limit.conflict']);
  expect(pair('at least 1.00 m', 'at least 1001 mm', equipment)).toEqual([]);
  expect(pair('at least 1.0009 m', 'at least 1001 mm', equipment)).toEqual([]);
});

test('two gauges have nothing in common', () => {
  const equipment = `${wide} gauge other "other pressure" in psi`;
  expect(codes('step read pressure at least 400 psi step read other at least 410 psi', equipment)).toEqual([]);
});

test('between two marks the fix goes to the safe side', () => {
  const marked = 'gauge pressure "wash pressure" in psi { reads 10 to 110 by 4 }';
  expect(told('step read pressure at least 41 psi', marked)).toEqual([
    'limit.between-marks: At least 41 psi lies between two marks: wash pressure shows marks every 4 psi. Take the next mark on the safe side.',
    '  Change to at least 42 psi',
  ]);
  expect(told('step read pressure at most 41 psi', marked)[1]).toBe('  Change to at most 38 psi');
  expect(told('step read pressure 41 psi to 60 psi', marked)[1]).toBe('  Change to 42 to 58 psi');
  expect(told('step read pressure 42 psi to 60 psi', marked)[1]).toBe('  Change to 42 to 58 psi');
  expect(told('step read pressure 150 kPa to 60 psi', marked)[1]).toBe('  Change to 150 kPa to 58 psi');
  expect(told('step read pressure exactly 41 psi', marked)).toHaveLength(1);
  expect(told('step read pressure exactly 42 psi +/- 1 psi', marked)).toEqual([]);
  expect(told('step read pressure 42 psi to 58 psi', marked)).toEqual([]);
  expect(told('step read pressure at least 300 kPa', marked)).toEqual([]);
});

test('a looser bound is drawn in on the side that is looser', () => {
  const limited = 'gauge pressure "wash pressure" in psi { limit low at least 40 psi limit spray 45 psi to 60 psi }';
  expect(told('step read pressure 30 psi to 55 psi', limited)).toEqual([
    'limit.looser: Wash pressure may be 30 to 55 psi here; the lowest limit, low, is 40 psi. Tighten it, or write “in” and the limit.',
    '  Tighten to 40 to 55 psi',
  ]);
  expect(told('step read pressure 50 psi to 61 psi', limited)[1]).toBe('  Tighten to 50 to 60 psi');
  expect(told('step read pressure 30 psi to 70 psi', limited)).toEqual([
    'limit.looser: Wash pressure may be 30 to 70 psi here; the lowest limit, low, is 40 psi, and the highest limit, spray, is 60 psi. Tighten it, or write “in” and the limit.',
    '  Tighten to 40 to 60 psi',
  ]);
  expect(told('step read pressure 10 psi to 20 psi', limited)).toHaveLength(1);
  expect(told('step read pressure exactly 39 psi', limited)).toHaveLength(1);
  expect(told('step read pressure at least 40 psi step read pressure at most 60 psi', limited)).toEqual([]);
});

test('the end that is left out is narrower', () => {
  const limited = 'gauge pressure "wash pressure" in psi { limit low above 40 psi limit high below 60 psi }';
  expect(codes('step read pressure above 40 psi step read pressure below 60 psi', limited)).toEqual([]);
  expect(codes('step read pressure at least 40 psi', limited)).toEqual(['limit.looser']);
  expect(codes('step read pressure at most 60 psi', limited)).toEqual(['limit.looser']);
});

test('of several limits the widest counts, wherever it stands; of two that are as wide, the first is named', () => {
  const limits = (...bounds: string[]) =>
    `gauge pressure "wash pressure" in psi { ${bounds.map((bound, index) => `limit l${index + 1} ${bound}`).join(' ')} }`;
  expect(codes('step read pressure at most 55 psi', limits('at most 50 psi', 'at most 60 psi'))).toEqual([]);
  expect(codes('step read pressure at most 55 psi', limits('at most 60 psi', 'at most 50 psi'))).toEqual([]);
  expect(codes('step read pressure at least 45 psi', limits('at least 50 psi', 'at least 40 psi'))).toEqual([]);
  expect(codes('step read pressure at least 45 psi', limits('at least 40 psi', 'at least 50 psi'))).toEqual([]);
  expect(told('step read pressure at most 61 psi', limits('at most 60 psi', '9 psi to 60 psi'))[0]).toContain(
    'the highest limit, l1, is 60 psi.',
  );
  expect(told('step read pressure at least 4 psi', limits('at least 9 psi', '9 psi to 60 psi'))[0]).toContain(
    'the lowest limit, l1, is 9 psi.',
  );
});

test('what selects a row may go beyond the limits of its gauge', () => {
  const rows =
    'gauge pressure "wash pressure" in psi { limit normal at most 100 psi } gauge other "other" in psi { limit much by pressure { at most 200 psi: at least 1 psi, above 200 psi: at least 2 psi } }';
  expect(codes('step read pressure in normal step read other in much', rows)).toEqual([]);
});

test('an empty range is turned round', () => {
  expect(told('step read pressure 60 psi to 40 psi')).toEqual([
    'limit.empty: No wash pressure is 60 to 40 psi: the lower end is above the upper one. Write the lower end first.',
    '  Change to 40 to 60 psi',
  ]);
});

test('off the scale, at either end', () => {
  expect(codes('step read pressure at least 0 psi step read pressure at most 1000 psi')).toEqual([]);
  expect(codes('step read pressure at most 1001 psi')).toEqual(['limit.off-scale']);
  expect(codes('step read pressure at least -1 psi')).toEqual(['limit.off-scale']);
  expect(codes('step read pressure 5 psi to 7000 kPa')).toEqual(['limit.off-scale']);
  expect(told('step read pressure at most 1001 psi')).toEqual([
    'limit.off-scale: Wash pressure at most 1001 psi cannot be read: the gauge shows 0 psi to 1000 psi. Correct the figure or its unit.',
  ]);
});

test.each([
  ['a rule', 'rule r "R" { before drain open require pressure at least 2000 psi }'],
  ['a rule’s trigger', 'rule r "R" { while pressure at least 2000 psi require drain open }'],
  ['a hazard', 'hazard h "heat" while pressure at least 2000 psi { warning "Hot." }'],
  ['a hazard’s protection', 'hazard h "heat" while drain open { warning "Hot." protect pressure at most 2000 psi }'],
  ['a source', 'supply s "S" { source drain when pressure at least 2000 psi link drain -> there }'],
  ['a link', 'supply s "S" { source drain link drain -> there when pressure at least 2000 psi }'],
  ['what goes by itself', 'item trip : valve "the trip" normally closed may open when pressure at least 2000 psi'],
  ['a limit', 'gauge other "other" in psi { reads 0 to 10 limit much at least 11 psi }'],
  [
    'a row of a limit',
    'gauge other "other" in psi { reads 0 to 10 limit much by pressure { below 5 psi: at least 11 psi, at least 5 psi: at least 1 psi } }',
  ],
  [
    'what selects a row',
    'gauge other "other" in psi { reads 0 to 10 limit much by pressure { below 2000 psi: at least 1 psi, at least 2000 psi: at least 2 psi } }',
  ],
])('the bounds of %s are measured', (_, declared) => {
  const equipment = `kind valve { closed, open } item drain : valve "the drain" normally closed ${wide} ${declared}`;
  expect(new Set(codes('step read pressure', equipment))).toEqual(new Set(['limit.off-scale']));
});

test.each([
  ['step check pressure at least 2000 psi', 1],
  ['step bring pressure at least 2000 psi within 1 s', 1],
  ['step wait until pressure at least 2000 psi within 1 s', 1],
  ['repeat at most 2 times until pressure at least 2000 psi { step "Look." }', 1],
  ['keep pressure at most 2000 psi step "Look."', 1],
  ['if "Wet?" { step check pressure at least 2000 psi }', 1],
  ['if pressure at least 2000 psi { step "Look." }', 0],
  ['step check not (pressure at least 2000 psi) or pressure at most 5 psi', 0],
  ['step check pressure at least 2000 psi or pressure at most 5 psi', 1],
])('a bound of a card is measured: %s', (steps, count) => {
  expect(codes(steps)).toEqual(Array.from({ length: count }, () => 'limit.off-scale'));
});

const sprays =
  'gauge pressure "wash pressure" in psi { limit spray 40 psi to 60 psi limit burst exactly 90 psi +/- 2 psi }';
const says = (text: string, equipment = sprays) =>
  told(`step "${text}" step read pressure in spray`, equipment).filter((line) => !line.startsWith(' '));

test('a figure in prose that is not the limit', () => {
  expect(says('Keep the wash pressure at 65 psi.')).toHaveLength(1);
  expect(says('Keep the wash pressure at 65 psi.')[0]).toContain('wash pressure (40 psi, 60 psi');
  expect(says('Keep the wash pressure at 60 psi.')).toEqual([]);
  expect(says('Keep the wash pressure at 90 psi, 2 psi up or down.')).toEqual([]);
  expect(says('Keep the wash pressure between 45 and 60 psi.')).toHaveLength(1);
  expect(says('Keep the wash pressure between 40 and 65 psi.')).toHaveLength(1);
  expect(says('Keep the wash pressure at 414 kPa.')).toEqual([]);
  expect(says('Keep the wash pressure at 415 kPa.')).toHaveLength(1);
  expect(says('Keep the wash pressure at 65 degC.')).toEqual([]);
  expect(says('Keep the hose at 65 psi.')).toEqual([]);
  expect(says('Look at the wash pressure. The hose holds 65 psi.')).toEqual([]);
  expect(says('Look at the wash pressure 3 times, at 65 psi.')).toHaveLength(1);
});

test('in the unit of the limit a figure in prose is the limit or not; only in another one it may be rounded', () => {
  const fine = 'gauge pressure "wash pressure" in psi { limit spray at most 60.4 psi }';
  expect(says('Keep the wash pressure below 60 psi.', fine)).toHaveLength(1);
  expect(says('Keep the wash pressure below 60.4 psi.', fine)).toEqual([]);
  expect(says('Keep the wash pressure below 416 kPa.', fine)).toEqual([]);
});

test('the longer of two names is meant', () => {
  const both = `${sprays} gauge low "low wash pressure" in psi { limit idle at least 10 psi }`;
  expect(says('Keep the low wash pressure at 10 psi.', both)).toEqual([]);
  expect(says('Keep the low wash pressure at 60 psi.', both)).toHaveLength(1);
  expect(says('Keep the low wash pressure at 10 psi and the wash pressure at 60 psi.', both)).toEqual([]);
});

test('a gauge without limits is none to be held against', () => {
  expect(says('Keep the flow at 65 psi.', `${sprays} gauge flow "flow" in psi`)).toEqual([]);
});

test('one limit has one value, row by row', () => {
  const files = (first: string, second: string) => {
    const declared = (limit: string) => `gauge air "air" in degC gauge oil "oil" in psi { limit start ${limit} }`;
    const api = openFiles({ 'a.card': declared(first), 'b.card': declared(second) });
    return api.check(['a.card', 'b.card']).findings.filter(({ code }) => code === 'limit.conflict').length;
  };
  expect(files('at least 5 psi', 'at least 5 psi')).toBe(0);
  expect(files('at least 5 psi', 'above 5 psi')).toBe(1);
  expect(files('at least 5 psi', '5 psi to 9 psi')).toBe(1);
  const rows = (low: number) => `by air { below 0 degC: at least ${low} psi, at least 0 degC: at least 9 psi }`;
  expect(files(rows(5), rows(5))).toBe(0);
  expect(files(rows(5), rows(6))).toBe(1);
  expect(files(rows(5), 'at least 5 psi')).toBe(1);
});

test('a bound that is tightened keeps one unit, and is never looser than the limit', () => {
  const limited = 'gauge pressure "wash pressure" in psi { limit spray 40 psi to 60 psi }';
  expect(told('step read pressure 200 kPa to 400 kPa', limited).slice(1)).toEqual(['  Tighten to 276 to 400 kPa']);
  expect(told('step read pressure at least 200 kPa', limited).slice(1)).toEqual(['  Tighten to at least 40 psi']);
});

test('of the spellings of one unit one is offered', () => {
  const fixes = findingsOf('gauge pressure "wash pressure" in kPas', { only: ['unit.unknown'] })[0]?.fixes;
  expect(fixes?.map(({ title }) => title).filter((title) => /kpa/i.test(title))).toHaveLength(1);
  expect(fixes?.[0]?.title).toContain('kPa');
});
