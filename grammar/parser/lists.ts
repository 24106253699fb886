/** Lists and braces, and how to go on after a word in them that belongs to nothing. */
import { type IToken, type TokenType, tokenMatcher } from 'chevrotain';
import * as messages from '../messages.ts';
import type { Broken } from '../syntax.ts';
import * as t from '../tokens.ts';
import { k, sentenceStarts } from '../tokens.ts';
import { declaringWords } from '../words.ts';
import { nearest, pieceOf, Recovering, spanOf } from './recovering.ts';

export interface ListOptions {
  /** The tokens that one of the list begins with. */
  readonly starts: readonly TokenType[];
  /** What belongs in the list, for the message about a word that does not. */
  readonly what: string;
  readonly lost?: (broken: Broken) => void;
  /** Reads something that belongs here but lacks its first word; gives false where there is none. */
  readonly salvage?: () => boolean;
}

interface Braces {
  /** What stands in the braces, as the subject of “… is not closed”. */
  readonly what: string;
  /** The word that began the sentence with the braces; where it is left out, the opening brace stands for it. */
  readonly head?: IToken | undefined;
  /** Words that, where the opening brace is missing, begin what comes after the braces. */
  readonly after?: readonly TokenType[];
}

export const declarationStarts: readonly TokenType[] = declaringWords.map((word) => k[word]);
const afterBraces: readonly TokenType[] = [...declarationStarts, k.stage];

export abstract class Lists extends Recovering {
  /** What stands between braces. Where both are missing there is nothing. */
  protected inBraces(idx: number, { what, head, after = afterBraces }: Braces, read: () => void): void {
    const opener = this.expect(idx, t.OpenBrace);
    if (opener === undefined && !this.isClosedLater(after)) return;
    if (opener !== undefined && this.at(t.OpenBrace)) this.dropRepeated();
    const sentence = this.sentence;
    read();
    this.sentence = sentence;
    this.closing(idx, t.CloseBrace, opener && (head ?? opener), what);
  }

  /** Whether the closing brace of a missing opening one is still to come. */
  private isClosedLater(after: readonly TokenType[]): boolean {
    if (this.surplusBraces <= 0 || (this.atAny(after) && this.isFirstOnLine(this.LA(1)))) return false;
    this.surplusBraces--;
    return true;
  }

  /** The sign that closes what `opener` began. */
  protected closing(idx: number, type: TokenType, opener: IToken | undefined, what: string): void {
    if (this.RECORDING_PHASE || this.at(type) || this.mend(type)) {
      this.consume(idx, type);
      return;
    }
    this.report(messages.unclosed(type.LABEL as string, spanOf(this.lastToken()), what, opener && spanOf(opener)));
  }

  /** A list that ends at a closing brace (or the end of the file): what belongs to none of its parts is passed over. */
  protected listOf(idx: number, read: () => void, options: ListOptions): void {
    this.many(idx, read);
    while (this.isSomethingLeft()) {
      this.passOver(options);
      this.many(idx, read);
    }
  }

  /** What stands before the closing brace where nothing may stand. */
  protected nothingMore(): void {
    while (this.isSomethingLeft()) this.passOver({ starts: [], what: 'nothing more' });
  }

  private isSomethingLeft(): boolean {
    return !this.RECORDING_PHASE && !this.atEnd() && !this.at(t.CloseBrace);
  }

  private passOver(options: ListOptions): void {
    const next = this.LA(1);
    const meant = this.meantStart(options.starts);
    if (meant !== undefined) {
      this.takeFor(next, meant);
    } else if (next.image === this.LA(0).image && this.goesOnAfter(options.starts)) {
      this.dropRepeated();
    } else {
      const salvaged = options.salvage?.() === true && this.LA(1) !== next;
      if (!salvaged) this.skipTo(options);
    }
  }

  /** The first word of a sentence that the next word is a misspelling of; only where a sentence may begin and goes on. */
  private meantStart(starts: readonly TokenType[]): TokenType | undefined {
    const next = this.LA(1);
    const after = this.LA(2);
    const goesOn = tokenMatcher(after, t.Word) || after.tokenType === t.QuotedText || after.tokenType === t.NumberText;
    if (this.quiet || next.tokenType !== t.Ident || !this.mayBeginSentence() || !goesOn) return undefined;
    return this.isFirstOnLine(after) ? undefined : nearest(next.image, starts);
  }

