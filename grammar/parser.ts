/** The grammar of a whole file. Its actions only build the nodes of `syntax.ts`. */
import type { IToken, TokenType } from 'chevrotain';
import * as messages from './messages.ts';
import { declarationStarts } from './parser/lists.ts';
import { nameOf, pieceOf } from './parser/recovering.ts';
import { Safety } from './parser/safety.ts';
import { statementStarts } from './parser/statements.ts';
import type {
  Card,
  CrewMember,
  Declaration,
  Field,
  File,
  Part,
  Procedure,
  Stage,
  SyntaxProblem,
  Text,
} from './syntax.ts';
import * as t from './tokens.ts';
import { k } from './tokens.ts';
import { fieldWords } from './words.ts';

const fieldStarts: readonly TokenType[] = fieldWords.map((word) => k[word]);
const cardPartStarts: readonly TokenType[] = [...fieldStarts, k.stage, ...statementStarts];

export class CardParser extends Safety {
  /** `validated` looks for slips in the grammar itself, which a test does once, and not every start. */
  constructor(validated = false) {
    super(validated);
    this.performSelfAnalysis();
  }

  parse(text: string, tokens: IToken[]): { file: File; problems: SyntaxProblem[] } {
    this.prepare(text, tokens);
    const declarations = this.file();
    return { file: { type: 'file', start: 0, end: text.length, declarations }, problems: this.problems };
  }

  readonly file = this.RULE('file', (): Declaration[] => {
    const declarations: Declaration[] = [];
    const options = {
      starts: declarationStarts,
      what: 'a declaration, such as “item” or “card”',
      lost: (broken: Declaration) => declarations.push(broken),
      salvage: () => this.salvageDeclaration(declarations),
    };
    do {
      this.listOf(0, () => declarations.push(this.SUBRULE(this.declaration)), options);
      if (!this.RECORDING_PHASE && this.at(t.CloseBrace)) this.dropCloseBrace();
    } while (!this.atEnd());
    return declarations;
  });

  private readonly forms = [
    { ALT: () => this.SUBRULE(this.use) },
    { ALT: () => this.SUBRULE(this.kind) },
    { ALT: () => this.SUBRULE(this.item) },
    { ALT: () => this.SUBRULE(this.gauge) },
    { ALT: () => this.SUBRULE(this.supply) },
    { ALT: () => this.SUBRULE(this.hazard) },
    { ALT: () => this.SUBRULE(this.rule) },
    { ALT: () => this.SUBRULE(this.variant) },
    { ALT: () => this.SUBRULE(this.procedure) },
    { ALT: () => this.SUBRULE(this.card) },
  ];

  readonly declaration = this.RULE('declaration', (): Declaration => this.OR<Declaration>(this.forms));

  /** Reads a card that lacks its first word, and a stage or a statement that stands outside any card. */
  private salvageDeclaration(declarations: Declaration[]): boolean {
    if (!this.looksLikeCard()) return false;
    this.report(messages.missingBefore('card', pieceOf(this.LA(1)), 'This looks like a card.'));
    declarations.push(this.SUBRULE(this.card));
    return true;
  }

  private looksLikeCard(): boolean {
    if (
      !this.at(t.Name) ||
      this.at(k.stage) ||
      this.LA(2).tokenType !== t.QuotedText ||
      this.LA(3).tokenType !== t.OpenBrace
    )
      return false;
    const inside = this.LA(4).tokenType;
    return cardPartStarts.includes(inside);
  }

  readonly procedure = this.RULE('procedure', (): Procedure => {
    const start = this.start();
    this.head(0, k.procedure);
    const name = this.name(0, 'a name for the procedure');
    const opener = this.expect(0, t.OpenParen);
    const parameters = this.OPTION1(() => this.commaList(0, (occurrence) => this.subrule(occurrence, this.parameter)));
    this.closing(0, t.CloseParen, opener, 'This parenthesis');
    const title = this.optionalText(2);
    const body = this.SUBRULE2(this.block, { ARGS: ['This procedure'] });
    return { type: 'procedure', start, end: this.end(start), name, parameters: parameters ?? [], title, body };
  });

