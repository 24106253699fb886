/** Statements: what happens on a card, one after the other and in blocks. */
import type { TokenType } from 'chevrotain';
import * as messages from '../messages.ts';
import type {
  Admonition,
  AdmonitionLevel,
  Block,
  Choose,
  Do,
  Figure,
  ForEach,
  If,
  Keep,
  QuantityNode,
  Repeat,
  Statement,
  Together,
} from '../syntax.ts';
import * as t from '../tokens.ts';
import { k } from '../tokens.ts';
import { levelWords, statingWords } from '../words.ts';
import { actionStarts } from './actions.ts';
import { flowStarts } from './conditions.ts';
import { deepestNesting, pieceOf } from './recovering.ts';
import { Steps, stepGoesOn } from './steps.ts';

export const statementStarts: readonly TokenType[] = [k.step, k.for, ...statingWords.map((word) => k[word])];
/** The signal words, the gravest first. */
export const levelTokens: readonly TokenType[] = levelWords.map((word) => k[word]);
const saidStarts: readonly TokenType[] = [t.Name, t.QuotedText];

export abstract class Statements extends Steps {
  private readonly statementForms = [
    { ALT: () => this.SUBRULE(this.step) },
    { ALT: () => this.SUBRULE(this.admonition) },
    { ALT: () => this.SUBRULE(this.ifStatement) },
    { ALT: () => this.SUBRULE(this.repeat) },
    { ALT: () => this.SUBRULE(this.together) },
    { ALT: () => this.SUBRULE(this.doStatement) },
    { ALT: () => this.SUBRULE(this.forEach) },
    { ALT: () => this.SUBRULE(this.choose) },
    { ALT: () => this.SUBRULE(this.keep) },
    { ALT: () => this.SUBRULE(this.sign) },
    { ALT: () => this.SUBRULE(this.flow) },
    { ALT: () => this.SUBRULE(this.accept) },
    { ALT: () => this.SUBRULE(this.figure) },
  ];

  readonly statement = this.RULE('statement', (): Statement => this.OR<Statement>(this.statementForms));

  /** `what` names the block in a message where its brace is missing. */
  readonly block = this.RULE('block', (what: string = 'This block'): Block => {
    const start = this.start();
    const statements: Statement[] = [];
    if (this.tooDeep()) return { type: 'block', start, end: this.end(start), statements };
    this.depth++;
    const outer = this.blockStart;
    this.blockStart = start;
    this.inBraces(0, { what }, () => this.statementsInto(0, statements));
    this.blockStart = outer;
    this.depth--;
    return { type: 'block', start, end: this.end(start), statements };
  });

  /** Reports and passes over a block that is nested too deep. */
  private tooDeep(): boolean {
    if (this.RECORDING_PHASE || this.depth < deepestNesting) return false;
    this.report(messages.tooDeep(pieceOf(this.LA(1)), deepestNesting));
    if (this.at(t.OpenBrace)) this.skipBraces();
    return true;
  }

  private statementsInto(idx: number, statements: Statement[]): void {
    this.listOf(idx, () => statements.push(this.subrule(idx, this.statement)), {
      starts: statementStarts,
      what: 'a step or another statement',
      lost: (broken) => statements.push(broken),
      salvage: () => this.salvage(statements),
    });
  }

  /** Reads what is whole but for its first word: a step without `step`, a block that belongs to nothing. */
  protected salvage(statements: Statement[]): boolean {
    if (this.atAny(stepGoesOn) && !this.at(t.OpenBrace) && this.LA(2).tokenType !== k.step) {
      this.report(this.missingStep());
      statements.push(this.SUBRULE(this.step));
      return true;
    }
    if (!this.at(t.OpenBrace)) return false;
    this.report(messages.unexpected(pieceOf(this.LA(1)), ' Here belongs a step or another statement.'));
    statements.push(...this.SUBRULE(this.block).statements);
    this.dropElse(statements);
    return true;
  }

  /** Reads on after a block that belongs to nothing: its `else` belongs to nothing either. */
  private dropElse(statements: Statement[]): void {
    while (this.at(k.else)) {
      this.SKIP_TOKEN();
      if (this.atAny(flowStarts)) this.SUBRULE(this.flow);
      else if (this.at(k.if)) statements.push(this.SUBRULE(this.ifStatement));
      else if (this.at(t.OpenBrace)) statements.push(...this.SUBRULE(this.block).statements);
    }
  }

