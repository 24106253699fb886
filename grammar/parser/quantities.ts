/** Texts, numbers with their units, bounds and times. */
import type { IToken, TokenType } from 'chevrotain';
import { findUnit } from '../../shared/units.ts';
import type { Wanted } from '../messages.ts';
import * as messages from '../messages.ts';
import type { BoundNode, DurationNode, NumberNode, QuantityNode, SpanNode, Text, UnitNode } from '../syntax.ts';
import { readText } from '../texts.ts';
import * as t from '../tokens.ts';
import { endOf, k } from '../tokens.ts';
import { Lists } from './lists.ts';
import { nameOf } from './recovering.ts';

export const boundStarts: readonly TokenType[] = [k.at, k.above, k.below, k.exactly, t.NumberText];
const unitStarts: readonly TokenType[] = [t.UnitWord, t.UnitSign];
const spanStarts: readonly TokenType[] = [t.NumberText, k.at];

const asValue = { LABEL: 'the name of a value' };

export abstract class Quantities extends Lists {
  // -------------------------------------------------------------- texts and numbers

  /** Texts in a row are one text. */
  readonly text = this.RULE('text', (): Text => this.withoutEmptySlots(this.textOf(this.quotedTexts())));

  /** The words of a kind's state, in which `{}` stands for the item. */
  readonly wording = this.RULE('wording', (): Text => this.textOf(this.quotedTexts()));

  private quotedTexts(): IToken[] {
    const tokens = [this.CONSUME(t.QuotedText)];
    this.MANY(() => tokens.push(this.CONSUME1(t.QuotedText)));
    return tokens;
  }

  private textOf(tokens: readonly IToken[]): Text {
    const { text, strayBraces } = readText(tokens);
    for (const brace of strayBraces) this.remark(messages.unclosedSlot(brace));
    return text;
  }

  private withoutEmptySlots(text: Text): Text {
    for (const part of text.segments) {
      if (part.type === 'slot' && part.name === undefined) this.remark(messages.emptySlot(part));
    }
    return text;
  }

  protected wantText(idx: number, wanted: string): Text | undefined {
    return this.ready(t.QuotedText, wanted) ? this.subrule(idx, this.text) : undefined;
  }

  /** One text only: what stands after it is not more of it. */
  protected wantOneText(idx: number, wanted: string): Text | undefined {
    const token = this.expect(idx, t.QuotedText, wanted);
    return token && this.withoutEmptySlots(this.textOf([token]));
  }

  protected optionalText(idx: number): Text | undefined {
    return this.option(idx, () => this.subrule(idx, this.text));
  }

  protected number(idx: number, wanted: string): NumberNode | undefined {
    const token = this.expect(idx, t.NumberText, wanted);
    return token && numberOf(token);
  }

  readonly unit = this.RULE('unit', (): UnitNode => {
    const start = this.start();
    let text = this.SUBRULE(this.unitPart);
    this.MANY(() => {
      const sign = this.OR([
        { ALT: () => this.CONSUME(t.Slash) },
        { ALT: () => this.CONSUME(t.Dot) },
        { ALT: () => this.CONSUME(t.MiddleDot) },
      ]);
      text += sign.image + this.SUBRULE1(this.unitPart);
    });
    return { type: 'unit', start, end: this.end(start), text };
  });

  private readonly unitPartForms = [
    {
      ALT: () => {
        const word = this.CONSUME(t.UnitWord);
        const sign = this.OPTION(() => this.CONSUME1(t.UnitSign));
        return word.image + (sign?.image ?? '');
      },
    },
    { ALT: () => this.CONSUME2(t.UnitSign).image },
    {
      ALT: () => {
        this.missing({ words: 'a unit' });
        return '';
      },
    },
  ];

  readonly unitPart = this.RULE('unitPart', (): string => this.OR<string>(this.unitPartForms));

  protected wantUnit(idx: number): UnitNode | undefined {
    return this.readyForAny(unitStarts, 'a unit') ? this.subrule(idx, this.unit) : undefined;
  }

  readonly quantity = this.RULE('quantity', (): QuantityNode => {
    const number = numberOf(this.CONSUME(t.NumberText));
    const unit = this.OPTION(() => this.SUBRULE(this.unit));
    return { type: 'quantity', start: number.start, end: this.end(number.start), number, unit };
  });

  protected wantQuantity(idx: number, wanted = 'a number with its unit'): QuantityNode | undefined {
    if (!this.atValueName() && !this.ready(t.NumberText, wanted)) return undefined;
    const quantity = this.subrule(idx, this.value);
    if (lacksUnit(quantity))
      this.missing(this.unitMeant && !this.at(t.NumberText) ? wordsOfUnit(this.unitMeant) : { words: 'a unit' });
    return quantity;
  }

  /** The unit that a number without one is most likely in: that of the gauge whose limits are read. */
  protected unitMeant: string | undefined;

  private readonly valueForms = [
    { ALT: () => this.SUBRULE(this.quantity) },
    {
      ALT: (): QuantityNode => {
        const name = nameOf(this.CONSUME(t.Ident, asValue));
        return { type: 'quantity', start: name.start, end: name.end, name };
      },
    },
  ];

  /** A quantity, or the name that stands for one in each round of a `for each`. */
  readonly value = this.RULE('value', (): QuantityNode => this.OR<QuantityNode>(this.valueForms));

