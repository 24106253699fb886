/** Every form that the grammar has is read, and words, texts, figures and comments are read as it says. */
import { describe, expect, test } from 'vitest';
import { units } from '../../shared/units.ts';
import { check, findingsOf, openText } from '../support/check.ts';
import { card, codesOf, expectMarked } from './support.ts';

describe('declarations', () => {
  test('items share what follows the colon, with their own labels or one made from the name', () => {
    const api = openText('item left "the left cock", right, spare "the spare cock" : valve at "row 2" normally open');
    const items = api.workspace.snapshot('main.card')?.bound.equipment.items ?? [];
    expect(items.map(({ name, label, at }) => [name, label, at])).toEqual([
      ['left', 'the left cock', 'row 2'],
      ['right', 'the right', 'row 2'],
      ['spare', 'the spare cock', 'row 2'],
    ]);
  });

  test('an item takes all its parts in any order', () => {
    check(`item cart : cart "the cart" reduces 20 dB normally stopped verify at "bay"
item pump-2 : pump "the pump" needs air while running may running when cart running may stopped {
  duty running at most 1 min 30 s
  duty running at most 3 min, then rest 10 min
  duty running at most 3 times, then rest 30 min
  duty running at most 5 times in 1 h
} normally stopped
supply air { source cart when cart running link cart -> pump-2 }`);
  });

  test('a gauge takes a difference, a place, a scale and limits of every form', () => {
    check(`item vent : valve normally closed
gauge outside in degC at "mast" { reads -40 to 60 by 0.5 }
gauge inside "cabin air" in °C
gauge rise "rise" in degC = inside - outside at "panel" { limit usual at most 10 degC }
gauge both "sum" in degC = inside + outside
gauge oil "oil pressure" in psi {
  moved by vent
  reads 0 to 100
  limit a at least 10 psi
  limit b at most 90 psi
  limit c above 10 psi
  limit d below 90 psi
  limit e 10 to 90 psi
  limit f 10 psi to 600 kPa
  limit g exactly 50 psi
  limit h exactly 50 psi +/- 2 psi
  limit i by outside { below 0 degC: at least 10 psi, at least 0 degC: at least 20 psi }
}`);
  });

  test('rules have each trigger, reasons and sources, and hazards a level and a protection', () => {
    check(`item vent : valve normally closed
item muffs : worn "ear muffs" normally away
rule one "One" { before vent open require muffs on because "So." source "A book." because "And so." }
rule two "Two" { while vent open or not muffs away require (muffs on) }
rule three "Three" { at end require vent closed }
rule four "Four" { at stop require vent closed }
hazard hiss "hissing air" while vent open { level 90 dBA caution "Air hisses." protect muffs on }
hazard draught "a draught" while vent open { note "There is a draught." }`);
  });

  test('variants have numbers or words, and restrict stages, steps, admonitions and cards', () => {
    expectMarked(
      `
  stage "Old ones" only fit old { step "Look at the lamp." }
  stage "All" {
    step only unit 3 to 4, 7 and fit new "Look at the hose."
    note "Mind the hose." only unit 2
  }`,
      {
        given: 'variant unit 1 to 9\nvariant fit old, new',
        fields: 'number "1" revision "A" crew hand "Hand" applies unit 1 to 8 and fit old, new',
      },
    );
  });

  test('a card has all its fields, the listed ones repeatable', () => {
    expectMarked('  step by cockpit "Look at the lamp."\n  step by ground check vent closed', {
      fields: `number "1" revision "B" on 2026-10-02 purpose "To look."
  crew cockpit "Cockpit" qualified "B1", ground
  tools "A rag", "A lamp" materials "Oil" references "Manual, page 3"
  assume drain closed, vent closed because "They are wired shut."
  leaves drain closed because "As it was."`,
    });
  });
});

