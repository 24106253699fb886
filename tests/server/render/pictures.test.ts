import type { Element, Nodes } from 'hast';
import { fromHtml } from 'hast-util-from-html';
import { describe, expect, test } from 'vitest';
import { cleanedSvg } from '../../../server/render/pictures/clean.ts';
import { wrapped } from '../../../server/render/pictures/svg.ts';
import { renderCard } from '../../../server/render/render.ts';
import type { Card, Supply } from '../../../shared/card.ts';
import { exact } from '../../../shared/exact.ts';
import * as b from '../../support/card-builder.ts';
import { asRead } from '../../support/html.ts';
import { inputOf, rinseInput } from '../../support/rinse.ts';

function pictures(html: string, name: string): Element[] {
  const found: Element[] = [];
  const visit = (node: Nodes): void => {
    if (node.type === 'element' && [node.properties.className].flat().includes(`of-${name}`)) found.push(node);
    if ('children' in node) node.children.forEach(visit);
  };
  visit(fromHtml(html));
  return found;
}
const spoken = (html: string, name: string) =>
  pictures(html, name).map(({ properties }) => asRead(String(properties.ariaLabel)));
const of = (card: Card) => renderCard(inputOf(card));

describe('the way through', () => {
  test('is drawn where a card branches, and told', () => {
    const [told] = spoken(renderCard(rinseInput()), 'flow');
    expect(told).toContain('From Bring power to the aircraft · Steps 4 to 7: to Rinse · Step 8.');
    expect(told).toContain(
      'From Bring power to the aircraft · Steps 4 to 7, If not: to Put everything back · Steps 11 to 14.',
    );
    expect(told).toContain('From 2 times, then: to Put everything back · Steps 11 to 14.');
  });
  test('names its steps in French without the article that a sentence has', () => {
    const input = rinseInput();
    const html = renderCard({ ...input, card: { ...input.card, language: b.words('fr') } });
    const [told] = spoken(html, 'flow');
    expect(told).toContain('· Étapes 4 à 7');
    expect(told).not.toMatch(/les étapes|l’étape/i);
    expect(html).toMatch(/Faire l’étape \d+ \(dernière page\)|Faire les étapes \d+ (?:et|à) \d+ \(dernière page\)/);
  });
  test('is not drawn where it goes straight on', () => {
    expect(
      pictures(of(b.card('C', [b.step(undefined, 'One'), b.step(undefined, [b.check('it is dry')])])), 'flow'),
    ).toEqual([]);
  });
  test('is not drawn where it would be a maze', () => {
    const branches = Array.from({ length: 60 }, (_, index) => b.when(`case ${index}`, [b.step(undefined, 'Do it')]));
    expect(pictures(of(b.card('C', branches)), 'flow')).toEqual([]);
  });
});

describe('a supply network', () => {
  const breaker = b.kind('breaker', { closed: 'Close {}', pulled: 'Pull {}' });
  const tie = b.item('tie', breaker, 'the bus tie');
  const lamp = b.item('lamp', b.kind('lamp', { off: 'Put out {}', on: 'Light {}' }), 'the lamp');
  const other = b.item('other', breaker, 'the spare breaker');
  const supply: Supply = {
    id: 0,
    name: 'power',
    label: '28 V direct current',
    nodes: [
      { name: 'battery', place: b.place() },
      { name: 'left-bus', place: b.place() },
      { name: 'lamp', item: lamp, place: b.place() },
    ],
    sources: [{ node: 0, place: b.place() }],
    links: [
      { from: 0, to: 1, both: false, when: b.is(tie, 'closed'), place: b.place() },
      { from: 1, to: 2, both: true, place: b.place() },
    ],
    place: b.place(),
  };
  const cardWith = (item: typeof tie, state: string) =>
    of(
      b.card('C', [b.step(undefined, [b.set([item, state])])], { equipment: { ...b.noEquipment, supplies: [supply] } }),
    );

  test('is drawn where a step changes it, with what must be so', () => {
    expect(spoken(cardWith(tie, 'pulled'), 'supply')).toEqual([
      '28 V direct current. Source: battery. From battery to left bus, when the bus tie is closed. From left bus to the lamp.',
    ]);
  });
  test('is left out where no step has to do with it', () => {
    expect(spoken(cardWith(other, 'pulled'), 'supply')).toEqual([]);
  });
});

