/**
 * A parser that never gives up: what is missing is reported and left out, what is in the way is reported and passed over.
 * The grammar itself is written in the classes above; here is only what happens where the text departs from it.
 */
import { EmbeddedActionsParser, type IToken, type TokenType, tokenMatcher } from 'chevrotain';
import { distance } from 'fastest-levenshtein';
import type { Wanted } from '../messages.ts';
import * as messages from '../messages.ts';
import { patternOf } from '../patterns.ts';
import { isFirstOnLine } from '../scan.ts';
import type { Name as NameNode, SyntaxProblem } from '../syntax.ts';
import * as t from '../tokens.ts';
import { endOf, k, sentenceStarts } from '../tokens.ts';
import { declaringWords, joiningWords } from '../words.ts';

/** How deep blocks, parentheses and `else if` may be nested before the rest is passed over. */
export const deepestNesting = 100;

const joiningTokens: ReadonlySet<TokenType> = new Set(joiningWords.map((word) => k[word]));
const declaringTokens: ReadonlySet<TokenType> = new Set(declaringWords.map((word) => k[word]));

const asksCondition: ReadonlySet<TokenType> = new Set([k.if, k.check, k.keep]);
const beginsOnlyCondition: ReadonlySet<TokenType> = new Set([k.not, k.any, k.every, t.OpenParen]);

const wantsMoreThanName: ReadonlySet<TokenType> = new Set([
  ...[k.set, k.ensure, k.check, k.bring, k.run, k.wait, k.record],
  ...[k.if, k.keep, k.repeat, k.for, k.go, k.stop],
]);
const goesOnAfterName: ReadonlySet<TokenType> = new Set([k.in, k.at, k.above, k.below, k.reaches, t.QuotedText]);
const beginsBound: ReadonlySet<TokenType> = new Set([k.at, k.above, k.below, k.exactly, k.by]);

/** How many words a sentence may have too many before the one that was waited for is no longer looked for. */
const furthestLook = 4;
/** The same before an opening brace, without which all that follows would be read at the wrong level. */
export const furthestLookForBrace = 40;
/** Stretches longer than this count as several lines, so that a file of one line does not cost its square. */
const longestLine = 2_000;

export abstract class Recovering extends EmbeddedActionsParser {
  problems: SyntaxProblem[] = [];
  protected written = '';
  protected depth = 0;
  /** How many closing braces of the text more there are than opening ones. */
  protected surplusBraces = 0;
  /** Set by the first problem of a sentence, so that what only follows from it is not reported again. */
  protected quiet = false;
  protected sentence: IToken | undefined;
  /** What stands right where something is missing. A sentence that begins there on the same line is still part of the slip. */
  private gap: IToken | undefined;

  protected constructor(validated: boolean) {
    super(t.vocabulary, { maxLookahead: 2, recoveryEnabled: false, skipValidations: !validated });
  }

  protected prepare(text: string, tokens: IToken[]): void {
    this.input = tokens;
    this.written = text;
    this.problems = [];
    this.depth = 0;
    this.surplusBraces = t.surplusBraces(tokens);
    this.quiet = false;
    this.sentence = undefined;
    this.gap = undefined;
  }

  // -------------------------------------------------------------- where we are

  protected at(type: TokenType): boolean {
    return tokenMatcher(this.LA(1), type);
  }

  protected atAny(types: readonly TokenType[]): boolean {
    for (const type of types) if (this.at(type)) return true;
    return false;
  }

  protected atEnd(): boolean {
    return Number.isNaN(this.LA(1).startOffset);
  }

  protected start(): number {
    return this.atEnd() ? this.written.length : this.LA(1).startOffset;
  }

  protected end(start: number): number {
    const last = this.LA(0);
    if (Number.isNaN(last.startOffset)) return start;
    // A text that is read as if it had quotation marks would end after the file.
    return Math.max(start, Math.min(endOf(last), this.written.length));
  }

  // -------------------------------------------------------------- one token

  /** The word that begins a sentence: from here on a problem is a new one. */
  protected head(idx: number, type: TokenType): IToken | undefined {
    const known = this.RECORDING_PHASE || this.at(type);
    return known ? this.begin(this.consume(idx, type)) : this.expect(idx, type);
  }