  readonly parameter = this.RULE('parameter', (): Procedure['parameters'][number] | undefined => {
    const name = this.name(0, 'a name for the parameter');
    this.expect(1, t.Colon);
    const ready = this.readyForAny([t.Name, k.gauge], 'the name of a kind, or “gauge”,');
    const kind = ready
      ? this.OR([
          { ALT: () => nameOf(this.CONSUME2(t.Name, { LABEL: 'the name of a kind' })) },
          { ALT: () => nameOf(this.CONSUME2(k.gauge)) },
        ])
      : undefined;
    return name && { name, kind };
  });

  // -------------------------------------------------------------- cards

  readonly card = this.RULE('card', (): Card => {
    const start = this.start();
    const head = this.head(0, k.card);
    const name = this.name(0, 'a name for the card');
    const title = this.wantText(0, 'a title in quotes');
    const fields: Field[] = [];
    const body: Card['body'][number][] = [];
    const nextPart = (): void => {
      this.OR([
        { ALT: () => void fields.push(this.fieldBefore(body)) },
        { ALT: () => void body.push(this.SUBRULE1(this.stage)) },
        { ALT: () => void body.push(this.SUBRULE2(this.statement)) },
      ]);
    };
    this.inBraces(1, { what: 'This card', head, after: declarationStarts }, () => {
      this.listOf(3, nextPart, {
        starts: cardPartStarts,
        what: 'a field, a stage or a step',
        lost: (broken) => body.push(broken),
        salvage: () => this.salvagePart(body),
      });
    });
    return { type: 'card', start, end: this.end(start), name, title, fields, body };
  });

  /** A field is understood anywhere in a card, but its place is at the head. */
  private fieldBefore(body: Card['body']): Field {
    const first = this.LA(1);
    const field = this.SUBRULE(this.field);
    if (body.some((part) => part.type !== 'broken'))
      this.report(messages.misplaced(pieceOf(first), 'it belongs to the head of the card, before what is done.'));
    return field;
  }

  private salvagePart(body: Card['body'][number][]): boolean {
    if (this.looksLikeStage()) {
      this.report(messages.missingBefore('stage', pieceOf(this.LA(1)), 'This looks like a stage.'));
      body.push(this.SUBRULE(this.stage));
      return true;
    }
    return this.salvage(body as Parameters<typeof this.salvage>[0]);
  }

  private looksLikeStage(): boolean {
    const title = this.at(t.Name) ? 2 : 1;
    const after = this.LA(title + 1).tokenType;
    return this.LA(title).tokenType === t.QuotedText && (after === t.OpenBrace || after === k.when || after === k.only);
  }

  readonly field = this.RULE(
    'field',
    (): Field =>
      this.OR<Field>([
        { ALT: () => this.SUBRULE(this.textField) },
        { ALT: () => this.SUBRULE(this.revision) },
        { ALT: () => this.SUBRULE(this.signOff) },
        { ALT: () => this.SUBRULE(this.applies) },
        { ALT: () => this.SUBRULE(this.crew) },
        { ALT: () => this.SUBRULE(this.listField) },
        { ALT: () => this.SUBRULE(this.parts) },
        { ALT: () => this.SUBRULE(this.stateField) },
      ]),
  );

  readonly textField = this.RULE('textField', (): Field => {
    const start = this.start();
    const word = this.oneHeadOf<'number' | 'purpose' | 'language'>(0, [k.number, k.purpose, k.language]);
    const text = this.wantText(0, 'a text in quotes');
    return { type: word === 'number' ? 'number-field' : word, start, end: this.end(start), text };
  });

  readonly revision = this.RULE('revision', (): Field => {
    const start = this.start();
    this.head(0, k.revision);
    const text = this.wantText(0, 'the revision in quotes');
    const date = this.SUBRULE(this.day);
    return { type: 'revision', start, end: this.end(start), text, date };
  });

  readonly signOff = this.RULE('signOff', (): Field => {
    const start = this.start();
    const type = this.oneHeadOf<'prepared' | 'checked' | 'approved'>(0, [k.prepared, k.checked, k.approved]);
    this.expect(1, k.by);
    const by = this.wantText(2, 'a name in quotes');
    const date = this.SUBRULE(this.day);
    return { type, start, end: this.end(start), by, date };
  });

