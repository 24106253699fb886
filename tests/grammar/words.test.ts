/** The lists of words are those of the rules: a word that is put into one and forgotten in the other is noticed here. */
import type { IProduction, TokenType } from 'chevrotain';
import { NonTerminal, Terminal } from 'chevrotain';
import { expect, test } from 'vitest';
import { actionStarts } from '../../grammar/parser/actions.ts';
import { flowStarts } from '../../grammar/parser/conditions.ts';
import { declarationStarts } from '../../grammar/parser/lists.ts';
import { statementStarts } from '../../grammar/parser/statements.ts';
import { stepGoesOn } from '../../grammar/parser/steps.ts';
import { CardParser, parser } from '../../grammar/parser.ts';
import { k, lexerOfWords, OpenBrace, QuotedText } from '../../grammar/tokens.ts';
import { contextualWords, fieldWords, reservedWords } from '../../grammar/words.ts';

const rules = parser.getGAstProductions();

/** All tokens that a rule names itself. */
function terminalsOf(production: IProduction): TokenType[] {
  if (production instanceof Terminal) return [production.terminalType];
  if (production instanceof NonTerminal || !('definition' in production)) return [];
  return (production.definition as IProduction[]).flatMap(terminalsOf);
}

/** The tokens with which a rule that chooses among others begins. */
function firstOf(rule: string): TokenType[] {
  const ways = (production: IProduction): TokenType[] => {
    if (production instanceof Terminal) return [production.terminalType];
    if (production instanceof NonTerminal) return ways(production.referencedRule);
    if (!('definition' in production)) return [];
    const parts = production.definition as IProduction[];
    if (production.constructor.name === 'Alternation') return parts.flatMap(ways);
    for (const part of parts) {
      const first = ways(part);
      if (first.length > 0) return first;
    }
    return [];
  };
  const found = rules[rule];
  if (found === undefined) throw new Error(`There is no rule ${rule}.`);
  return ways(found);
}

const words = (types: Iterable<TokenType>): string[] =>
  [...new Set([...types].map((type) => type.LABEL ?? type.name))].sort();

test.each([
  ['declaration', declarationStarts],
  ['statement', statementStarts],
  ['action', actionStarts],
  ['flow', flowStarts],
  ['field', fieldWords.map((word) => k[word])],
])('a %s begins with the words of its list', (rule, starts) => expect(words(firstOf(rule))).toEqual(words(starts)));

test('neither the grammar nor its words have a slip of their own', () => {
  expect(() => new CardParser(true)).not.toThrow();
  expect(lexerOfWords(true).lexerDefinitionErrors).toEqual([]);
});

test('a step goes on with the words of its list', () => {
  const goesOn = [...firstOf('stepPart'), ...firstOf('action'), OpenBrace].filter((type) => type !== QuotedText);
  expect(words(goesOn)).toEqual(words(stepGoesOn));
});

test('every word of the language stands in a rule, and every word of a rule in the lists', () => {
  const known = new Set<TokenType>(Object.values(k));
  const inRules = Object.values(rules)
    .flatMap(terminalsOf)
    .filter((type) => known.has(type));
  expect(words(inRules)).toEqual([...new Set<string>([...reservedWords, ...contextualWords])].sort());
});
