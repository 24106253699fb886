/** The words, signs and texts of the language, and the lexer that finds them. Knows no order of words. */
import { createToken, type IToken, Lexer, type TokenType } from 'chevrotain';
import { endOfBlockComment, endOfLineComment, endOfName, endOfText, letterStarts } from './scan.ts';
import {
  actingWords,
  contextualActingWords,
  contextualWords,
  declaringWords,
  joiningWords,
  type Keyword,
  reservedWords,
  statingWords,
} from './words.ts';

// ---------------------------------------------------------------- families of words

/** Any word that may be a name. */
export const Name = createToken({ name: 'Name', pattern: Lexer.NA });
/** Any word that may be a state or a value. */
export const Word = createToken({ name: 'Word', pattern: Lexer.NA });
/** Any word that may stand for a unit after a number. */
export const UnitWord = createToken({ name: 'UnitWord', pattern: Lexer.NA });

/** A word of the writer's own. Words of the language are found here too and told apart afterwards. */
export const Ident = custom('Ident', endOfName, letterStarts, [Name, Word, UnitWord]);

function categoriesOf(word: Keyword): TokenType[] {
  const families: TokenType[] = [];
  if ((contextualWords as readonly string[]).includes(word)) families.push(Name);
  if (!(joiningWords as readonly string[]).includes(word)) families.push(Word);
  if (word === 'in') families.push(UnitWord);
  return families;
}

function keywordTokens(): Record<Keyword, TokenType> {
  const made = [...new Set<Keyword>([...reservedWords, ...contextualWords])].map((word) => [
    word,
    createToken({ name: `Word_${word}`, pattern: Lexer.NA, label: word, categories: categoriesOf(word) }),
  ]);
  return Object.fromEntries(made) as Record<Keyword, TokenType>;
}

/** The token of each word of the language. */
export const k = keywordTokens();

/** The words that begin a declaration, a statement or an action. */
export const sentenceStarts: ReadonlySet<TokenType> = new Set(
  [...declaringWords, ...statingWords, ...actingWords, ...contextualActingWords, 'step' as const, 'for' as const].map(
    (word) => k[word],
  ),
);

// ---------------------------------------------------------------- signs, numbers and texts

export const DateText = createToken({ name: 'Date', pattern: /\d{4}-\d{2}-\d{2}/ });
export const NumberText = createToken({ name: 'Number', pattern: /-?\d+(?:\.\d+)?/ });
/** A text in quotes, on one line. One that is not closed ends where its line does. */
export const QuotedText = custom('Text', endOfText, ['"', '“', '”', '„']);
/** A sign that is a unit or part of one: `%`, `°C`. */
export const UnitSign = createToken({ name: 'UnitSign', pattern: /[°%‰²³℃℉][A-Za-z]*/ });

export const BothWays = sign('BothWays', '<->');
export const Arrow = sign('Arrow', '->');
export const PlusMinus = createToken({ name: 'PlusMinus', pattern: /\+\/-|±/, label: '+/-' });
export const Plus = sign('Plus', '+');
export const Minus = sign('Minus', '-');
export const OpenBrace = sign('OpenBrace', '{');
export const CloseBrace = sign('CloseBrace', '}');
export const OpenParen = sign('OpenParen', '(');
export const CloseParen = sign('CloseParen', ')');
export const Comma = sign('Comma', ',');
export const Colon = sign('Colon', ':');
export const Equals = sign('Equals', '=');
export const Dot = sign('Dot', '.');
export const MiddleDot = createToken({ name: 'MiddleDot', pattern: /[·⋅]/, label: '·' });
export const Slash = sign('Slash', '/');

const Blank = createToken({ name: 'Blank', pattern: /[ \t\r\n\f\v\u00a0\ufeff]+/, group: Lexer.SKIPPED });
const LineComment = comment('LineComment', endOfLineComment);
const BlockComment = comment('BlockComment', endOfBlockComment);

function sign(name: string, spelling: string): TokenType {
  return createToken({ name, pattern: spelling, label: spelling });
}

/** A token found by a plain function: a regular expression would use up the stack on lines of millions of characters. */
function custom(
  name: string,
  endOf: (text: string, start: number) => number,
  startChars: (string | number)[],
  categories: TokenType[] = [],
  group?: string,
): TokenType {
  const match: [string] = [''];
  const exec = (text: string, start: number): [string] | null => {
    const end = endOf(text, start);
    if (end === start) return null;
    match[0] = text.slice(start, end);
    return match;
  };
  return createToken({
    name,
    pattern: { exec },
    start_chars_hint: startChars,
    line_breaks: true,
    categories,
    ...(group && { group }),
  });
}

function comment(name: string, endOf: (text: string, start: number) => number): TokenType {
  return custom(name, endOf, ['/'], [], 'comments');
}

/** Longer signs before the shorter ones that begin them. */
const found: TokenType[] = [
  Blank,
  Ident,
  LineComment,
  BlockComment,
  QuotedText,
  DateText,
  NumberText,
  UnitSign,
  BothWays,
  Arrow,
  PlusMinus,
  Plus,
  Minus,
  OpenBrace,
  CloseBrace,
  OpenParen,
  CloseParen,
  Comma,
  Colon,
  Equals,
  Dot,
  MiddleDot,
  Slash,
];

export const vocabulary: TokenType[] = [...found, Name, Word, UnitWord, ...Object.values(k)];

/** `validated` looks for slips in the words themselves, which a test does once, and not every start. */
export function lexerOfWords(validated: boolean): Lexer {
  return new Lexer(found, {
    ensureOptimizations: true,
    positionTracking: 'onlyOffset',
    skipValidations: !validated,
  });
}

const lexer = lexerOfWords(false);

// ---------------------------------------------------------------- the lexer

export interface Lexed {
  readonly tokens: IToken[];
  readonly comments: readonly IToken[];
  /** Stretches of characters that mean nothing in the language. */
  readonly strange: readonly { readonly offset: number; readonly length: number }[];
}

const keywordOf = new Map<string, TokenType>(Object.entries(k));

export function lex(text: string): Lexed {
  const { tokens, groups, errors } = lexer.tokenize(text);
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index] as IToken;
    if (token.tokenType === Ident) tellKeyword(token, tokens[index + 1]);
  }
  return { tokens, comments: groups.comments ?? [], strange: errors };
}

/** `exactly` is a word of the language only before a number; anywhere else it may be a state. */
function tellKeyword(token: IToken, next: IToken | undefined): void {
  const keyword = keywordOf.get(token.image);
  if (keyword === undefined || (keyword === k.exactly && next?.tokenType !== NumberText)) return;
  retype(token, keyword);
}

/** Makes a token one of another type, as if it had been written so. */
export function retype(token: IToken, type: TokenType): void {
  token.tokenType = type;
  token.tokenTypeIdx = type.tokenTypeIdx as number;
}

export type { IToken as Token, TokenType } from 'chevrotain';

export function endOf(token: IToken): number {
  return token.startOffset + token.image.length;
}

/** How many closing braces more than opening ones there are. */
export function surplusBraces(tokens: readonly IToken[]): number {
  let surplus = 0;
  for (const { tokenType } of tokens) {
    if (tokenType === CloseBrace) surplus++;
    else if (tokenType === OpenBrace) surplus--;
  }
  return surplus;
}