  private missingStep() {
    const next = pieceOf(this.LA(1));
    const isAction = this.atAny(actionStarts);
    const reason = isAction
      ? 'An action stands in a step; several in one step stand in braces.'
      : 'This belongs to a step.';
    return messages.missingBefore('step', next, reason);
  }

  // -------------------------------------------------------------- words to the reader

  protected levelWord(): AdmonitionLevel {
    return this.oneHeadOf<AdmonitionLevel>(9, levelTokens);
  }

  readonly admonition = this.RULE('admonition', (): Admonition => {
    const start = this.start();
    const level = this.levelWord();
    const wanted = 'the name of a hazard, or a text,';
    const ready = this.startsNextSentence() ? this.missing({ words: wanted }) : this.readyForAny(saidStarts, wanted);
    const said = ready ? this.SUBRULE(this.hazardOrText) : undefined;
    const only = this.optionalOnly(1);
    const source = this.optionalSource(2);
    return { type: 'admonition', start, end: this.end(start), level, ...said, only, source };
  });

  readonly hazardOrText = this.RULE(
    'hazardOrText',
    (): Pick<Admonition, 'hazard' | 'text'> =>
      this.OR<Pick<Admonition, 'hazard' | 'text'>>([
        { ALT: () => ({ hazard: this.name(0, 'the name of a hazard') }) },
        { ALT: () => ({ text: this.SUBRULE(this.text) }) },
      ]),
  );

  readonly figure = this.RULE('figure', (): Figure => {
    const start = this.start();
    this.head(0, k.figure);
    const path = this.wantOneText(0, 'the name of the file, in quotes,');
    const caption = this.wantText(1, 'a caption in quotes');
    return { type: 'figure', start, end: this.end(start), path, caption };
  });

  // -------------------------------------------------------------- branches and loops

  readonly ifStatement = this.RULE('if', (): If => {
    const start = this.start();
    this.head(0, k.if);
    const asked = this.conditionOrQuestion(0);
    const body = this.SUBRULE(this.block);
    const otherwise = this.OPTION(() => {
      this.CONSUME(k.else);
      return this.SUBRULE(this.elseBranch);
    });
    return { type: 'if', start, end: this.end(start), ...asked, body, otherwise };
  });

  readonly elseBranch = this.RULE('elseBranch', (): Block | If => {
    const start = this.start();
    if (this.tooDeep()) {
      while (this.at(k.if)) this.skipElseIf();
      return { type: 'block', start, end: this.end(start), statements: [] };
    }
    if (!this.readyForAny([k.if, t.OpenBrace], '“{” or “if”')) return this.SUBRULE1(this.block);
    this.depth++;
    const branch = this.OR<Block | If>([
      { ALT: () => this.SUBRULE(this.ifStatement) },
      { ALT: () => this.SUBRULE(this.block) },
    ]);
    this.depth--;
    return branch;
  });

  /** Passes over one `if … { … } else` of a chain that is nested too deep, and the block that ends the chain. */
  private skipElseIf(): void {
    while (!this.atEnd() && !this.at(t.OpenBrace) && !this.at(t.CloseBrace)) this.SKIP_TOKEN();
    if (this.at(t.OpenBrace)) this.skipBraces();
    if (!this.at(k.else)) return;
    this.SKIP_TOKEN();
    if (this.at(t.OpenBrace)) this.skipBraces();
  }

  readonly repeat = this.RULE('repeat', (): Repeat => {
    const start = this.start();
    this.head(0, k.repeat);
    const ready = this.readyForAny([t.NumberText, k.at], 'a number of times');
    const rounds = ready ? this.SUBRULE(this.rounds) : { until: false };
    const body = this.SUBRULE(this.block);
    const otherwise = this.optionalElse(1);
    return { type: 'repeat', start, end: this.end(start), ...rounds, body, otherwise };
  });