  /** Whether after the next token something stands that belongs here. */
  private goesOnAfter(starts: readonly TokenType[]): boolean {
    const after = this.LA(2);
    if (Number.isNaN(after.startOffset) || after.tokenType === t.CloseBrace) return true;
    return starts.some((type) => tokenMatcher(after, type));
  }

  private mayBeginSentence(): boolean {
    const previous = this.LA(0).tokenType;
    return previous === t.OpenBrace || previous === t.CloseBrace || this.isFirstOnLine(this.LA(1));
  }

  private skipTo({ starts, what, lost, salvage }: ListOptions): void {
    const first = this.LA(1);
    const advice = this.mayBeginSentence() ? ` Here belongs ${what}.` : this.howToWrite();
    this.report(messages.unexpected(pieceOf(first), advice));
    do {
      if (this.at(t.OpenBrace)) this.skipBraces();
      else this.SKIP_TOKEN();
    } while (this.isSomethingLeft() && !this.isStartOfPart(starts) && !(this.at(t.OpenBrace) && salvage));
    lost?.({ type: 'broken', start: first.startOffset, end: this.end(first.startOffset) });
  }

  private isStartOfPart(starts: readonly TokenType[]): boolean {
    const next = this.LA(1);
    if (sentenceStarts.has(next.tokenType)) return true;
    return this.atAny(starts) && this.isFirstOnLine(next);
  }

  /** Passes over a pair of braces and all that is in it. */
  protected skipBraces(): void {
    let open = 0;
    do {
      if (this.at(t.OpenBrace)) open++;
      else if (this.at(t.CloseBrace)) open--;
      this.SKIP_TOKEN();
    } while (open > 0 && !this.atEnd());
  }

  /** A closing brace that closes nothing. */
  protected dropCloseBrace(): void {
    this.report(messages.unopened(spanOf(this.LA(1))));
    this.SKIP_TOKEN();
  }

  /** Whether what stands in braces begins here, and the opening brace was left out. */
  protected isBraceMissing(first: TokenType): boolean {
    return !this.RECORDING_PHASE && this.surplusBraces > 0 && this.at(first);
  }

  /** Drops a word on this line that stands before one of these, or reads it as one of them that is meant. */
  protected mendStrayWord(types: readonly TokenType[]): boolean {
    const next = this.LA(1);
    if (this.RECORDING_PHASE || next.tokenType !== t.Ident || this.isFirstOnLine(next)) return false;
    const meant = this.quiet ? undefined : nearest(next.image, types);
    if (meant === undefined) return types.some((type) => this.dropWords(type));
    this.takeFor(next, meant);
    return true;
  }

  /**
   * A list with commas between its parts. A comma that was left out between two parts on one line is reported, and the
   * list goes on; `isPart` says whether one begins here.
   */
  protected commaList<T>(
    idx: number,
    read: (occurrence: number) => T | undefined,
    isPart: (next: IToken, afterNext: IToken) => boolean = (next) => this.isPlainWord(next),
  ): T[] {
    const parts = [read(idx)];
    const readNext = (): void => {
      this.consume(idx, t.Comma);
      parts.push(read(idx + 1));
    };
    this.many(idx, readNext);
    while (!this.RECORDING_PHASE && isPart(this.LA(1), this.LA(2)) && this.LA(1).image !== this.LA(0).image) {
      const next = this.LA(1);
      this.missing({ words: 'a comma', insert: ',' });
      parts.push(read(idx + 1));
      this.many(idx, readNext);
      if (this.LA(1) === next) break;
    }
    return parts.includes(undefined) ? parts.filter((part) => part !== undefined) : (parts as T[]);
  }

  /** A word of the writer's own on the line of the word before. */
  protected isPlainWord(token: IToken): boolean {
    return token.tokenType === t.Ident && !this.isFirstOnLine(token);
  }
}