describe('runs and rests', () => {
  const starter = (duties: ReturnType<typeof b.longest>[]) =>
    b.item('s', b.kind('starter', { off: 'Release {}', on: 'Hold {}' }), 'the starter', { duties });
  const cardWith = (duties: ReturnType<typeof b.longest>[]) =>
    of(b.card('C', [b.step(undefined, [b.run(starter(duties), 'on', 20)])]));
  const texts = (html: string) =>
    JSON.stringify(pictures(html, 'timeline'))
      .match(/"value":"[^"]+"/g)
      ?.map((text) => asRead(text.slice(9, -1)));

  test('stand one after another', () => {
    expect(texts(cardWith([b.longest(1, 30, 60), b.timesThenRest(1, 3, 1800)]))).toEqual([
      'run, at most 30 s',
      'rest 1 min',
      'run, at most 30 s',
      'rest 1 min',
      'run, at most 30 s',
      'rest 30 min',
    ]);
  });
  test('are not drawn where no rest is asked for', () => {
    expect(texts(cardWith([b.longest(1, 30)]))).toBeUndefined();
  });
});

describe('a scale', () => {
  const reads = { from: exact(0), to: exact(100), by: exact(2), place: b.place() };
  const pressure = b.gauge('p', 'psi', 'oil pressure', { reads });
  test('is shown at the first reading with these bounds', () => {
    const step = () => b.step(undefined, [b.read(pressure, b.reading(pressure, b.range(40, 60, 'psi')))]);
    const other = b.step(undefined, [b.read(pressure, b.reading(pressure, b.atLeast(50, 'psi')))]);
    expect(spoken(of(b.card('C', [step(), step(), other])), 'scale')).toEqual([
      'Scale of the oil pressure from 0 to 100 psi. Good: 40 to 60 psi (276 to 413 kPa).',
      'Scale of the oil pressure from 0 to 100 psi. Good: at least 50 psi (345 kPa).',
    ]);
  });
  test('is not shown where the gauge does not say what it reads', () => {
    const plain = b.gauge('q', 'psi', 'oil pressure');
    expect(
      spoken(of(b.card('C', [b.step(undefined, [b.read(plain, b.reading(plain, b.atLeast(1, 'psi')))])])), 'scale'),
    ).toEqual([]);
  });
});

test('texts break at spaces, and inside a word that is too long', () => {
  expect(wrapped('the left wash valve is open', 12)).toEqual(['the left', 'wash valve', 'is open']);
  expect(wrapped('Donaudampfschiff', 8)).toEqual(['Donaudam', 'pfschiff']);
  expect(wrapped('压力表读数正常', 8)).toEqual(['压力表读', '数正常']);
  expect(wrapped('', 8)).toEqual([]);
});

