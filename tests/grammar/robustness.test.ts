import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { all } from '../../grammar/navigate.ts';
import { parse } from '../../grammar/parse.ts';
import { parser } from '../../grammar/parser.ts';
import { lex } from '../../grammar/tokens.ts';
import { shapeOf } from '../support/tree.ts';

const card = readFileSync('samples/merganser/rinse.card', 'utf8');
const equipment = readFileSync('samples/merganser/merganser.card', 'utf8');

describe('typing', () => {
  test.each([
    ['a card', card],
    ['equipment', equipment],
  ])('%s, character by character, never throws and ends as the whole', (_, text) => {
    for (let length = 0; length < text.length; length++) {
      const { problems } = parse(text.slice(0, length));
      for (const { span } of problems)
        expect(0 <= span.start && span.start <= span.end && span.end <= length).toBe(true);
    }
    expect(parse(text).problems).toEqual([]);
  });
});

describe('any order of words', () => {
  test('of a card gives a tree, without the parser giving up anywhere', () => {
    const { tokens } = lex(card);
    const change = fc.record({ at: fc.nat(), from: fc.nat(), insert: fc.boolean() });
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 8 }), (changes) => {
        const images = tokens.map(({ image }) => image);
        for (const { at, from, insert } of changes) {
          images.splice(at % images.length, insert ? 0 : 1, images[from % images.length] as string);
        }
        parse(images.join(' '));
        expect(parser.errors).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });
});

test('a text reads the same each time, whatever was read before it', () => {
  const text = '/* closed */ kind a { x } /* open\nkind b { x }';
  const first = parse(text);
  expect(parse(text)).toEqual(first);
  expect(first.comments.map((comment) => comment.text)).toEqual(['/* closed */', '/* open']);
});

describe('what is no usual text', () => {
  const million = 1_000_000;

  test('a byte order mark is passed over', () => {
    const { file, problems } = parse(`\ufeff${card}`);
    expect(problems).toEqual([]);
    expect(shapeOf(file)).toEqual(shapeOf(parse(card).file));
  });

  test('lines that end with CR LF read the same', () => {
    const { file, problems } = parse(card.replaceAll('\n', '\r\n'));
    expect(problems).toEqual([]);
    expect(shapeOf(file)).toEqual(shapeOf(parse(card).file));
  });

  test('a file that is no text is one problem', () => {
    const bytes = String.fromCharCode(...Array.from({ length: 2000 }, (_, index) => (index * 7919) % 256));
    expect(parse(bytes).problems).toHaveLength(1);
    expect(parse('\ufffdPNG\ufffd\ufffd'.repeat(100)).problems).toHaveLength(1);
  });

  test.each([
    ['one word', 'a'.repeat(5 * million)],
    ['a number', '1'.repeat(5 * million)],
    ['blanks', ' '.repeat(5 * million)],
    ['an open text', `"${'x'.repeat(5 * million)}`],
    ['a comment', `/*${'x'.repeat(5 * million)}*/`],
    ['a name of hyphens', 'a-'.repeat(2 * million)],
    ['strange signs', '§'.repeat(million)],
    ['open comments', ' /*\n'.repeat(million / 4)],
    ['opening braces', '{'.repeat(million / 4)],
    ['closing braces', '}'.repeat(million / 4)],
    ['words', 'a b "c" 1 { } ( '.repeat(million / 16)],
    ['steps', 'step '.repeat(million / 5)],
    ['branches without braces', 'if a b '.repeat(million / 7)],
    ['braces without steps', `card c "C" { ${'step set a b } '.repeat(million / 15)}`],
    ['stages without braces', `card c "C" { ${'stage "x" step set a b '.repeat(million / 25)}`],
    ['lists without commas', `card c "C" { crew ${'a '.repeat(million / 2)} }`],
    ['conditions', `card c "C" { keep ${'a b or '.repeat(million / 7)}`],
  ])('a long line of %s ends, with few problems', (_, text) => {
    expect(parse(text).problems.length).toBeLessThanOrEqual(100);
  });

  test.each([
    ['blocks', 'if a b { '.repeat(20_000)],
    ['else if', `${'if a b { } else '.repeat(20_000)}{ }`],
    ['parentheses', `step check ${'('.repeat(20_000)}a b`],
    ['not', `step check ${'not '.repeat(20_000)}a b`],
    ['closed blocks', `${'repeat 2 times { '.repeat(500)}${'}'.repeat(500)}`],
    ['closed parentheses', `step check ${'('.repeat(500)}a b${')'.repeat(500)}`],
  ])('%s nested too deep are one problem, and the rest is read', (_, text) => {
    const { problems, file } = parse(`card c "C" {\n${text}\n}\n`);
    expect(problems.map(({ code }) => code)).toContain('syntax.nesting');
    expect(problems).toHaveLength(1);
    expect(all(file, 'card')).toHaveLength(1);
  });

  test('what follows nesting that is too deep is read', () => {
    const { file } = parse(
      `card c "C" {\n step check ${'('.repeat(300)}a b${')'.repeat(300)}\n step set last open\n}\n`,
    );
    expect(all(file, 'item-state').map(({ item }) => item.text)).toEqual(['last']);
  });
});
