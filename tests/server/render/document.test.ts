import fc from 'fast-check';
import type { Element } from 'hast';
import { fromHtml } from 'hast-util-from-html';
import { toHtml } from 'hast-util-to-html';
import { describe, expect, test } from 'vitest';
import type { RenderInput } from '../../../server/render/input.ts';
import { renderBody, renderCard } from '../../../server/render/render.ts';
import { finish } from '../../../shared/parts.ts';
import * as b from '../../support/card-builder.ts';
import { elementsIn, found, htmlFaults, textIn } from '../../support/html.ts';
import { inputOf, rinseInput } from '../../support/rinse.ts';

const bodyOf = (input: RenderInput) => finish(renderBody(input));

/** Without the lines of words in pictures, whose number depends on the words, and the direction, which depends on the script. */
const shape = (html: string) =>
  elementsIn(fromHtml(html))
    .filter(({ tagName }) => tagName !== 'tspan')
    .map(
      ({ tagName, properties }) =>
        `${tagName} ${Object.keys(properties)
          .filter((name) => name !== 'dir')
          .sort()}`,
    );

test('the document is valid HTML', async () => {
  expect(await htmlFaults(renderCard(rinseInput()))).toEqual([]);
});

test('nothing is asked of the network', () => {
  const html = renderCard(rinseInput({ workCopy: 'console.log("<!-- </scr")' }));
  const policy = elementsIn(fromHtml(html)).find(({ properties }) => properties.httpEquiv !== undefined);
  expect(policy?.properties.content).toMatch(/^default-src 'none';/);
  for (const { properties } of elementsIn(fromHtml(html))) {
    for (const [name, value] of Object.entries(properties)) {
      expect(name, 'no inline handler').not.toMatch(/^on/i);
      if (name === 'src' || name === 'href') expect(String(value)).toMatch(/^(data:|#)/);
    }
  }
});

test('the body of the preview is the body of the document, with places', () => {
  const input = rinseInput();
  expect(renderCard(input)).toContain(bodyOf(input));
  const step = elementsIn(fromHtml(bodyOf({ ...input, withPositions: true }))).find(
    ({ properties }) => properties.id === 'step-1',
  );
  expect(step?.properties).toMatchObject({
    dataFile: 'test.card',
    dataOffset: expect.any(String),
    dataEnd: expect.any(String),
  });
});

test('a long card, which is written in stretches, is as it would be in one go', async () => {
  const steps = Array.from({ length: 60 }, (_, index) => b.step(undefined, `Look at lamp ${index}.`));
  for (const body of [steps, [b.stage('Look', steps)]]) {
    const html = renderCard(inputOf(b.card('Long', body)));
    expect(await htmlFaults(html)).toEqual([]);
    const page = fromHtml(html);
    const shortest = { omitOptionalTags: true, preferUnquoted: true, closeEmptyElements: true };
    const main = elementsIn(page).find(({ tagName }) => tagName === 'main') as Element;
    expect(html).toContain(toHtml(main, shortest));
    expect(elementsIn(page).filter(({ properties }) => /^step-/.test(String(properties.id)))).toHaveLength(60);
  }
});

test('a finished card lists its open warnings at its head, a preview shows them at their steps', () => {
  const input = rinseInput();
  const step = (input.card.body[1] as ReturnType<typeof b.stage>).body[0] as ReturnType<typeof b.step>;
  const findings = [
    { code: 'prose.vague', level: 'warning', place: step.place, message: 'Say how long.', path: [], fixes: [] },
  ] as const;
  const finished = elementsIn(fromHtml(renderCard({ ...input, findings })));
  expect(textIn(finished.find(({ properties }) => properties.id === 'step-1') as Element)).not.toContain(
    'Say how long.',
  );
  const preview = elementsIn(fromHtml(bodyOf({ ...input, findings, withPositions: true })));
  const shown = preview.find(({ properties }) => properties.id === 'step-1') as Element;
  expect(textIn(shown)).toContain('Warning: Say how long.');
});

test('the words of a card in another language are all of that language', () => {
  const input = rinseInput();
  const card = { ...input.card, language: b.words('de-CH') };
  const html = renderCard({ ...input, card, workCopy: 'void 0;' });
  expect(html).toContain('<html lang="de-CH">');
  const text = textIn(fromHtml(html.replace(/<(script|style)[\s\S]*?<\/\1>/g, '')));
  for (const word of [
    'Vor Beginn',
    'WARNUNG',
    'GEFAHR',
    'Wenn nicht: weiter mit Schritt 11',
    'mindestens 24 V',
    'Bei Abbruch',
    'Seite',
  ]) {
    expect(word === 'Seite' ? html : text).toContain(word);
  }
  for (const word of ['Before you start', 'WARNING', 'If not', 'at least', 'Reading', 'Signature', 'Revision record']) {
    expect(text).not.toContain(word);
  }
});

test('a language that nobody has translated is said in English, and marked as what it is', () => {
  const input = rinseInput();
  const html = renderCard({ ...input, card: { ...input.card, language: b.words('es') } });
  expect(html).toContain('<html lang="es">');
  expect(html).toContain('Before you start');
  const broken = renderCard({ ...input, card: { ...input.card, language: b.words('not a language') } });
  expect(broken).toContain('<html lang="en">');
});

test('a draft has no work copy: nobody is to work with it', () => {
  const input = rinseInput({ workCopy: 'void 0;' });
  const finding = {
    code: 'x.y',
    level: 'error',
    place: input.card.place,
    message: 'Wrong.',
    path: [],
    fixes: [],
  } as const;
  expect(renderCard(input)).toContain('<script');
  expect(renderCard({ ...input, findings: [finding] })).not.toContain('<script');
});

describe('nothing from a card is markup', () => {
  const nasty = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 40 }),
    fc.constantFrom(
      '<script>alert(1)</script>',
      '"><img src=x onerror=alert(1)>',
      '</style><script>alert(1)</script>',
      '</title><svg onload=alert(1)>',
      'javascript:alert(1)',
      '<!--',
      ']]>',
      '&lt;b&gt;',
      '{} }} @page { }',
      '\\3c \u0000\u202e\u2028',
      "'); } body { background: url(https://example.com) }",
    ),
  );

  const cardOf = (text: string) => {
    const valve = b.kind(text, { closed: `${text} {}`, open: undefined });
    const one = b.item('one', valve, text, { at: text });
    const meter = b.gauge('g', 'psi', text, { at: text });
    const who = b.role('who', text, text);
    return b.card(
      text,
      [
        b.admonition('danger', text),
        b.stage(text, [
          b.step(who, text, { see: [b.words(text)] }),
          b.step(who, [
            b.set([one, 'closed'], [one, 'open']),
            b.check(text, b.stop(text)),
            b.read(meter, b.reading(meter, b.atLeast(1, 'psi'))),
            b.record(text),
            b.sign(who, text),
          ]),
          b.when(text, [b.step(who, [b.ensure([one, 'open'])])]),
          b.choose([text, [b.step(who, text)]]),
          b.forEach([one], (each) => [b.step(who, [b.check(b.is(each, 'closed'))])]),
          { type: 'figure', path: text, caption: text, place: b.place() },
        ]),
        b.stage(text, [b.step(who, text)], { whenStopped: true }),
      ],
      {
        number: b.words(text),
        revision: { ...b.words(text), date: text },
        crew: [who],
        tools: [b.words(text)],
        purpose: text,
        language: b.words(text),
      },
    );
  };
  const inputFor = (text: string, level: 'error' | 'hint') => {
    const card = cardOf(text);
    const finding = { code: 'x.y', level, place: card.place, message: text, path: [], fixes: [] } as const;
    return inputOf(card, {
      workCopy: 'void 0;',
      findings: [finding],
      accepted: [{ code: text, finding: text, because: text, by: text, where: card.place, acceptance: card.place }],
      beforeYouStart: [{ type: 'words', text }],
    });
  };
  const shapesOf = (text: string) => [
    shape(renderCard(inputFor(text, 'error'))),
    shape(renderCard(inputFor(text, 'hint'))),
  ];
  const expected = shapesOf('plain');

  test('whatever its texts are, the document has the same elements and attributes', () => {
    fc.assert(
      // An empty text rightly leaves its element out, so each begins with a letter.
      fc.property(
        nasty.map((text) => `x${text}`),
        (text) => {
          expect(shapesOf(text)).toEqual(expected);
        },
      ),
      { numRuns: 200 },
    );
  });
});

