/**
 * The colouring grammar of editors that know TextMate grammars, made from the words and signs of the language. It colours
 * at once and line by line; what a name stands for is coloured afterwards by the server.
 */
import { Arrow, BothWays, NumberText, PlusMinus, UnitSign } from './tokens.ts';
import {
  actingWords,
  contextualActingWords,
  contextualWords,
  declaringWords,
  fieldWords,
  joiningWords,
  type Keyword,
  levelWords,
  partWords,
  quantifyingWords,
  reservedWords,
  statingWords,
} from './words.ts';

interface Rule {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
  readonly patterns?: readonly Rule[];
  readonly include?: string;
}

export interface TextmateGrammar {
  readonly name: string;
  readonly scopeName: 'source.cardwright';
  readonly fileTypes: readonly string[];
  readonly patterns: readonly Rule[];
  readonly repository: Readonly<Record<string, { readonly patterns: readonly Rule[] }>>;
}

const name = '\\p{L}[\\p{L}\\p{M}\\p{Nd}]*(?:-[\\p{L}\\p{M}\\p{Nd}]+)*';
const before = '(?<![\\p{L}\\p{M}\\p{Nd}-])';
const after = '(?![\\p{L}\\p{M}\\p{Nd}]|-[\\p{L}\\p{M}\\p{Nd}])';
const number = source(NumberText);

/** The words that are followed by the name of what they declare. */
const namingWords: readonly Keyword[] = [...declaringWords.filter((word) => word !== 'use'), 'limit'];

/** As a statement; `for` alone joins. */
const forEach = `${before}for\\s+each${after}`;

/** Words that may follow a number without being its unit. */
const noUnits = [...reservedWords, ...contextualWords].filter((word) => word !== 'in');

export function textmateGrammar(): TextmateGrammar {
  const parts = { comment: comments, text: texts, number: numbers, word: words(), sign: signs };
  const repository = Object.fromEntries(Object.entries(parts).map(([part, patterns]) => [part, { patterns }]));
  return {
    name: 'Cardwright',
    scopeName: 'source.cardwright',
    fileTypes: ['card'],
    patterns: Object.keys(parts).map((part) => ({ include: `#${part}` })),
    repository,
  };
}

const comments: readonly Rule[] = [
  { name: scope('comment.line.double-slash'), match: '//.*$' },
  { name: scope('comment.block'), begin: '/\\*', end: '\\*/' },
];

const texts: readonly Rule[] = [
  {
    name: scope('string.quoted.double'),
    begin: '"',
    end: '"|$',
    patterns: [
      { name: scope('constant.character.escape'), match: '\\\\["\\\\]|\\{\\{' },
      { name: scope('variable.other.slot'), match: `\\{(?:${name}(?:\\.${name})?)?\\}` },
    ],
  },
];

const numbers: readonly Rule[] = [
  { name: scope('constant.other.date'), match: '\\b\\d{4}-\\d{2}-\\d{2}\\b' },
  {
    match: `(${number})\\s*(${source(UnitSign)}|(?!${anyOf(noUnits)})${name}(?:[/.·]${name})*)?`,
    captures: { 1: { name: scope('constant.numeric') }, 2: { name: scope('keyword.other.unit') } },
  },
];

const signs: readonly Rule[] = [
  { name: scope('keyword.operator'), match: [BothWays, Arrow, PlusMinus].map(source).join('|') },
  { name: scope('punctuation.section.braces'), match: '[{}]' },
  { name: scope('punctuation.separator'), match: '[,:]' },
];

function words(): Rule[] {
  const levels: readonly string[] = levelWords;
  const otherStatements = statingWords.filter((word) => !levels.includes(word));
  return [
    {
      match: `(${anyOf(namingWords)})\\s+(${name})`,
      captures: { 1: { name: scope('storage.type') }, 2: { name: scope('entity.name') } },
    },
    {
      match: `(${anyOf(['stage'])})\\s+(${name})`,
      captures: { 1: { name: scope('keyword.control') }, 2: { name: scope('entity.name') } },
    },
    { match: `(${name})(?=\\s*:\\s*["\\p{L}])`, captures: { 1: { name: scope('entity.name') } } },
    { name: scope('storage.type'), match: anyOf(declaringWords) },
    ...levelWords.map((level) => ({ name: scope(`keyword.other.admonition.${level}`), match: anyOf([level]) })),
    { name: scope('keyword.control'), match: `${anyOf(['step', 'stage', 'else', ...otherStatements])}|${forEach}` },
    { name: scope('support.function.action'), match: anyOf([...actingWords, ...contextualActingWords]) },
    { name: scope('keyword.other.field'), match: anyOf(fieldWords) },
    { name: scope('keyword.other'), match: anyOf([...joiningWords, ...quantifyingWords, ...partWords]) },
    { name: scope('variable.other'), match: name },
  ];
}

/** A pattern that finds one of these words, alone. */
function anyOf(wanted: readonly string[]): string {
  return `${before}(?:${wanted.join('|')})${after}`;
}

function scope(name: string): string {
  return `${name}.cardwright`;
}

/** The spelling of a token as a pattern. */
function source({ PATTERN }: { readonly PATTERN?: unknown }): string {
  return PATTERN instanceof RegExp ? PATTERN.source : String(PATTERN);
}
