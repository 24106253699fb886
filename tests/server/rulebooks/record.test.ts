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
  const found = (body: string, variant = '') =>
    findingsOf(
      `use "std:record"
${variant}
item panel : access-panel "the panel"
card c "C" { number "1" revision "A" on 2026-03-02 references "M" crew f "Fitter" ${body} }`,
      { only: ['record'] },
    );
  const told = (body: string, variant?: string) => found(body, variant).map(({ message }) => message);
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

  test.each([
    ['closed', `${counted} if "A?" { ${closed} }`, ''],
    ['written down', `${counted} if "A?" { ${list} }`, ''],
    ['closed on some machines', `${counted} step only fit a1 set panel closed`, ' This is so for fit b1.'],
  ])('a panel that need not be %s before the stage ends is told', (_, steps, machines) => {
    expect(
      told(`stage "A" { ${tools} ${open} ${steps} } stage "B" { step ensure panel closed }`, 'variant fit a1, b1'),
    ).toEqual([expect.stringMatching(`^“A” ends with the panel open, .* what is open\\.${machines}$`)]);
  });
  test('what is opened after it was written down is told', () => {
    expect(told(`stage "A" { ${tools} ${list} ${open} } stage "B" { ${counted} ${closed} }`)).toHaveLength(1);
  });
  test('tools that are counted in are counted back by the end of the card, stages or not', () => {
    expect(told(`${tools} ${open} ${closed}`)).toEqual([expect.stringContaining('by the end of the card')]);
    expect(told(`stage "A" { ${tools} }`)).toEqual([expect.stringContaining('by the end of the card')]);
    expect(told(`${tools} if "A?" { finish } ${counted}`)).toEqual([expect.stringContaining('by the end of the card')]);
    expect(told(`${tools} if "A?" { stop "Call." } ${counted}`)).toEqual([]);
    const mends = (body: string) => found(body).flatMap(({ fixes }) => fixes.map(({ title }) => title));
    expect(mends(`stage "A" { ${tools} }`)).toEqual(['Insert: step set tools-out done']);
    expect(mends(`${tools} finish`)).toEqual([]);
  });
});

describe('a critical task', () => {
  const told = (body: string) =>
    findingsOf(
      `use "std:record"
variant kk a1, b1
item pin : critical-task "the pin"
procedure look() { step by mate "Look." }
card c "C" { number "1" revision "A" on 2026-03-02 references "M" crew fitter "Fitter", mate "Mate" ${body} }`,
      { only: ['record'] },
    ).map(({ code, message }) => [code.replace('record.', ''), /This is so .*/u.exec(message)?.[0] ?? '']);
  const done = 'step by fitter set pin done';
  const inspected = 'step by mate set pin inspected';

  test('is inspected in the stage in which it is done, since work may stop where the stage ends', () => {
    expect(told(`stage "A" { ${done} } stage "B" { ${inspected} }`)).toEqual([['task-over-stages', '']]);
    expect(told(`stage "A" { ${done} ${inspected} } stage "B" { step by mate "Look." }`)).toEqual([]);
    expect(told(`${done} ${inspected}`)).toEqual([]);
  });
  test('is inspected there on every path, and on every machine', () => {
    expect(told(`stage "A" { ${done} if "A?" { ${inspected} } } stage "B" { ${inspected} }`)).toEqual([
      ['task-over-stages', ''],
    ]);
    const some = 'step by mate only kk a1 set pin inspected';
    expect(told(`stage "A" { ${done} ${some} } stage "B" { ${inspected} }`)).toEqual([
      ['task-over-stages', 'This is so for kk b1.'],
    ]);
  });
  test('is inspected there, though it is done once more later', () => {
    expect(told(`stage "A" { ${done} } stage "B" { ${done} ${inspected} }`)).toEqual([['task-over-stages', '']]);
  });
  test('is inspected before work goes on elsewhere, also where that leads back', () => {
    const stages = (between: string) =>
      `stage a "A" { if "A second time?" { ${inspected} go to e } ${done} ${between} } stage "B" { step by fitter "Wash." go to a } stage e "E" { step by fitter "Look." }`;
    expect(told(stages(''))).toEqual([['task-over-stages', '']]);
    expect(told(stages(inspected))).toEqual([]);
  });
  test.each([
    ['its first step', 'step by mate "Look."'],
    ['a branch', 'if "A?" { step by mate "Look." }'],
    ['a step that others pass by', 'step by mate only kk a1 "Look." step by mate "Look."'],
    ['a step behind a branch', 'if "A?" { stop "Call." } step by mate "Look."'],
    ['what another one does', 'do look'],
  ])('is inspected before a stage is entered by %s', (_, first) => {
    const back = `if "A second time?" { ${inspected} go to e }`;
    expect(
      told(`stage a "A" { ${back} ${done} } stage "B" { ${first} go to a } stage e "E" { step by mate "Look." }`),
    ).toEqual([['task-over-stages', '']]);
  });
  test('is inspected before a jump to a step of another stage', () => {
    const jump = 'if "A?" { go to x }';
    expect(
      told(
        `stage "A" { if "B?" { ${done} ${jump} ${inspected} } } stage "B" { step by mate "Look." step x: by mate "Look." ${inspected} }`,
      ),
    ).toEqual([['task-over-stages', '']]);
  });
  test('is done and inspected by two, where there is one alone', () => {
    const alone = `use "std:record"\nitem pin : critical-task "the pin"\ncard c "C" { number "1" revision "A" on 2026-03-02 references "M" crew fitter "Fitter" step { set pin done } step { set pin inspected } }`;
    expect(findingsOf(alone, { only: ['record.own-inspection'] })).toHaveLength(1);
  });
  test('that is inspected in a procedure names the call', () => {
    const own = 'step by mate set pin done';
    const [finding] = findingsOf(
      `use "std:record"
item pin : critical-task "the pin"
procedure look() { ${inspected} }
card c "C" { number "1" revision "A" on 2026-03-02 references "M" crew fitter "Fitter", mate "Mate" ${done} do look ${own} do look }`,
      { only: ['record.own-inspection'] },
    );
    expect(finding?.message).toContain('This is so in the second “do look”.');
  });
  test('is inspected by nobody who may have done it', () => {
    const own = 'step by mate set pin done';
    expect(told(`if "A?" { ${own} } else { ${done} } ${inspected}`)).toEqual([['own-inspection', '']]);
    expect(told(`if "A?" { ${own} } ${done} ${inspected}`)).toEqual([]);
  });
  test('is done and inspected by others on each machine', () => {
    const on = (machine: string, doer: string, inspector: string) => [
      `step by ${doer} only kk ${machine} set pin done`,
      `step by ${inspector} only kk ${machine} set pin inspected`,
    ];
    const [doneA, inspectedA] = on('a1', 'fitter', 'mate');
    const [doneB, inspectedB] = on('b1', 'mate', 'fitter');
    expect(told([doneA, doneB, inspectedA, inspectedB].join(' '))).toEqual([]);
    expect(told([doneA, doneB, inspectedA, inspected].join(' '))).toEqual([
      ['own-inspection', 'This is so for kk b1.'],
    ]);
  });
});