describe('statements and actions', () => {
  test('every form of statement is read', () => {
    expectMarked(
      `
  step again: "Look at the lamp." see "Manual, page 4" takes 1 min to 2 min
  step takes at least 5 s { record "Hours" record "Volume" in L sign hand "Looked" }
  if "Is it wet?" { step "Dry it." } else if pressure above 10 psi { step "Note it." } else { note "It is dry." }
  repeat 2 times { step "Shake it." }
  repeat at most 3 times until "It is clean" { step "Wash it." } else stop "Report the dirt."
  for each valve-1 in drain, vent { step check valve-1 closed }
  choose { "By hand" { step "Turn it." } or "By lever" { step "Pull it." } }
  do look(drain, pressure)
  do rest
  keep lid closed else go to again
  step check "Is it well?" else finish
  sign hand
  if "Is it late?" { finish }`,
      {
        given: `procedure look(one: valve, shown: gauge) "Look" { step check one closed step read shown }
procedure rest() { step wait 5 s }`,
      },
    );
  });

  test('every form of action is read', () => {
    expectMarked(
      `
  warning "Mind your ears." "Mind your eyes."
  step { set drain open, vent open  ensure drain closed, vent closed }
  step { check drain closed  check "Is it dry?" else stop "Dry it." }
  step { read pressure  read level at least 5 %  read pressure in normal else stop "No oil." }
  step { bring pressure 30 psi to 40 psi within 1 min else stop "No oil."  bring pressure in normal }
  step run motor-1 running for 5 s to 10 s {
    watch pressure reaches at least 20 psi within 5 s else stop "No oil."
    watch pressure stays at most 80 psi
  }
  step run motor-1 running until pressure in normal within 20 s else stop "No oil."
  step { wait 5 s  wait at least 5 s  wait until lamp-1 off within 1 min else stop "It burns."  wait until lamp-1 off }`,
      {},
      { only: ['syntax', 'name', 'unit'] },
    );
  });

  test('every form of condition is read', () => {
    expectMarked(
      `
  if not (drain open or vent open) and any valve open or every door closed { step "Look." }
  if motor-1 stopped for at least 5 min and motor-1 stopped for at most 1 h { step "Look." }
  if pressure at most 10 psi or pressure in normal or not power reaches motor-1 { step "Look." }`,
      { given: 'supply power { source plug-1 when plug-1 connected link plug-1 -> motor-1 }' },
      { only: ['syntax', 'name', 'unit'] },
    );
  });

  test('lanes go on at once', () => {
    expectMarked('  together { by a { step "Look up." } by b { step "Look down." } }', {
      fields: 'number "1" revision "A" crew a "A", b "B"',
    });
  });

  test('an each after a step that ends in a condition begins a loop', () => {
    expectMarked('  step check drain closed\n  for each one in drain, vent { step check one closed }');
  });
});

describe('words', () => {
  test('names take letters of any script, digits and single hyphens inside', () => {
    check('item Ölhahn-2, 弁, клапан-3a : valve normally closed');
  });

  test.each(['step', 'card', 'set', 'wait', 'any', 'every', 'for', 'and'])('%s is no name', (word) => {
    const findings = findingsOf(`item ${word} : valve normally closed`);
    expect(findings.map(({ code }) => code)).toEqual(['syntax.reserved']);
  });

  test.each(['until', 'times', 'normally', 'most', 'least', 'source', 'level', 'verify', 'then', 'rest'])(
    '%s begins nothing, so an item may be called that',
    (word) => {
      expect(
        findingsOf(`item ${word} : valve normally closed`).filter(({ code }) => code === 'syntax.reserved'),
      ).toEqual([]);
    },
  );

  test('a state may be nearly any word of the language', () => {
    check(`kind brake { released, set }
kind mode { normally, while, run, check, card, until, when, wait, stop, finish }
item parking-brake : brake "the parking brake" normally set
item dial : mode "the dial" normally run
card c "C" {
  number "1" revision "A" crew hand "Hand"
  step set parking-brake released, dial check
  step set dial stop
  step set parking-brake set
  step set dial run
}`);
  });

  test.each(['and', 'or', 'not', 'in', 'at', 'above', 'below', 'reaches', 'to', 'for', 'else', 'step'])(
    'but no state is called %s',
    (word) => {
      const findings = findingsOf(`kind mode { off, ${word} }`);
      expect(findings.map(({ code }) => code)).toEqual([expect.stringMatching(/^syntax\./)]);
    },
  );
});