  private begin(head: IToken): IToken {
    const followsFromGap = this.gap === head && !this.isFirstOnLine(head);
    if (followsFromGap) this.gap = this.LA(1);
    else this.quiet = false;
    this.sentence = head;
    return head;
  }

  /** One of several words or signs, of which one is known to stand here; gives the one that does. */
  protected oneOf<Spelling extends string>(idx: number, types: readonly TokenType[]): Spelling {
    if (this.RECORDING_PHASE) {
      const alternatives = types.map((type) => ({ ALT: () => this.consume(idx, type) }));
      this.or(idx, alternatives);
    } else this.consume(idx, this.LA(1).tokenType);
    return this.LA(0).tokenType.LABEL as Spelling;
  }

  /** One of several words that begin a sentence. */
  protected oneHeadOf<Spelling extends string>(idx: number, types: readonly TokenType[]): Spelling {
    const spelling = this.oneOf<Spelling>(idx, types);
    this.begin(this.LA(0));
    return spelling;
  }

  /** `wanted` says what is missing, and stands in the table of the grammar, where completion reads what is asked for. */
  protected expect(idx: number, type: TokenType, wanted?: string): IToken | undefined {
    if (this.RECORDING_PHASE) return this.consume(idx, type, wanted ? { LABEL: wanted } : undefined);
    return this.ready(type, wanted) ? this.consume(idx, type) : undefined;
  }

  protected name(idx: number, wanted: string): NameNode | undefined {
    const token = this.isNextStage() ? this.missing({ words: wanted }) : this.expect(idx, t.Name, wanted);
    return token && nameOf(token);
  }

  protected word(idx: number, wanted: string): NameNode | undefined {
    const token = this.expect(idx, t.Word, wanted);
    return token && nameOf(token);
  }

  /** A state in a sentence; a word that begins the next line and the next sentence is none. */
  protected state(idx: number, wanted = 'a state'): NameNode | undefined {
    if (this.startsNextSentence()) return this.missing({ words: wanted });
    if (this.isRepeatedName()) this.dropRepeated();
    return this.word(idx, wanted);
  }

  /** A name written twice before a state: `pump pump running`. */
  private isRepeatedName(): boolean {
    if (this.RECORDING_PHASE || this.LA(1).image !== this.LA(0).image) return false;
    return this.LA(2).tokenType === t.Ident && !this.isFirstOnLine(this.LA(2));
  }

  protected dropRepeated(): void {
    this.report(messages.twice(pieceOf(this.LA(1))));
    this.SKIP_TOKEN();
  }

  /** Whether the next token is of this type, after a plain slip was mended; what is missing is reported. */
  protected ready(type: TokenType, wanted?: string): boolean {
    if (this.RECORDING_PHASE) return true;
    if (this.at(type)) return true;
    if (this.mend(type, wanted)) return true;
    this.missing(this.isAhead(type) ? { words: wordsFor(type, wanted) } : wantedOf(type, wanted));
    return false;
  }

  /** Whether the token comes a little later: then it is not the one to be inserted. */
  private isAhead(type: TokenType): boolean {
    for (let ahead = 2; ahead <= furthestLook; ahead++) if (tokenMatcher(this.LA(ahead), type)) return true;
    return false;
  }

  protected readyForAny(types: readonly TokenType[], wanted: string): boolean {
    if (this.RECORDING_PHASE || this.atAny(types)) return true;
    if (types.some((type) => this.mend(type))) return true;
    this.missing({ words: wanted });
    return false;
  }

  /** Mends a slip of one word before a token of this type: misspelt, reserved, or something too many. */
  protected mend(type: TokenType, wanted = ''): boolean {
    const next = this.LA(1);
    if (next.tokenType === t.Ident && alike(next.image, type.LABEL)) {
      this.takeFor(next, type);
      return true;
    }
    if (this.isReservedName(next, type)) {
      this.report(
        messages.reservedName(pieceOf(next), wanted.startsWith('a name for') && this.LA(2).tokenType !== t.Ident),
      );
      t.retype(next, t.Ident);
      return true;
    }
    return this.dropWords(type);
  }

