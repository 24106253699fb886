/** Conditions, states of items, choices of configurations, and where to go on. */
import type { TokenType } from 'chevrotain';
import * as messages from '../messages.ts';
import { titleAsName } from '../navigate.ts';
import type { Condition, Flow, ItemState, Name, StateTerm, Text, Which, WhichValue } from '../syntax.ts';
import * as t from '../tokens.ts';
import { k } from '../tokens.ts';
import { numberOf, Quantities } from './quantities.ts';
import { deepestNesting, nameOf } from './recovering.ts';

export const flowStarts: readonly TokenType[] = [k.go, k.stop, k.finish];
const conditionStarts: readonly TokenType[] = [k.not, k.any, k.every, t.OpenParen, t.Name];
const questionStarts: readonly TokenType[] = [t.QuotedText, ...conditionStarts];
const insideCondition: readonly TokenType[] = [...conditionStarts, k.and, k.or, t.CloseParen];
const targetStarts: readonly TokenType[] = [t.QuotedText, t.Name];
const valueStarts: readonly TokenType[] = [t.NumberText, t.Word];

/** What stands in the table of the grammar for completion, where the parser never says that it is missing. */
const asSubject = { LABEL: 'the name of an item, a gauge or a supply' };
const asState = { LABEL: 'a state' };

export abstract class Conditions extends Quantities {
  readonly condition = this.RULE('condition', (): Condition => {
    const start = this.start();
    const terms: Condition[] = [this.SUBRULE(this.conjunction)];
    this.MANY(() => {
      this.CONSUME(k.or);
      terms.push(this.SUBRULE1(this.conjunction));
    });
    return terms.length === 1 ? (terms[0] as Condition) : { type: 'or', start, end: this.end(start), terms };
  });

  readonly conjunction = this.RULE('conjunction', (): Condition => {
    const start = this.start();
    const terms: Condition[] = [this.SUBRULE(this.term)];
    this.MANY(() => {
      this.CONSUME(k.and);
      terms.push(this.SUBRULE1(this.term));
    });
    return terms.length === 1 ? (terms[0] as Condition) : { type: 'and', start, end: this.end(start), terms };
  });

  private readonly termForms = [
    { ALT: () => this.SUBRULE(this.negation) },
    { ALT: () => this.SUBRULE(this.group) },
    { ALT: () => this.SUBRULE(this.quantifiedTerm) },
    { ALT: () => this.SUBRULE(this.plainTerm) },
  ];

  readonly term = this.RULE('term', (): Condition => {
    const wanted = 'a condition';
    const ready = this.isNextPart() ? this.missing({ words: wanted }) : this.readyForAny(conditionStarts, wanted);
    if (ready) return this.OR<Condition>(this.termForms);
    const start = this.start();
    return { type: 'broken', start, end: this.end(start) };
  });

  /** A word such as `because` with its text: it may be a name, but no condition goes on so. */
  private isNextPart(): boolean {
    return (
      !this.RECORDING_PHASE &&
      this.LA(2).tokenType === t.QuotedText &&
      this.LA(1).tokenType !== t.Ident &&
      this.at(t.Name)
    );
  }

  readonly negation = this.RULE('negation', (): Condition => {
    const start = this.start();
    this.CONSUME(k.not);
    const term = this.deeper(() => this.SUBRULE(this.term), start);
    return { type: 'not', start, end: this.end(start), term };
  });

  readonly group = this.RULE('group', (): Condition => {
    const start = this.start();
    const opener = this.CONSUME(t.OpenParen);
    const inner = this.deeper(() => this.SUBRULE(this.condition), start);
    this.closing(0, t.CloseParen, opener, 'This parenthesis');
    return { type: 'group', start, end: this.end(start), inner };
  });

