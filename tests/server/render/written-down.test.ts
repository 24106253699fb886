/** What is tightened and written down: its sentence, what a value has to keep, and its blanks. */
import type { Element } from 'hast';
import { describe, expect, test } from 'vitest';
import { findingsOf, openText } from '../../support/check.ts';
import { found, textIn } from '../../support/html.ts';

const card = (body: string, fields = '') => `
item cover : door "the pump cover" at "left side" normally closed
card tried "Tried" { number "T-1" revision "A" crew hand "Hand" ${fields} ${body} }
`;

function pageOf(body: string, fields = '', secondUnits: 'none' | 'us' = 'none'): string {
  const text = card(body, fields);
  expect(findingsOf(text).filter(({ level }) => level === 'error')).toEqual([]);
  return openText(text, { settings: { secondUnits } }).render('main.card')[0]?.html ?? '';
}

const linesOf = (html: string) => found(html, 'sentence', 'limit', 'remark').map((line) => textIn(line).trim());
const blanksOf = (html: string | Element) => found(html, 'blank').map((blank) => textIn(blank).split(': ')[0]);

describe('a torque', () => {
  test.each([
    ['"the eight bolts" to 25 N.m +/- 2 N.m', 'Tighten the eight bolts to 25 N·m ± 2 N·m.'],
    ['cover to 25 N.m in "a star pattern"', 'Tighten the pump cover (left side) to 25 N·m, in a star pattern.'],
    ['"the eight bolts" to 23 to 27 N.m', 'Tighten the eight bolts: 23 to 27 N·m.'],
    ['"the eight bolts" to at least 20 N.m', 'Tighten the eight bolts to at least 20 N·m.'],
  ])('%s', (said, sentence) => expect(linesOf(pageOf(`step tighten ${said}`))).toContain(sentence));

  test('stands in the other unit as well, the tolerance rounded inwards', () => {
    expect(linesOf(pageOf('step tighten "the bolts" to 25 N.m +/- 2 N.m', '', 'us'))).toContain(
      'Tighten the bolts to 25 N·m ± 2 N·m (17 to 19.9 lbf·ft).',
    );
  });

  test('has blanks for the tool and for what it showed', () =>
    expect(blanksOf(pageOf('step tighten "the bolts" to 25 N.m'))).toEqual(
      expect.arrayContaining(['Tool number', 'Reading']),
    ));

  test('is in a unit of torque', () => {
    const [finding] = findingsOf(card('step tighten "the bolts" to 25 bar'), { only: ['unit'] });
    expect(finding?.message).toBe('bar measures pressure; a torque is needed here. Write a unit of torque.');
  });

  test('in German', () => {
    expect(linesOf(pageOf('step tighten "Deckelschrauben" to 25 N.m in "über Kreuz"', 'language "de"'))).toContain(
      'Deckelschrauben mit 25 N·m anziehen, über Kreuz.',
    );
  });
});

describe('a value', () => {
  test('says what it has to keep', () =>
    expect(linesOf(pageOf('step record "Gap" in mm at most 0.4 mm'))).toEqual(
      expect.arrayContaining(
        ['Write down: Gap', 'It must be at most 0.4 mm.'].map((text) => expect.stringContaining(text)),
      ),
    ));

  test('has a bound in a unit of its own measure', () => {
    const [finding] = findingsOf(card('step record "Gap" in mm at most 2 bar'), { only: ['unit'] });
    expect(finding?.message).toBe('bar measures pressure; Gap is in mm. Write a unit of length.');
  });
});