  /** Reads a misspelt word as the one that was meant. */
  protected takeFor(word: IToken, meant: TokenType): void {
    this.report(messages.misspelt(pieceOf(word), meant.LABEL as string));
    t.retype(word, meant);
  }

  private isReservedName(next: IToken, type: TokenType): boolean {
    if (type !== t.Name || next.tokenType.LABEL === undefined || !/^\p{L}/u.test(next.image)) return false;
    const after = this.LA(2);
    const goesOn = tokenMatcher(after, t.Word) || after.tokenType === t.QuotedText || after.tokenType === t.NumberText;
    const beginsSentence = goesOn && !this.isTooShortForSentence() && !this.isBeingNamed();
    return !beginsSentence && !this.isFirstOnLine(next) && !Number.isNaN(after.startOffset);
  }

  /** Right behind the word that declares a thing, or the colon before its kind, on one line with it, nothing else is begun. */
  private isBeingNamed(): boolean {
    const before = this.LA(0).tokenType;
    const declares = declaringTokens.has(before) || before === k.limit || before === t.Colon;
    return declares && !beginsBound.has(this.LA(1).tokenType);
  }

  /** Whether the next word would begin a sentence that ends after one word of the writer's own, and wants more than that. */
  private isTooShortForSentence(): boolean {
    const after = this.LA(2);
    const end = this.LA(3);
    if (after.tokenType !== t.Ident || this.isFirstOnLine(after)) return false;
    if (this.LA(1).tokenType === k.step) return end.tokenType !== t.Colon;
    const goesOn = tokenMatcher(end, t.Word) || goesOnAfterName.has(end.tokenType);
    return wantsMoreThanName.has(this.LA(1).tokenType) && (!goesOn || this.isFirstOnLine(end));
  }

  protected dropWords(type: TokenType): boolean {
    const count = this.wordsInTheWay(type);
    if (count === 0) return false;
    const first = this.LA(1);
    const last = this.LA(count);
    if (count === 1 && first.image === this.LA(0).image) this.report(messages.twice(pieceOf(first)));
    else this.report(messages.unexpected(this.piece(first.startOffset, endOf(last)), this.howToWrite()));
    for (let dropped = 0; dropped < count; dropped++) this.SKIP_TOKEN();
    return true;
  }

  private wordsInTheWay(type: TokenType): number {
    const furthest = type === t.OpenBrace ? furthestLookForBrace : type.LABEL === undefined ? 1 : furthestLook;
    for (let count = 1; count <= furthest; count++) {
      const repeated = count === 1 && this.LA(1).image === this.LA(0).image;
      if (!repeated && this.mustStay(this.LA(count), type)) return 0;
      if (tokenMatcher(this.LA(count + 1), type)) return count;
    }
    return 0;
  }

  /** Whether a token cannot be dropped to come to one of this type. */
  private mustStay(token: IToken, type: TokenType): boolean {
    const onNewLine = this.isFirstOnLine(token);
    if (type === t.OpenBrace)
      return this.surplusBraces > 0 ? onNewLine : this.isBoundary(token) && (onNewLine || !tokenMatcher(token, t.Word));
    return this.isBoundary(token) || onNewLine || (type.LABEL === undefined && joiningTokens.has(token.tokenType));
  }

  protected isBoundary(token: IToken): boolean {
    const { tokenType } = token;
    return (
      Number.isNaN(token.startOffset) ||
      tokenType === t.OpenBrace ||
      tokenType === t.CloseBrace ||
      sentenceStarts.has(tokenType)
    );
  }

  /** A word that could be read as a state, but begins a line and goes on as a sentence does and a state does not. */
  protected startsNextSentence(): boolean {
    if (this.RECORDING_PHASE) return false;
    const next = this.LA(1);
    return (this.isFirstOnLine(next) && this.goesOnAsSentence()) || this.isNextStage();
  }

