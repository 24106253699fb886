import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { all } from '../../grammar/navigate.ts';
import { parse } from '../../grammar/parse.ts';
import type { Parsed, SyntaxProblem } from '../../grammar/syntax.ts';
import { endOf, Ident, lex, Name, type Token } from '../../grammar/tokens.ts';
import { shapeOf } from '../support/tree.ts';

const cards = [
  'samples/merganser/rinse.card',
  'samples/merganser/merganser.card',
  'samples/heron-dyke/change-packing-1.card',
];

function sentences({ file }: Parsed): number {
  const steps = all(file, 'step').filter((step) => step.actions.length + step.parts.length > 0);
  return steps.length + all(file, 'stage').length + file.declarations.filter(({ type }) => type !== 'broken').length;
}

/** Every text that differs from a card in one token, with what was done to it. */
function slipsOf(text: string, change: (token: Token) => string): { text: string; where: string }[] {
  return lex(text).tokens.map((token) => {
    const line = text.slice(0, token.startOffset).split('\n').length;
    const changed = text.slice(0, token.startOffset) + change(token) + text.slice(endOf(token));
    return { text: changed, where: `${token.image} in line ${line}` };
  });
}

/** A slip with more than one problem, or after which more is lost than the sentence it stands in. */
function badlyRead(text: string, change: (token: Token) => string): string[] {
  const whole = sentences(parse(text));
  return slipsOf(text, change).flatMap(({ text: slip, where }) => {
    const parsed = parse(slip);
    const lost = whole - sentences(parsed);
    if (parsed.problems.length <= 1 && lost <= 1) return [];
    return [`${where}: ${lost} lost; ${parsed.problems.map(({ message }) => message).join(' ')}`];
  });
}

describe.each(cards)('one slip in %s is one problem, and what comes after it is still read', (file) => {
  const text = readFileSync(file, 'utf8');

  test('a token left out', () => expect(badlyRead(text, () => '')).toEqual([]));
  test('a token written twice', () => expect(badlyRead(text, ({ image }) => `${image} ${image}`)).toEqual([]));
  test('a word misspelt', () => {
    const misspelt = ({ image }: Token): string =>
      /^[a-z]{4,}$/.test(image) ? image.replace(/(.)(.)$/, '$2$1') : image;
    expect(badlyRead(text, misspelt)).toEqual([]);
  });
  test('a sign of another language', () => expect(badlyRead(text, ({ image }) => `${image} §`)).toEqual([]));
});

function mended(text: string, { fix }: SyntaxProblem): string {
  const edits = [...(fix?.edits ?? [])].sort((a, b) => b.start - a.start);
  return edits.reduce(
    (changed, { start, end, newText }) => changed.slice(0, start) + newText + changed.slice(end),
    text,
  );
}

/** A word such as `while` that is written twice is first of all a name: nothing plain can be proposed there. */
function mayBeName(type: Token['tokenType']): boolean {
  return type !== Ident && (type.CATEGORIES ?? []).includes(Name);
}

test.each(cards)('a fix in %s takes its problem away and brings none', (file) => {
  const text = readFileSync(file, 'utf8');
  const twice = ({ image, tokenType }: Token): string => (mayBeName(tokenType) ? image : `${image} ${image}`);
  const slips = [...slipsOf(text, () => ''), ...slipsOf(text, twice)];
  const left = slips.flatMap(({ text: slip, where }) => {
    const [problem] = parse(slip).problems;
    if (problem?.fix === undefined) return [];
    return parse(mended(slip, problem)).problems.map(({ message }) => `${where}, ${problem.fix?.title}: ${message}`);
  });
  expect(left).toEqual([]);
});

describe('a missing brace is found where the lines show it', () => {
  const text = readFileSync(cards[0] as string, 'utf8');
  const braces = lex(text).tokens.filter(({ image }) => image === '}');

  test.each(braces.map((brace, index) => [index, brace] as const))('closing brace %i', (_, brace) => {
    const parsed = parse(text.slice(0, brace.startOffset) + text.slice(endOf(brace)));
    expect(parsed.problems.map(({ code }) => code)).toEqual(['syntax.unclosed']);
    expect(shapeOf(parsed.file)).toEqual(shapeOf(parse(text).file));
  });
});

test('a missing brace of a block inside a block is laid to the inner one', () => {
  const { problems, text } = parse(`card a "A" {
  stage "One" {
    repeat 2 times {
      step set b open
  }
  stage "Two" {
    step set c open
  }
}
`);
  expect(problems).toHaveLength(1);
  expect(problems[0]?.opened && text.slice(problems[0].opened.span.start, problems[0].opened.span.end)).toBe('repeat');
});

test('braces that are right are never moved, however the lines stand', () => {
  const { problems } = parse(
    'card a "A" {\nstage "One" {\n        repeat 2 times {\nstep set b open\n  }\n      }\n  }\n',
  );
  expect(problems).toEqual([]);
});