  readonly day = this.RULE('day', () =>
    this.OPTION(() => {
      this.CONSUME(k.on);
      const token = this.expect(1, t.DateText, 'a date, such as “2026-10-02”,');
      return token && pieceOf(token);
    }),
  );

  readonly applies = this.RULE('applies', (): Field => {
    const start = this.start();
    this.head(0, k.applies);
    const which = this.SUBRULE(this.which);
    return { type: 'applies', start, end: this.end(start), which };
  });

  readonly crew = this.RULE('crew', (): Field => {
    const start = this.start();
    this.head(0, k.crew);
    const members = this.commaList(0, (occurrence) => this.subrule(occurrence, this.member));
    return { type: 'crew', start, end: this.end(start), members };
  });

  readonly member = this.RULE('member', (): CrewMember | undefined => {
    const start = this.start();
    const name = this.name(0, 'the name of a role');
    const label = this.optionalText(0);
    const qualified = this.OPTION1(() => {
      this.CONSUME(k.qualified);
      return this.wantText(2, 'the qualification in quotes');
    });
    return name && { type: 'member', start, end: this.end(start), name, label, qualified };
  });

  readonly listField = this.RULE('listField', (): Field => {
    const start = this.start();
    const type = this.oneHeadOf<'tools' | 'materials' | 'references'>(0, [k.tools, k.materials, k.references]);
    const calibrated: Text[] = [];
    const texts = this.commaList(0, (occurrence) => {
      const text = this.wantText(occurrence, 'a text in quotes');
      this.option(occurrence, () => {
        this.consume(occurrence, k.calibrated);
        if (text) calibrated.push(text);
      });
      return text;
    });
    return { type, start, end: this.end(start), texts, ...(calibrated.length > 0 && { calibrated }) };
  });

  readonly parts = this.RULE('parts', (): Field => {
    const start = this.start();
    this.head(0, k.parts);
    const parts = this.commaList(0, (occurrence) => this.subrule(occurrence, this.part));
    return { type: 'parts', start, end: this.end(start), parts };
  });

  readonly part = this.RULE('part', (): Part | undefined => {
    const start = this.start();
    const text = this.wantText(0, 'what the part is called, in quotes,');
    // On a line of its own, or with more than one text, it is the field of that name, unless what only a part has goes on after it.
    const number = this.OPTION1({
      GATE: () =>
        [k.quantity, k.batch, k.expires, t.Comma].some((type) => this.LA(3).tokenType === type) ||
        (!this.isFirstOnLine(this.LA(1)) && this.LA(3).tokenType !== t.QuotedText),
      DEF: () => {
        this.CONSUME(k.number);
        return this.wantOneText(1, 'the part number in quotes');
      },
    });
    const quantity = this.OPTION2(() => {
      this.CONSUME(k.quantity);
      return this.number(0, 'a number');
    });
    const batch = this.OPTION3(() => this.CONSUME(k.batch)) !== undefined;
    const expires = this.OPTION4(() => this.CONSUME(k.expires)) !== undefined;
    return text && { type: 'part', start, end: this.end(start), text, number, quantity, batch, expires };
  });

  readonly stateField = this.RULE('stateField', (): Field => {
    const start = this.start();
    const type = this.oneHeadOf<'assume' | 'leaves'>(0, [k.assume, k.leaves]);
    const states = this.SUBRULE(this.itemStates);
    const because = this.OPTION(() => {
      this.CONSUME(k.because);
      return this.wantText(0, 'a reason in quotes');
    });
    return { type, start, end: this.end(start), states, because };
  });

  readonly stage = this.RULE('stage', (): Stage => {
    const start = this.start();
    this.head(0, k.stage);
    const name = this.OPTION1(() => nameOf(this.CONSUME1(t.Name)));
    const title = this.wantText(2, 'a title in quotes');
    const whenStopped = this.OPTION2(() => {
      this.CONSUME(k.when);
      this.expect(2, k.stopped);
      return true;
    });
    const only = this.optionalOnly(3);
    const body = this.SUBRULE(this.block, { ARGS: ['This stage'] });
    return { type: 'stage', start, end: this.end(start), name, title, whenStopped: whenStopped ?? false, only, body };
  });
}

/** One parser for all texts: it holds nothing from one to the next. */
export const parser = new CardParser();