describe('a part and a tool', () => {
  const fields = `tools "Torque wrench" calibrated, "Ladder"
    parts "Seal ring" number "SR-12" quantity 4 batch, "Grease" expires
    purpose "Tries it."`;

  test('have blanks on the front for what is written down of them', () => {
    const html = pageOf('step "Look."', fields);
    expect(blanksOf(html)).toEqual(expect.arrayContaining(['Tool number', 'Due date', 'Batch', 'Expiry date']));
    expect(html).toContain('4 × Seal ring (SR-12)');
  });

  test('are asked for where a part is fitted, as the card lists it', () => {
    const html = pageOf('step record part "Seal ring"', fields);
    expect(linesOf(html)).toContain('Write down what is fitted: Seal ring (SR-12).');
    const inSteps = found(html, 'step').flatMap(blanksOf);
    expect(inSteps).toEqual(expect.arrayContaining(['Part number', 'Batch']));
    expect(inSteps).not.toContain('Expiry date');
  });

  test('are those of the cards that it has done as well', () => {
    const done = `card other "Other" { number "T-2" revision "A" crew hand "Hand"
      tools "Ladder" calibrated  parts "Lamp" number "L-1"  step record part "Lamp" }`;
    const text = `${card('do other', 'tools "Ladder" parts "Ring"')}${done}`;
    const html = openText(text).render('main.card')[0]?.html ?? '';
    const [front] = found(html, 'header');
    const listed = found(front as Element, 'li').map((one) => textIn(one).replace(/ *Tool number.*/, ''));
    expect(listed).toEqual(expect.arrayContaining(['Ring', 'Lamp (L-1)']));
    expect(blanksOf(front as Element)).toEqual(expect.arrayContaining(['Tool number', 'Due date']));
    expect(listed.filter((one) => one.startsWith('Ladder'))).toHaveLength(1);
    expect(linesOf(html)).toContain('Write down what is fitted: Lamp (L-1).');
    expect(found(html, 'step').flatMap(blanksOf)).not.toContain('Batch');
  });

  test.each([
    ['"Seal rign"', 'The “parts” of this card do not list “Seal rign”. Did you mean “Seal ring”?', '"Seal ring"'],
    ['"Hose"', 'The “parts” of this card do not list “Hose”. Write it as it stands there, or add it.', undefined],
  ])('that the card does not list is told: %s', (name, message, mend) => {
    const found = findingsOf(card(`step record part ${name}`, fields), { only: ['name.unknown'] });
    expect(found.map((finding) => finding.message)).toEqual([message]);
    expect(found[0]?.fixes[0]?.edits[0]?.newText).toBe(mend);
  });

  test('need not be listed where no card has a list', () => {
    expect(findingsOf(card('step record part "Hose"'), { only: ['name.unknown'] })).toEqual([]);
    const text = `procedure fit() { step record part "Hose" }${card('do fit()')}`;
    expect(findingsOf(text, { only: ['name.unknown'] })).toEqual([]);
  });

  test.each([
    ['a procedure', 'procedure fit() { step record part "Seal rign" }'],
    ['a card', 'card fit "Fit" { number "T-2" revision "A" crew hand "Hand" step record part "Seal rign" }'],
  ])('are listed by the card that does %s in which they are fitted', (_, fit) => {
    const found = findingsOf(`${fit}${card('do fit do fit', fields)}`, { only: ['name.unknown'] });
    expect(found.map(({ message }) => message)).toEqual([
      'The “parts” of “Tried”, which does this, do not list “Seal rign”. Did you mean “Seal ring”?',
    ]);
    expect(findingsOf(`${fit}${card('do fit', 'parts "Seal rign"')}`, { only: ['name.unknown'] })).toEqual([]);
    const files = { 'fit.card': fit };
    const beside = findingsOf(`use "fit.card"${card('do fit', fields)}`, { files, only: ['name.unknown'] });
    expect(beside.map(({ place }) => place.file)).toEqual(['fit.card']);
  });

  test('a number on a line of its own is that of the card', () =>
    expect(openText('card a "A" {\nparts "Ring"\nnumber "T-9"\nstep "Look." }').render('main.card')[0]?.html).toContain(
      '<strong>T-9</strong>',
    ));
});

describe('a table', () => {
  const tableOf = (body: string) => {
    const lines = found(pageOf(body), 'lines').at(-1);
    return found(lines as Element, 'tr').map((row) => found(row, 'th', 'td').map(textIn));
  };
  const said = 'record "Gap" in mm 0.2 mm to 0.4 mm, "Torque" in N.m at "front left", "front right"';

  test('has a row for each position and a column with its unit for each value', () =>
    expect(tableOf(`step ${said}`)).toEqual([
      ['Where', 'Gap (mm)', 'Torque (N·m)'],
      ['front left', '', ''],
      ['front right', '', ''],
    ]));

  test('is there for each time that the step is done', () =>
    expect(tableOf('repeat 2 times { step record "Gap" in mm at "1", "2" }').slice(1)).toEqual([
      ['1. 1', ''],
      ['1. 2', ''],
      ['2. 1', ''],
      ['2. 2', ''],
    ]));

  test('says under it what a value has to keep', () =>
    expect(linesOf(pageOf(`step ${said}`))).toEqual(
      expect.arrayContaining(['Fill in the table: Gap and Torque.', 'Gap: 0.2 to 0.4 mm']),
    ));
});

test('work in passes has a row for each value, and its blanks beside it', () => {
  const html = pageOf('for each pass in 10, 18.5 N.m { step tighten "the bolts" to pass in "a star pattern" }');
  const heads = found(html, 'th').filter(({ properties }) => properties.scope === 'row');
  expect(heads.map(textIn)).toEqual(['Hand', '10 N·m', '18.5 N·m']);
  expect(html).toContain('Do this with each value');
});

describe('who answers for a card', () => {
  const names = (fields: string) => {
    const table = found(pageOf('step "Look."', fields), 'table').find((one) => textIn(one).includes('Prepared by'));
    return table && found(table, 'td').map(textIn);
  };

  test('stands under the revision, and whoever is not named signs on paper', () => {
    expect(names('prepared by "A. Writer" on 2026-05-02 approved by "C. Third"')).toEqual([
      'A. Writer · 2026-05-02',
      '',
      'C. Third',
    ]);
    expect(names('')).toEqual(['', '', '']);
  });

  test('is said once of each', () =>
    expect(
      findingsOf(card('step "Look."', 'checked by "A" checked by "B"'), { only: ['name'] }).map(({ code }) => code),
    ).toEqual(['name.duplicate']));
});
