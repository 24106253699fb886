/**
 * Random cards from the grammar as the language reference prints it: whatever the reference allows, the parser has to
 * read. They make no sense as cards, only as sentences.
 */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { contextualWords, joiningWords, reservedWords } from '../../grammar/words.ts';

type Expression =
  | { readonly type: 'word' | 'name'; readonly text: string }
  | { readonly type: 'sequence' | 'choice'; readonly parts: readonly Expression[] }
  | { readonly type: 'optional' | 'repeated'; readonly inner: Expression };

export type Grammar = ReadonlyMap<string, Expression>;

const reference = new URL('../../grammar/README.md', import.meta.url);

/** The grammar printed in the language reference. */
export function printedGrammar(): Grammar {
  const [, printed = ''] = /```ebnf\n([\s\S]*?)```/.exec(readFileSync(reference, 'utf8')) ?? [];
  const rules = printed.split(/;\s*\n/).filter((rule) => rule.trim() !== '');
  return new Map(
    rules.map((rule) => {
      const [name = '', ...rest] = rule.split('=');
      return [name.trim(), readExpression(rest.join('='))];
    }),
  );
}

function readExpression(text: string): Expression {
  const signs = text.match(/"[^"]*"|\w+|[[\](){}|]/g) ?? [];
  let at = 0;
  const choice = (): Expression => {
    const parts = [sequence()];
    while (signs[at] === '|') {
      at++;
      parts.push(sequence());
    }
    return parts.length === 1 ? (parts[0] as Expression) : { type: 'choice', parts };
  };
  const sequence = (): Expression => {
    const parts: Expression[] = [];
    while (signs[at] !== undefined && !'])}|'.includes(signs[at] as string)) parts.push(single());
    return { type: 'sequence', parts };
  };
  const single = (): Expression => {
    const sign = signs[at++] as string;
    if (sign.startsWith('"')) return { type: 'word', text: sign.slice(1, -1) };
    if (!'[({'.includes(sign)) return { type: 'name', text: sign };
    const inner = choice();
    at++;
    return sign === '(' ? inner : { type: sign === '[' ? 'optional' : 'repeated', inner };
  };
  return choice();
}

// ---------------------------------------------------------------- words of its own

const ownNames = ['pump', 'valve-1', 'left-bus', 'é1', 'насос', 'क्षेत्र', 'x', 'A320'];
const strings = [
  '"Hold {pump} until {p.normal}"',
  '"Say \\"go\\" {{now}"',
  '"C:\\\\bin"',
  '""',
  '"x"',
  '"// no comment"',
];
const units = ['psi', '°C', 'degF', '%', 'in-lb', 'N.m', 'L/min', 'Nm', 's', 'min', 'h', 'in', 'kgf.m', 'V'];

/** `stage` may be a name too, but not where it begins a line and what follows makes it the beginning of a stage. */
const contextualNames = contextualWords.filter((word) => word !== 'stage');

const samples: Readonly<Record<string, readonly string[]>> = {
  NAME: [...ownNames, ...ownNames, ...contextualNames],
  VALUE: ownNames,
  WORD: [
    ...ownNames,
    ...contextualNames,
    ...reservedWords.filter((word) => !(joiningWords as readonly string[]).includes(word)),
  ],
  STRING: strings,
  WORDING: ['"Close {}"', ...strings],
  UNIT: units,
  NUMBER: ['0', '5', '-40', '0.5', '1200', '27.25'],
  INTEGER: ['1', '2', '12'],
  DATE: ['2026-10-02'],
};

const blanks = [
  ' ',
  ' ',
  ' ',
  '  ',
  '\n',
  '\n',
  '\n\n\n',
  '\r\n',
  '\n    ',
  ' /* c */ ',
  ' // c\n',
  '\n// own line\n',
  '\t',
];

const deepest = 18;

/** The tokens of random texts that a rule of the grammar allows, and the blanks between them. */
export function randomText(grammar: Grammar, rule: string): fc.Arbitrary<string> {
  const depths = depthsOf(grammar);
  return fc.gen().map((random) => {
    const below = (most: number): number => random(fc.nat, { max: most - 1 });
    const pick = <T>(from: readonly T[]): T => from[below(from.length)] as T;
    const expand = (expression: Expression, depth: number): string[] => {
      switch (expression.type) {
        case 'word':
          return [expression.text];
        case 'name': {
          const sample = samples[expression.text];
          return sample ? [pick(sample)] : expand(grammar.get(expression.text) as Expression, depth + 1);
        }
        case 'sequence':
          return expression.parts.flatMap((part) => expand(part, depth));
        case 'choice': {
          const shallow = [...expression.parts].sort((a, b) => depthOf(a, depths) - depthOf(b, depths));
          return expand(depth > deepest ? (shallow[0] as Expression) : pick(expression.parts), depth);
        }
        case 'optional':
          return depth > deepest || below(2) === 0 ? [] : expand(expression.inner, depth);
        case 'repeated': {
          const times = depth > deepest ? 0 : below(depth < 5 ? 6 : 3);
          return Array.from({ length: times }, () => expand(expression.inner, depth)).flat();
        }
      }
    };
    return expand({ type: 'name', text: rule }, 0).reduce((text, token) => text + pick(blanks) + token, '');
  });
}

/** How many rules deep the shallowest text of an expression is. */
function depthOf(expression: Expression, depths: ReadonlyMap<string, number>): number {
  switch (expression.type) {
    case 'name':
      return samples[expression.text] ? 0 : 1 + (depths.get(expression.text) ?? Number.POSITIVE_INFINITY);
    case 'sequence':
      return Math.max(0, ...expression.parts.map((part) => depthOf(part, depths)));
    case 'choice':
      return Math.min(...expression.parts.map((part) => depthOf(part, depths)));
    default:
      return 0;
  }
}

function depthsOf(grammar: Grammar): Map<string, number> {
  const depths = new Map<string, number>();
  for (let round = 0; round < grammar.size; round++) {
    for (const [name, expression] of grammar) depths.set(name, depthOf(expression, depths));
  }
  return depths;
}
