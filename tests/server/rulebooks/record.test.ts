/** What std:record asks of a card beside its rules: fields of its head, fields of the record, and stages as points where work may stop. */
import { describe, expect, test } from 'vitest';
import { record } from '../../../server/rulebooks/record.ts';
import type { Settings } from '../../../shared/settings.ts';
import { findingsOf, mainFile, openText } from '../../support/check.ts';

const good = record.good as string;
const codes = (text: string) => findingsOf(text).map(({ code }) => code);

test.each([
  ['the number', '  number     "S-1"\n', 'number'],
  ['the day of the revision', ' on 2026-03-02', 'day of the revision'],
  ['the manual', /\n {2}references .*/, 'references'],
])('%s is asked for, where the rulebook is used', (_, part, missing) => {
  const text = good.replace(part, '');
  const [finding] = findingsOf(text).filter(({ code }) => code === 'card.missing-field');
  expect(finding?.message).toContain(`has no ${missing}.`);
});

test('without the rulebook a card needs no manual and no day', () => {
  expect(codes('card c "C" {\n  number "1"\n  revision "A"\n  crew f "Fitter"\n  step "Look."\n}')).toEqual([]);
});

test.each<[asked: string, use: string, settings: Partial<Settings>, certificate: boolean]>([
  ['with the rulebook', 'use "std:record"\n', {}, true],
  ['without it', '', {}, false],
  ['with a record of the shop’s own', 'use "std:record"\n', { record: { title: 'Ours' } }, false],
])('the record %s', (_, use, settings, certificate) => {
  const text = `${use}card c "C" { number "1" revision "A" on 2026-03-02 crew f "Fitter" references "M" step "Look." }`;
  const html = openText(text, { settings })
    .render(mainFile)
    .map((one) => one.html)
    .join('');
  expect(html.includes('Certificate')).toBe(certificate);
});

describe('where a stage ends and work may stop', () => {
  const found = (body: string) =>
    findingsOf(
      `use "std:record"
item panel : access-panel "the panel"
card c "C" { number "1" revision "A" on 2026-03-02 references "M" crew f "Fitter" ${body} }`,
      { only: ['record'] },
    );
  const told = (body: string) => found(body).map(({ message }) => message);
  const tools = 'step set tools-in done';
  const open = 'step set panel open';
  const list = 'step set open-items listed';
  const counted = 'step set tools-out done';
  const closed = 'step set panel closed';

  test('a panel that is open is told, and tools that are not counted back', () => {
    expect(told(`stage "A" { ${tools} ${open} } stage "B" { ${counted} ${closed} }`)).toEqual([
      expect.stringContaining('“A” ends with the tools not counted back'),
      expect.stringContaining('“A” ends with the panel open'),
    ]);
    expect(
      told(`stage "A" { ${tools} ${open} ${counted} } stage "B" { step "Look." } stage "C" { ${closed} }`),
    ).toEqual([expect.stringContaining('“A” ends with the panel open')]);
  });
  test.each([
    [
      'what is closed and counted before',
      `stage "A" { ${tools} ${open} ${counted} ${closed} } stage "B" { step "Look." }`,
    ],
    ['what is written down', `stage "A" { ${tools} ${open} ${list} } stage "B" { ${counted} ${closed} }`],
    ['what is open over no end of a stage', `${tools} ${open} ${counted} ${closed}`],
    ['the stage for stops', `stage "A" { ${tools} ${open} ${counted} ${closed} } stage "B" when stopped { ${closed} }`],
  ])('%s is not told', (_, body) => expect(told(body)).toEqual([]));

  test('what is opened after it was written down is told', () => {
    expect(told(`stage "A" { ${tools} ${list} ${open} } stage "B" { ${counted} ${closed} }`)).toHaveLength(1);
  });
  test('tools that are counted in are counted back by the end of the card, stages or not', () => {
    expect(told(`${tools} ${open} ${closed}`)).toEqual([expect.stringContaining('by the end of the card')]);
    expect(told(`stage "A" { ${tools} }`)).toEqual([expect.stringContaining('by the end of the card')]);
    const mends = (body: string) => found(body).flatMap(({ fixes }) => fixes.map(({ title }) => title));
    expect(mends(`stage "A" { ${tools} }`)).toEqual(['Insert: step set tools-out done']);
    expect(mends(`${tools} finish`)).toEqual([]);
  });
});

test('a critical task is inspected in the stage in which it is done, since work may stop where the stage ends', () => {
  const card = (body: string) => `use "std:record"
item pin : critical-task "the pin"
card c "C" { number "1" revision "A" on 2026-03-02 references "M" crew f "Fitter", m "Mate" ${body} }`;
  const done = 'step by f set pin done';
  const inspected = 'step by m set pin inspected';
  const told = (body: string) => codes(card(body)).filter((code) => code.startsWith('record.'));
  expect(told(`stage "A" { ${done} } stage "B" { ${inspected} }`)).toEqual(['record.task-over-stages']);
  expect(told(`stage "A" { ${done} ${inspected} } stage "B" { step by m "Look." }`)).toEqual([]);
  expect(told(`${done} ${inspected}`)).toEqual([]);
});