  /** Reads a condition one level down, or passes over all that is nested too deep. */
  private deeper(read: () => Condition, start: number): Condition {
    if (this.RECORDING_PHASE || this.depth < deepestNesting) {
      this.depth++;
      const inner = read();
      this.depth--;
      return inner;
    }
    this.report(messages.tooDeep({ start, end: this.end(start) }, deepestNesting));
    let open = 1;
    while (this.atAny(insideCondition) && !this.startsNextSentence()) {
      if (this.at(t.OpenParen)) open++;
      if (this.at(t.CloseParen) && --open === 0) break;
      this.SKIP_TOKEN();
    }
    return { type: 'broken', start, end: this.end(start) };
  }

  readonly quantifiedTerm = this.RULE('quantifiedTerm', (): Condition => {
    const start = this.start();
    const quantifier = this.oneOf<'any' | 'every'>(0, [k.any, k.every]);
    const node = this.OPTION1({ GATE: () => quantifier === 'any', DEF: () => this.SUBRULE(this.anySupply) });
    if (node && !this.RECORDING_PHASE) return { type: 'any-reaches-term', start, end: this.end(start), ...node };
    const subject = this.name(0, 'the name of a kind');
    if (subject === undefined) return { type: 'broken', start, end: this.end(start) };
    const state = this.state(1);
    const lasting = this.OPTION({ GATE: this.isDuration, DEF: () => this.SUBRULE(this.lasting) });
    return { type: 'state-term', start, end: this.end(start), quantifier, subject, state, lasting };
  });

  /** `any supply reaches NODE` */
  readonly anySupply = this.RULE('anySupply', (): { readonly node?: Name } => {
    this.CONSUME(k.supply);
    this.expect(0, k.reaches);
    return { node: this.name(0, 'what a supply reaches') };
  });

  readonly plainTerm = this.RULE('plainTerm', (): Condition => {
    const start = this.start();
    const subject = nameOf(this.CONSUME(t.Name, asSubject));
    const unfinished = (): Condition => {
      this.missing({ words: 'a state (or for a gauge a bound)' });
      return { type: 'state-term', start, end: this.end(start), subject };
    };
    if (this.startsNextSentence()) return unfinished();
    return this.OR<Condition>([
      {
        ALT: () => {
          const bound = this.SUBRULE(this.bound);
          return { type: 'bound-term', start, end: this.end(start), gauge: subject, bound };
        },
      },
      {
        ALT: () => {
          this.CONSUME(k.in);
          const limit = this.name(1, 'the name of a limit');
          return { type: 'limit-term', start, end: this.end(start), gauge: subject, limit };
        },
      },
      {
        ALT: () => {
          this.CONSUME(k.reaches);
          const node = this.name(2, 'what the supply reaches');
          return { type: 'reaches-term', start, end: this.end(start), supply: subject, node };
        },
      },
      {
        ALT: () => {
          const state = nameOf(this.CONSUME(t.Word, asState));
          const lasting = this.OPTION({ GATE: this.isDuration, DEF: () => this.SUBRULE(this.lasting) });
          return { type: 'state-term', start, end: this.end(start), subject, state, lasting };
        },
      },
      { ALT: unfinished },
    ]);
  });

  /** After a condition `for each` begins the next statement. */
  private readonly isDuration = (): boolean => this.LA(2).tokenType !== k.each;

  readonly lasting = this.RULE('lasting', (): StateTerm['lasting'] => {
    this.CONSUME(k.for);
    const form = this.ready(k.at) ? this.SUBRULE(this.atLeastOrMost) : undefined;
    const duration = this.wantDuration(0);
    return { form: form ?? 'at least', duration };
  });

  /** A condition, or in its place a question in quotes that the reader answers. */
  protected conditionOrQuestion(idx: number): { condition?: Condition; question?: Text } {
    if (!this.readyForAny(questionStarts, 'a condition, or a question in quotes,')) return {};
    return this.or<{ condition?: Condition; question?: Text }>(idx, [
      { ALT: () => ({ question: this.subrule(idx, this.text) }) },
      { ALT: () => ({ condition: this.subrule(idx, this.condition) }) },
    ]);
  }

  // -------------------------------------------------------------- states, configurations, flow