describe('texts', () => {
  const textOf = (written: string, given = '') => {
    const text = `${given}\ncard c "C" { number "1" revision "A" crew hand "Hand" step ${written} }`;
    const [statement] = openText(text).workspace.snapshot('main.card')?.bound.cards[0]?.body ?? [];
    return statement?.type === 'step' ? statement.texts.map((words) => words.text) : [];
  };

  test('a quote and a backslash are written with a backslash', () => {
    expect(textOf(String.raw`"Turn \"ON\" at C:\\."`)).toEqual([String.raw`Turn "ON" at C:\.`]);
  });

  test('several in a row are one', () => {
    expect(textOf('"Turn it" "to the left."')).toEqual(['Turn it to the left.']);
  });

  test('a name in braces stands for a label, a limit for its figures, two braces for one', () => {
    const given = 'item vent : valve "the vent cock"\ngauge oil "oil pressure" in psi { limit low at least 20 psi }';
    expect(textOf('"Look at {vent} and {oil}: {oil.low} {{."', given)).toEqual([
      'Look at the vent cock and oil pressure: at least 20 psi {.',
    ]);
  });

  test('a text ends on its line', () => {
    expectMarked(`
  step "Look at the hose.
  //   ^^^^^^^^^^^^^^^^^^ syntax.text
  step "Look at the lamp."`);
  });

  test('a title of a procedure names its arguments', () => {
    const api = openText(`item left : valve "the left valve" normally closed
procedure turn(one: valve) "Turn {one}" { step { set one open set one closed } }
card a "A" { number "1" revision "A" crew m "M" do turn(left) }`);
    const [done] = api.workspace.snapshot('main.card')?.bound.cards[0]?.body ?? [];
    expect(done).toMatchObject({ type: 'do', title: 'Turn the left valve' });
  });
});

describe('figures', () => {
  test('a time is one or several quantities of time', () => {
    expectMarked('  step wait 4 min 30 s\n  step wait 1 h 5 min 2 s');
  });

  const brief =
    'psi kPa bar inHg degC degF K rpm % psi/min L gal qt L/min gal/min kg/h lb/h lb/min N.m kgf.m lbf.ft lbf.in V A Hz kW dBA dB mm in m ft kg lb kt turn ratio s min h';

  test.each(brief.split(' '))('%s is a unit', (symbol) => {
    expect(findingsOf(`gauge g "g" in ${symbol} { limit l at least 2 ${symbol} }`)).toEqual([]);
    expect(units.map((unit) => unit.symbol)).toContain(symbol);
  });

  test.each(['°C', '°F', 'psig', 'in-lb', 'ft-lb', 'Nm'])('%s is read too', (spelling) => {
    expect(findingsOf(`gauge g "g" in ${spelling} { limit l at least 2 ${spelling} }`)).toEqual([]);
  });

  test('the formatter writes the first spelling', async () => {
    const { format } = await import('../../server/api.ts');
    expect(format('gauge t "t" in °C { limit l at least 2 °C }\n')).toContain('in degC');
  });

  test('an unknown unit names the nearest', () => {
    const [finding] = check('gauge g "g" in psy\n//             ^^^ unit.unknown');
    expect(finding?.message).toContain('psi');
  });
});

describe('comments and blanks', () => {
  test('comments run to the end of the line or between their signs', () => {
    expectMarked('  step /* here\n  and here */ "Look." // and here { "');
  });

  test.each([
    ['LF', '\n'],
    ['CRLF', '\r\n'],
    ['a blank', ' '],
  ])('%s separates', (_, separator) => {
    expect(findingsOf(card('  step "Look."').replace('use "machine.card"\n', '').replaceAll('\n', separator))).toEqual(
      [],
    );
  });

  test('nothing but order separates statements', () => {
    expect(codesOf('step"Look at the lamp."step set drain open step{set drain closed}')).toEqual([]);
  });
});