  /** Whether a name stands where a quantity is asked for; a unit without its number is none. */
  protected atValueName(): boolean {
    if (this.RECORDING_PHASE) return false;
    const next = this.LA(1);
    return next.tokenType === t.Ident && findUnit(next.image) === undefined;
  }

  protected readyForValue(types: readonly TokenType[], wanted: string): boolean {
    return this.atValueName() || this.readyForAny(types, wanted);
  }

  private readonly boundForms = [
    { ALT: () => this.SUBRULE(this.sideBound) },
    { ALT: () => this.SUBRULE(this.exactBound) },
    { ALT: () => this.SUBRULE(this.rangeBound) },
  ];

  /** A bound on what a gauge shows. */
  readonly bound = this.RULE('bound', (): BoundNode => this.OR<BoundNode>(this.boundForms));

  private readonly sideForms = [
    { ALT: () => this.SUBRULE(this.atLeastOrMost) ?? 'at least' },
    { ALT: () => this.oneOf<'above' | 'below'>(1, [k.above, k.below]) },
  ];

  readonly sideBound = this.RULE('sideBound', (): BoundNode => {
    const start = this.start();
    const form = this.or<'at least' | 'at most' | 'above' | 'below'>(0, this.sideForms);
    const quantity = this.wantQuantity(0);
    return { type: 'bound', start, end: this.end(start), form, quantity };
  });

  readonly exactBound = this.RULE('exactBound', (): BoundNode => {
    const start = this.start();
    this.CONSUME(k.exactly);
    const quantity = this.wantQuantity(1);
    const tolerance = this.OPTION(() => {
      this.CONSUME(t.PlusMinus);
      return this.wantQuantity(2);
    });
    return { type: 'bound', start, end: this.end(start), form: 'exactly', quantity, tolerance };
  });

  readonly rangeBound = this.RULE('rangeBound', (): BoundNode => {
    const start = this.start();
    const low = this.SUBRULE(this.quantity);
    this.expect(0, k.to);
    const high = this.wantQuantity(1);
    return { type: 'bound', start, end: this.end(start), form: 'range', low, high };
  });

  protected wantBound(
    idx: number,
    wanted = 'a bound, such as “at least 24 V” or “27 V to 29 V”,',
  ): BoundNode | undefined {
    return this.readyForAny(boundStarts, wanted) ? this.subrule(idx, this.bound) : undefined;
  }

  readonly atLeastOrMost = this.RULE('atLeastOrMost', (): 'at least' | 'at most' | undefined => {
    this.CONSUME(k.at);
    if (!this.readyForAny([k.least, k.most], '“least” or “most”')) return undefined;
    return `at ${this.oneOf<'least' | 'most'>(0, [k.least, k.most])}`;
  });

  // -------------------------------------------------------------- times

  readonly duration = this.RULE('duration', (): DurationNode => {
    const start = this.start();
    const parts: QuantityNode[] = [this.SUBRULE(this.value)];
    this.MANY(() => parts.push(this.SUBRULE1(this.quantity)));
    if (parts.some(lacksUnit)) {
      this.missing({ words: 'a unit of time, such as “s” or “min”,', insert: this.unitAfterTo() });
    }
    return { type: 'duration', start, end: this.end(start), parts };
  });

  /** In `2 to 5 min`, the unit that was meant for the first number too. */
  private unitAfterTo(): string | undefined {
    const isRange =
      this.LA(0).tokenType === t.NumberText &&
      this.at(k.to) &&
      this.LA(2).tokenType === t.NumberText &&
      this.LA(3).tokenType === t.Ident;
    return isRange ? this.LA(3).image : undefined;
  }

  protected wantDuration(idx: number): DurationNode | undefined {
    const ready = this.atValueName() || this.ready(t.NumberText, 'a time, such as “30 s”,');
    return ready ? this.subrule(idx, this.duration) : undefined;
  }

  readonly span = this.RULE('span', (): SpanNode => {
    const start = this.start();
    return this.OR<SpanNode>([
      {
        ALT: () => {
          this.CONSUME(k.at);
          this.expect(0, k.least);
          const low = this.wantDuration(0);
          return { type: 'span', start, end: this.end(start), form: 'at least', low };
        },
      },
      {
        ALT: () => {
          const low = this.wantDuration(1);
          const high = this.OPTION(() => {
            this.CONSUME(k.to);
            return { duration: this.wantDuration(2) };
          });
          return {
            type: 'span',
            start,
            end: this.end(start),
            form: high ? 'range' : 'exact',
            low,
            high: high?.duration,
          };
        },
      },
    ]);
  });

  protected wantSpan(idx: number): SpanNode | undefined {
    const wanted = 'a time, such as “30 s” or “2 min to 5 min”,';
    return this.readyForValue(spanStarts, wanted) ? this.subrule(idx, this.span) : undefined;
  }
}

function wordsOfUnit(unit: string): Wanted {
  return { words: `a unit, such as “${unit}”,`, insert: unit };
}

export function lacksUnit({ name, unit }: QuantityNode): boolean {
  return name === undefined && unit === undefined;
}

export function numberOf(token: IToken): NumberNode {
  return { type: 'number', text: token.image, start: token.startOffset, end: endOf(token) };
}
