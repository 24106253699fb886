/** What the rendered card says of what was proved: what it relies on, what it accepts, and the words of its steps. */
import { describe, expect, test } from 'vitest';
import { openText } from '../support/check.ts';
import { card, codesOf, expectMarked } from './support.ts';

function pageOf(body: string, given = ''): string {
  const text = card(body, { given }).replace('use "machine.card"\n', '');
  const [page] = openText(text).render('main.card');
  return (
    page?.html
      .replace(/<(style|script)[\s\S]*?<\/\1>/g, '')
      .replace(/<[^>]+>/g, ' ')
      .replace(/\s+/g, ' ') ?? ''
  );
}

const lid = 'item lid : door "the big lid" normally closed\nitem drain : valve "the drain" normally closed';

describe('before you start', () => {
  const rule = `${lid}\nrule shut "Lid shut" { before drain open require lid closed }`;
  const turn = 'step set drain open step set drain closed';

  test('names a starting state that the card relies on', () => {
    expect(pageOf(turn, rule)).toMatch(/Before you start.*big lid/i);
  });

  test('does not name one that is checked first, or that nothing relies on', () => {
    const assumedOn = (page: string) => /Before you start(.*?)(?:Set|Open|Check) /i.exec(page)?.[1] ?? '';
    expect(assumedOn(pageOf(`step check lid closed ${turn}`, rule))).not.toMatch(/big lid/i);
    expect(assumedOn(pageOf(turn, lid))).not.toMatch(/big lid/i);
  });

  test('names what a duty assumes: that the thing has rested', () => {
    const starter = 'item s : starter "the left starter" normally off { duty cranking at most 30 s, then rest 60 s }';
    expect(pageOf('step run s cranking for 5 s', starter)).toMatch(/Before you start.*left starter/i);
  });
});

test('what is accepted is listed with its reason', () => {
  const page = pageOf('step { set drain open accept safety.left-changed because "The next shift shuts it." }', lid);
  expect(page).toContain('The next shift shuts it.');
});

test('a step is worded from the kind, with its label, its place and its limits', () => {
  const given = `item cock : valve "the left cock" at "row 2" normally closed
gauge oil "oil pressure" in psi { reads 0 to 100 by 2 limit normal 20 psi to 80 psi }`;
  const page = pageOf('step set cock open step read oil in normal step set cock closed', given);
  expect(page).toMatch(/Open the left cock/);
  expect(page).toContain('row 2');
  expect(page).toMatch(/20 (psi )?to 80 psi/);
  // Rounded inward: 20 psi are 137.9 kPa, 80 psi are 551.6 kPa.
  expect(page).toMatch(/138 (kPa )?to 551 kPa/);
});

describe('crews', () => {
  const fields = 'number "1" revision "A" crew a "Ann", b "Ben"';

  test('of lanes are said by the lane', () => {
    expect(codesOf('together { by a { step "Look up." } by b { step "Look down." } }', { fields })).toEqual([]);
    expectMarked('  step by a "Look up."\n  step "Look down."\n//^ crew.missing\n  step by b "Look."', { fields });
  });

  test('in another lane hear nothing of this one', () => {
    const given = 'hazard hiss "hiss" while drain open { level 115 dBA warning "It is loud." }';
    const noisy = (lanes: string) =>
      `warning hiss step by a set drain open ${lanes} step by a { wait 0 s set drain closed }`;
    const both = 'together { by a { step wait 1 h } by b { step "Look." } }';
    const findings = (lanes: string) => codesOf(noisy(lanes), { given, fields }, { only: ['noise'] });
    expect(findings('step by b wait 1 h')).toEqual(['noise.dose', 'noise.dose']);
    expect(findings(both)).toEqual(['noise.dose']);
  });

  test('hear the loudest of several noises', () => {
    const given = `hazard hiss "hiss" while drain open { level 90 dBA warning "It is loud." }
hazard hum "hum" while vent open { level 90 dBA warning "It hums." }`;
    const body =
      'warning hiss warning hum step by a set drain open, vent open step by a takes 8 h set drain closed, vent closed';
    expect(codesOf(body, { given, fields: 'number "1" revision "A" crew a "Ann"' }, { only: ['noise'] })).toEqual([]);
  });
});