  readonly rounds = this.RULE(
    'rounds',
    (): Pick<Repeat, 'times' | 'until' | 'condition' | 'question'> =>
      this.OR1<Pick<Repeat, 'times' | 'until' | 'condition' | 'question'>>([
        {
          ALT: () => {
            const times = this.number(0, 'a number');
            this.expect(0, k.times);
            return { times, until: false };
          },
        },
        {
          ALT: () => {
            this.CONSUME(k.at);
            this.expect(1, k.most);
            const times = this.number(1, 'a number');
            this.expect(1, k.times);
            this.expect(2, k.until);
            return { times, until: true, ...this.conditionOrQuestion(2) };
          },
        },
      ]),
  );

  readonly together = this.RULE('together', (): Together => {
    const start = this.start();
    const head = this.head(0, k.together);
    const lanes: Together['lanes'][number][] = [];
    this.inBraces(0, { what: 'This “together”', head }, () => {
      this.listOf(0, () => lanes.push(this.SUBRULE(this.lane)), { starts: [k.by], what: '“by ROLE { … }”' });
    });
    return { type: 'together', start, end: this.end(start), lanes };
  });

  readonly lane = this.RULE('lane', (): Together['lanes'][number] => {
    const start = this.start();
    this.head(0, k.by);
    const role = this.name(0, 'the name of a role');
    const body = this.SUBRULE(this.block);
    return { type: 'lane', start, end: this.end(start), role, body };
  });

  readonly doStatement = this.RULE('do', (): Do => {
    const start = this.start();
    this.head(0, k.do);
    const name = this.name(0, 'the name of a procedure or card');
    const given = this.OPTION1(() => {
      const opener = this.CONSUME(t.OpenParen);
      const names = this.OPTION2(() => this.names(1, 'the name of an item or gauge'));
      this.closing(0, t.CloseParen, opener, 'This parenthesis');
      return names;
    });
    return { type: 'do', start, end: this.end(start), name, arguments: given ?? [] };
  });

  readonly forEach = this.RULE('forEach', (): ForEach => {
    const start = this.start();
    this.head(0, k.for);
    this.expect(0, k.each);
    const name = this.name(0, 'a name for the item of each round');
    this.expect(1, k.in);
    const values = this.OPTION(() => this.SUBRULE(this.values));
    const among = values && !this.RECORDING_PHASE ? [] : this.names(1, 'the name of a kind, or a list of items,');
    const body = this.SUBRULE(this.block);
    return { type: 'for-each', start, end: this.end(start), name, in: among, values, body };
  });

  /** The last unit holds for those before it that have none: `10, 18, 25 N.m`. */
  readonly values = this.RULE('values', (): QuantityNode[] => {
    const values = [this.SUBRULE(this.quantity)];
    this.MANY(() => {
      this.CONSUME(t.Comma);
      const value = this.ready(t.NumberText, 'a number with its unit') ? this.SUBRULE1(this.quantity) : undefined;
      if (value) values.push(value);
    });
    if (values.at(-1)?.unit === undefined) this.missing({ words: 'a unit' });
    return values;
  });

  readonly choose = this.RULE('choose', (): Choose => {
    const start = this.start();
    const head = this.head(0, k.choose);
    const ways: (Choose['ways'][number] | undefined)[] = [];
    const nextWay = (): void => {
      this.consume(0, k.or);
      ways.push(this.SUBRULE1(this.way));
    };
    this.inBraces(0, { what: 'This “choose”', head }, () => {
      ways.push(this.SUBRULE(this.way));
      this.listOf(0, nextWay, { starts: [k.or], what: '“or” and another way' });
    });
    return { type: 'choose', start, end: this.end(start), ways: ways.filter((way) => way !== undefined) };
  });

  readonly way = this.RULE('way', (): Choose['ways'][number] | undefined => {
    const start = this.start();
    const text = this.wantText(0, 'the text of this way');
    if (text === undefined && !this.RECORDING_PHASE && !this.at(t.OpenBrace)) return undefined;
    const body = this.SUBRULE(this.block);
    return { type: 'way', start, end: this.end(start), text, body };
  });

  readonly keep = this.RULE('keep', (): Keep => {
    const start = this.start();
    this.head(0, k.keep);
    const condition = this.SUBRULE(this.condition);
    const otherwise = this.optionalElse(0);
    return { type: 'keep', start, end: this.end(start), condition, otherwise };
  });
}