test('several things to do in a step are a, b, c with a box each', () => {
  const valve = b.kind('valve', { closed: 'Close {}', open: 'Open {}' });
  const item = (name: string) => b.item(name, valve, `the ${name}`);
  const step = (...actions: Parameters<typeof b.step>[1][]) =>
    bodyOf(inputOf(b.card('C', [b.step(undefined, actions as never)])));
  const two = fromHtml(step(b.set([item('drain'), 'open'], [item('vent'), 'closed']) as never));
  const letters = found(two, 'letter');
  expect(letters.map((letter) => textIn(letter).trim())).toEqual(['a.', 'b.']);
  expect(letters.map((letter) => elementsIn(letter).length)).toEqual([2, 2]);
  const tick = elementsIn(two).find(({ properties }) => String(properties.className) === 'tick');
  expect(tick?.children).toEqual([]);
  expect(found(step(b.set([item('drain'), 'open']) as never), 'letter')).toEqual([]);
});

test('steps without a title of their own do not stand under that of the list before them', () => {
  const valve = b.kind('valve', { closed: 'Close {}', open: 'Open {}' });
  const step = () => b.step(undefined, [b.set([b.item('drain', valve, 'the drain'), 'open'])]);
  const headings = (...body: Parameters<typeof b.card>[1]) =>
    found(
      bodyOf(inputOf(b.card('C', body), { beforeYouStart: [{ type: 'words', text: 'The drain is closed.' }] })),
      'h2',
    ).map(textIn);
  expect(headings(step()).slice(0, 2)).toEqual(['Before you start', 'Steps']);
  expect(headings(step(), b.stage('Work', [step()])).slice(0, 3)).toEqual(['Before you start', 'Steps', 'Work']);
  expect(headings(b.stage('Work', [step()])).slice(0, 2)).toEqual(['Before you start', 'Work']);
});