describe('a figure', () => {
  const svg = (content: string) =>
    new TextEncoder().encode(`<?xml version="1.0"?><svg viewBox="0 0 10 10">${content}</svg>`);
  const clean = (content: string) => new TextDecoder().decode(cleanedSvg(svg(content)));

  test('keeps its shapes', () => {
    const text = clean(
      '<g transform="scale(2)"><path d="M0 0L5 5" stroke="#000" stroke-width="2" fill="url(#shade)"/></g><text x="1">A &lt; B</text>',
    );
    expect(text).toContain('<path d="M0 0L5 5" stroke="#000" stroke-width="2" fill="url(#shade)"');
    expect(text).toContain('viewBox="0 0 10 10"');
    expect(text).toContain('xmlns="http://www.w3.org/2000/svg"');
  });

  test.each([
    '<script>alert(1)</script>',
    '<path onload="alert(1)" d="M0 0"/>',
    '<image href="https://example.com/x.png"/>',
    '<use href="https://example.com/x.svg#a"/>',
    '<foreignObject><body onload="alert(1)"></body></foreignObject>',
    '<style>@import url(https://example.com)</style>',
    '<rect fill="url(https://example.com/#a)"/>',
    '<rect fill="u\\rl(https://example.com/#a)"/>',
    '<rect fill="\\75 \\72 \\6c(https://example.com/#a)"/>',
    '<rect fill="URL(https://example.com/#a)"/>',
    '<rect fill="&#117;r&#x6c;(https://example.com/#a)"/>',
    '<rect fill="url( \n&quot;//example.com/#a&quot;)"/>',
    '<rect fill="url(#a) url(//example.com)"/>',
    '<rect fill="src(&quot;//example.com&quot;)"/>',
    '<rect fill="image-set(&quot;//example.com/a.png&quot; 1x)"/>',
    '<rect fill="/**/url(//example.com)"/>',
    '<rect clip-path="url(//example.com/#a)"/>',
    '<rect marker-end="u\\rl(//example.com/#a)"/>',
    '<rect fill="red;@import &quot;//example.com&quot;"/>',
    '<rect fill="var(--a, url(//example.com))"/>',
    '<rect stroke-dasharray="1 url(//example.com)"/>',
    '<rect transform="matrix(1) url(//example.com)"/>',
    '<svg xmlns="//example.com"/>',
    '<use xlink:href="//example.com/x.svg#a"/>',
    '<SCRIPT>alert(1)</SCRIPT>',
    '<text>x</text><STYLE>@IMPORT "//example.com"</STYLE>',
    '<rect fill="attr(data-x url)" data-x="//example.com"/>',
    '<rect style="fill:url(https://example.com)"/>',
    '<a href="javascript:alert(1)"><text>x</text></a>',
    '<animate attributeName="href" to="javascript:alert(1)"/>',
    '<!--<script>alert(1)</script>-->',
  ])('loses %s', (content) => {
    expect(clean(content)).not.toMatch(/example\.com|alert|javascript|style|foreign|import/i);
  });

  test.each([
    ['fill', 'rgb(10, 20 30 / 50%)'],
    ['fill', 'hsl(120 50% 50%)'],
    ['fill', "url('#a.b-1') none"],
    ['stroke', '#0a0b0c'],
    ['transform', 'translate(1 2) rotate(-45)'],
    ['clip-path', 'url("#frame")'],
    ['points', '0,0 1e-3,5 -7.5,3'],
    ['stroke-dasharray', '4 2, 1'],
    ['font-family', 'Arial, "Noto Sans"'],
  ])('keeps %s="%s"', (name, value) => {
    const kept = clean(`<path ${name}='${value.replaceAll("'", '&#39;')}' d="M0 0"/>`);
    expect(kept.replaceAll(/&#x27;|&#39;/g, "'").replaceAll('&#x22;', '"')).toContain(value.split(/[,\s]/)[0]);
    expect(kept).toContain(` ${name}=`);
  });

  test('a path of a megabyte is cleaned', () => {
    const path = 'L1.5-2 '.repeat(150_000);
    expect(clean(`<path d="M0 0${path}"/>`)).toContain(path.trim());
  });

  test('that is no SVG at all is empty', () => {
    expect(cleanedSvg(new TextEncoder().encode('hello'))).toHaveLength(0);
  });

  test('is carried in the file, and only named where it is missing', () => {
    const card = b.card('C', [{ type: 'figure', path: 'a.svg', caption: 'The marked area', place: b.place() }]);
    const figures = new Map([['a.svg', { mime: 'image/svg+xml' as const, data: svg('<path d="M0 0"/>') }]]);
    expect(renderCard(inputOf(card, { figures }))).toMatch(
      /<img src="data:image\/svg\+xml;base64,[^"]+" alt="The marked area">/,
    );
    const without = renderCard(inputOf(card));
    expect(without).not.toContain('<img');
    expect(without).toContain('The marked area');
  });
});