  /** Whether what follows the next token is what follows it where it begins a sentence. */
  private goesOnAsSentence(): boolean {
    const { tokenType } = this.LA(1);
    const after = this.LA(2).tokenType;
    if (tokenType === k.repeat) return after === t.NumberText || (after === k.at && this.LA(3).tokenType === k.most);
    if (tokenType === k.wait) return after === t.NumberText;
    if (tokenType === k.go) return after === k.to;
    if (asksCondition.has(tokenType) && beginsOnlyCondition.has(after)) return true;
    return sentenceStarts.has(tokenType) && (after === t.Ident || after === t.QuotedText);
  }

  /** `stage` may be a name; where it begins a line, and a title and a block follow, it begins a stage. */
  private isNextStage(): boolean {
    const next = this.LA(1);
    if (next.tokenType !== k.stage || declaringTokens.has(this.LA(0).tokenType) || !this.isFirstOnLine(next))
      return false;
    const title = tokenMatcher(this.LA(2), t.Name) ? 3 : 2;
    const after = this.LA(title + 1).tokenType;
    return this.LA(title).tokenType === t.QuotedText && (after === t.OpenBrace || after === k.when || after === k.only);
  }

  protected isFirstOnLine(token: IToken): boolean {
    return isFirstOnLine(this.written, token.startOffset);
  }

  /** Whether two offsets stand on one line. */
  protected onOneLine(from: number, to: number): boolean {
    return to - from < longestLine && !/[\r\n]/.test(this.written.slice(from, to));
  }

  // -------------------------------------------------------------- reports

  protected report(problem: SyntaxProblem): void {
    if (!this.quiet) this.problems.push(problem);
    this.quiet = true;
  }

  /** A problem inside a text, which leaves the sentence around it whole. */
  protected remark(problem: SyntaxProblem): void {
    this.problems.push(problem);
  }

  protected missing(wanted: Wanted): undefined {
    if (this.RECORDING_PHASE) return;
    const last = this.lastToken();
    this.gap = this.LA(1);
    this.report(messages.missing(wanted, pieceOf(last), this.howToWrite()));
  }

  /** The present sentence in full, for the end of a message. */
  protected howToWrite(): string {
    const pattern = this.sentence && patternOf(this.sentence.image);
    return pattern === undefined ? '' : ` Written in full: ${pattern}`;
  }

  /** The last token read, or the place where the text begins. */
  protected lastToken(): IToken {
    const last = this.LA(0);
    return Number.isNaN(last.startOffset) ? { ...last, image: '', startOffset: 0 } : last;
  }

  protected piece(start: number, end: number) {
    return { start, end, text: this.written.slice(start, end) };
  }
}

export function nameOf(token: IToken): NameNode {
  return { type: 'name', text: token.image, start: token.startOffset, end: endOf(token) };
}

export function spanOf(token: IToken) {
  return { start: token.startOffset, end: endOf(token) };
}

export function pieceOf(token: IToken) {
  return { start: token.startOffset, end: endOf(token), text: token.image };
}

function wantedOf(type: TokenType, words: string | undefined): Wanted {
  return { words: wordsFor(type, words), insert: type.LABEL };
}

function wordsFor(type: TokenType, words: string | undefined): string {
  return words ?? (type.LABEL === undefined ? type.name : `“${type.LABEL}”`);
}

/** Whether a word may well be a slip of the pen for another. */
function alike(written: string, word: string | undefined): boolean {
  if (word === undefined) return false;
  const plain = written.toLowerCase();
  if (plain === word) return true;
  if (plain.length < 3 || word.length < 3) return false;
  return distance(plain, word) <= (word.length <= 4 ? 1 : 2) || letters(plain) === letters(word);
}

/** The letters of a word in the order of the alphabet: the same for a word with two of them swapped. */
function letters(word: string): string {
  return [...word].sort().join('');
}

/** How far a word is from a misspelling of it; letters swapped are the likeliest slip. */
function difference(written: string, { LABEL: word = '' }: TokenType): number {
  const plain = written.toLowerCase();
  return letters(plain) === letters(word) ? 0 : distance(plain, word);
}

/** Of the words that this may be a slip for, the one that differs least. */
export function nearest(written: string, types: readonly TokenType[]): TokenType | undefined {
  const slips = types.filter((type) => alike(written, type.LABEL));
  return slips.sort((a, b) => difference(written, a) - difference(written, b))[0];
}