  /** `ITEM STATE, ITEM STATE` */
  readonly itemStates = this.RULE('itemStates', (): ItemState[] =>
    this.commaList(
      0,
      (occurrence) => this.subrule(occurrence, this.itemState),
      (next, afterNext) => this.isPlainWord(next) && this.isPlainWord(afterNext),
    ),
  );

  readonly itemState = this.RULE('itemState', (): ItemState | undefined => {
    const start = this.start();
    const item = this.name(0, 'the name of an item');
    const state = this.state(1);
    return item && { type: 'item-state', start, end: this.end(start), item, state };
  });

  protected names(idx: number, wanted: string): Name[] {
    return this.commaList(idx, (occurrence) => this.name(occurrence, wanted));
  }

  /** `VARIANT VALUE, VALUE and VARIANT VALUE` */
  readonly which = this.RULE('which', (): Which => {
    const start = this.start();
    const parts = [this.SUBRULE(this.whichPart)];
    this.MANY(() => {
      this.CONSUME(k.and);
      parts.push(this.SUBRULE1(this.whichPart));
    });
    return { type: 'which', start, end: this.end(start), parts: parts.filter((part) => part !== undefined) };
  });

  readonly whichPart = this.RULE('whichPart', (): Which['parts'][number] | undefined => {
    const variant = this.name(0, 'the name of a variant');
    const values = this.commaList(0, (occurrence) => this.subrule(occurrence, this.whichValue));
    return variant && { variant, values };
  });

  readonly whichValue = this.RULE('whichValue', (): WhichValue | undefined => {
    const start = this.start();
    if (!this.readyForAny(valueStarts, 'a value')) return undefined;
    return this.OR<WhichValue | undefined>([
      {
        ALT: () => {
          const from = numberOf(this.CONSUME(t.NumberText));
          const to = this.OPTION(() => {
            this.CONSUME(k.to);
            return this.number(1, 'a number');
          });
          return { type: 'numbers', start, end: this.end(start), from, to };
        },
      },
      { ALT: () => this.word(0, 'a value') },
    ]);
  });

  protected optionalOnly(idx: number): Which | undefined {
    return this.option(idx, () => {
      this.consume(idx, k.only);
      return this.subrule(idx, this.which);
    });
  }

  /** Where in the approved data something comes from. */
  protected optionalSource(idx: number): Text | undefined {
    return this.option(idx, () => {
      this.consume(idx, k.source);
      return this.wantText(idx, 'what it comes from, in quotes,');
    });
  }

  /** What happens next in the card, after an `else` or as a statement. */
  readonly flow = this.RULE('flow', (): Flow => {
    const start = this.start();
    return this.OR<Flow>([
      {
        ALT: () => {
          this.head(0, k.go);
          this.expect(1, k.to);
          const wanted = 'the name of a stage or step';
          const ready = this.startsNextSentence()
            ? this.missing({ words: wanted })
            : this.readyForAny(targetStarts, wanted);
          const label = ready ? this.SUBRULE(this.target) : undefined;
          return { type: 'go', start, end: this.end(start), label };
        },
      },
      {
        ALT: () => {
          this.head(3, k.stop);
          const text = this.wantText(4, 'a text that says what to do');
          return { type: 'stop', start, end: this.end(start), text };
        },
      },
      {
        ALT: () => {
          this.head(5, k.finish);
          return { type: 'finish', start, end: this.end(start) };
        },
      },
    ]);
  });

  /** A label, or the title of a stage in its quotes. */
  readonly target = this.RULE('target', (): Name | undefined =>
    this.OR<Name | undefined>([
      { ALT: () => this.name(0, 'the name of a stage or step') },
      { ALT: () => titleAsName(this.wantOneText(0, 'the title of a stage')) },
    ]),
  );

  /** `else FLOW` */
  protected optionalElse(idx: number): Flow | undefined {
    return this.option(idx, () => {
      this.consume(idx, k.else);
      const stage = this.at(t.OpenBrace) ? ' to a stage that holds these steps' : '';
      const ready = this.readyForAny(flowStarts, `“go to LABEL”${stage}, “stop "TEXT"” or “finish”`);
      return ready ? this.subrule(idx, this.flow) : undefined;
    });
  }
}