test('what is watched during a run stands before the end of the run', () => {
  const text = textIn(fromHtml(bodyOf(rinseInput())));
  const order = [
    'Hold the left starter switch',
    'While it runs:',
    'Watch the ',
    'Then release the left starter switch.',
  ];
  const found = order.map((part) => text.indexOf(part));
  expect(found).toEqual([...found].sort((x, y) => x - y));
  expect(found).not.toContain(-1);
});

test('a watch that fails ends the run before anybody goes elsewhere', () => {
  const page = bodyOf(rinseInput());
  expect(found(page, 'failure').map(textIn)).toContainEqual(
    expect.stringMatching(/^If not: Release the left starter switch\. STOP\./),
  );
  const rows = found(page, 'failures').map(textIn).join(' ');
  expect(rows).toContain('Release the left starter switch. STOP.');
});

test('the front gathers what the cards need that this one does', () => {
  const lid = b.item('lid', b.kind('lid', { shut: 'Shut {}', open: 'Open {}' }), 'the lid');
  const done = {
    type: 'do',
    name: 'other',
    title: 'Isolate the bus',
    callee: {
      type: 'card',
      number: 'BI-1',
      revision: { ...b.words('C'), date: '2026-05-04' },
      tools: [b.words('Torque wrench'), b.words('Lamp')],
      parts: [],
      materials: [b.words('Grease')],
      references: [b.words('Manual 7')],
      assumes: [{ item: lid, state: 0, place: b.place() }],
    },
    arguments: [],
    body: [],
    place: b.place(),
  } as const;
  const card = b.card('C', [done, done], { tools: [b.words('Lamp')] });
  const head = elementsIn(fromHtml(bodyOf(inputOf(card)))).find(({ tagName }) => tagName === 'header') as Element;
  const text = textIn(head);
  for (const part of [
    'Torque wrench',
    'Grease',
    'Manual 7',
    'BI-1 · Isolate the bus · Revision C · 2026-05-04',
    'Before it begins: the lid is shut.',
  ])
    expect(text.split(part), part).toHaveLength(2);
  expect(text.split('Lamp')).toHaveLength(2);
});

test('what nobody sees reaches no page', () => {
  const hidden = 'Open \u202Eevlav\u202C\u2067\u200B\uFEFF the\u0007 lid\u2069';
  const html = renderCard(
    inputOf(b.card(hidden, [b.step(undefined, hidden)], { number: b.words(hidden) }), { workCopy: 'void 0;' }),
  );
  for (const one of ['\u0007', '\u202E', '\u202C', '\u2067', '\u2069', '\u200B', '\uFEFF', '\\202e', '\\2067'])
    expect(html).not.toContain(one);
  expect(html).toContain('Open evlav the lid');
});
