/** Actions of a step: what a hand does, reads or waits for. */
import type { ParserMethod, TokenType } from 'chevrotain';
import type {
  Action,
  Block,
  BoundNode,
  Bring,
  Check,
  QuantityNode,
  Read,
  Record,
  RecordColumn,
  Run,
  Set as SetAction,
  Tighten,
  Wait,
  Watch,
} from '../syntax.ts';
import * as t from '../tokens.ts';
import { k } from '../tokens.ts';
import { type ActingWord, actingWords, contextualActingWords } from '../words.ts';
import { Conditions, flowStarts } from './conditions.ts';
import { boundStarts, lacksUnit } from './quantities.ts';

export const actionStarts: readonly TokenType[] = [...actingWords, ...contextualActingWords].map((word) => k[word]);
/** Beside a list of texts a word is no further text without its comma. */
const noWord = (): boolean => false;
const torqueStarts: readonly TokenType[] = [k.at, k.above, k.below, t.NumberText];

const aBoundOrLimit = 'a bound, or “in” and the name of a limit,';

type ActionBegunBy<Word extends ActingWord> = Word extends 'set' ? SetAction : Extract<Action, { type: Word }>;

export abstract class Actions extends Conditions {
  abstract readonly block: ParserMethod<[what?: string], Block>;

  /** By the word that begins it; `ensure` is written like `set`. */
  private readonly actionOf: { readonly [Word in Exclude<ActingWord, 'ensure'>]: () => ActionBegunBy<Word> } = {
    set: () => this.SUBRULE(this.set),
    check: () => this.SUBRULE(this.check),
    read: () => this.SUBRULE(this.read),
    bring: () => this.SUBRULE(this.bring),
    run: () => this.SUBRULE(this.run),
    wait: () => this.SUBRULE(this.wait),
    tighten: () => this.SUBRULE(this.tighten),
    record: () => this.SUBRULE(this.record),
  };
  private readonly actions = Object.values(this.actionOf).map((ALT) => ({ ALT }));

  readonly action = this.RULE('action', (): Action => this.OR<Action>(this.actions));

  readonly set = this.RULE('set', (): SetAction => {
    const start = this.start();
    const type = this.oneHeadOf<'set' | 'ensure'>(0, [k.set, k.ensure]);
    const states = this.SUBRULE(this.itemStates);
    return { type, start, end: this.end(start), states };
  });

  readonly check = this.RULE('check', (): Check => {
    const start = this.start();
    this.head(0, k.check);
    const { condition, question } = this.conditionOrQuestion(0);
    const failing = this.OPTION3(() => this.SUBRULE(this.failing));
    return { type: 'check', start, end: this.end(start), condition, question, ...failing };
  });

  readonly read = this.RULE('read', (): Read => {
    const start = this.start();
    this.head(0, k.read);
    const gauge = this.name(0, 'the name of a gauge');
    const asked = this.OPTION1(() => ({
      ...this.SUBRULE1(this.boundOrLimit),
      ...this.OPTION2(() => this.SUBRULE2(this.failing)),
    }));
    return { type: 'read', start, end: this.end(start), gauge, ...(asked ?? this.failingWithout(aBoundOrLimit)) };
  });

  /** What is held against nothing cannot fail: an `else` here says that something was meant. */
  private failingWithout(wanted: string): Pick<Check, 'mend' | 'otherwise'> {
    if (this.RECORDING_PHASE || !this.atAny([k.else])) return {};
    this.missing({ words: wanted });
    return this.SUBRULE3(this.failing);
  }

  /** `else FLOW`, or `else { … }` with what is done before it is asked again, and perhaps an `else FLOW` of its own. */
  readonly failing = this.RULE('failing', (): Pick<Check, 'mend' | 'otherwise'> => {
    this.CONSUME(k.else);
    const wanted = '“go to LABEL”, “stop "TEXT"”, “finish” or “{”';
    if (!this.readyForAny([...flowStarts, t.OpenBrace], wanted)) return {};
    return this.OR<Pick<Check, 'mend' | 'otherwise'>>([
      { ALT: () => ({ otherwise: this.SUBRULE(this.flow) }) },
      {
        ALT: () => {
          const mend = this.SUBRULE(this.block);
          return { mend, otherwise: this.optionalElse(1) };
        },
      },
    ]);
  });

  readonly bring = this.RULE('bring', (): Bring => {
    const start = this.start();
    this.head(0, k.bring);
    const gauge = this.name(0, 'the name of a gauge');
    const asked = this.wantBoundOrLimit(0);
    const within = this.optionalWithin(1);
    const failing = this.OPTION3(() => this.SUBRULE(this.failing));
    return {
      type: 'bring',
      start,
      end: this.end(start),
      gauge,
      bound: asked?.bound,
      limit: asked?.limit,
      within,
      ...failing,
    };
  });

  readonly boundOrLimit = this.RULE(
    'boundOrLimit',
    (): Pick<Read, 'bound' | 'limit'> =>
      this.OR<Pick<Read, 'bound' | 'limit'>>([
        { ALT: () => ({ bound: this.SUBRULE(this.bound) }) },
        {
          ALT: () => {
            this.CONSUME(k.in);
            return { limit: this.name(0, 'the name of a limit') };
          },
        },
      ]),
  );

  private wantBoundOrLimit(idx: number): Pick<Read, 'bound' | 'limit'> | undefined {
    return this.readyForAny([...boundStarts, k.in], aBoundOrLimit) ? this.subrule(idx, this.boundOrLimit) : undefined;
  }

  private optionalWithin(idx: number) {
    return this.option(idx, () => {
      this.consume(idx, k.within);
      return this.wantDuration(idx);
    });
  }

  readonly run = this.RULE('run', (): Run => {
    const start = this.start();
    this.head(0, k.run);
    const item = this.name(0, 'the name of an item');
    const state = this.state(1);
    const ends = this.readyForAny([k.for, k.until], '“for” and a time (or “until” and a condition)')
      ? this.SUBRULE(this.runEnd)
      : undefined;
    const braced = this.OPTION(() => this.SUBRULE(this.watches));
    const watches = braced ?? (this.isBraceMissing(k.watch) ? this.SUBRULE1(this.watches) : []);
    return { type: 'run', start, end: this.end(start), item, state, ...ends, watches };
  });

  readonly watches = this.RULE('watches', (): Watch[] => {
    const watches: Watch[] = [];
    this.inBraces(0, { what: 'This list of watches' }, () => {
      this.listOf(0, () => watches.push(this.SUBRULE(this.watch)), { starts: [k.watch], what: '“watch”' });
    });
    return watches;
  });

  readonly runEnd = this.RULE(
    'runEnd',
    (): Pick<Run, 'length' | 'until' | 'within' | 'otherwise'> =>
      this.OR<Pick<Run, 'length' | 'until' | 'within' | 'otherwise'>>([
        {
          ALT: () => {
            this.CONSUME(k.for);
            return { length: this.wantSpan(0) };
          },
        },
        {
          ALT: () => {
            this.CONSUME(k.until);
            const until = this.SUBRULE(this.condition);
            this.expect(0, k.within);
            const within = this.wantDuration(1);
            return { until, within, otherwise: this.optionalElse(2) };
          },
        },
      ]),
  );

  readonly watch = this.RULE('watch', (): Watch => {
    const start = this.start();
    this.head(0, k.watch);
    const gauge = this.name(0, 'the name of a gauge');
    const wanted = '“reaches” or “stays”';
    const watched = this.readyForAny([k.reaches, k.stays], wanted) ? this.SUBRULE(this.watched) : undefined;
    const otherwise = this.optionalElse(0);
    return { type: 'watch', start, end: this.end(start), gauge, ...watched, otherwise };
  });

  readonly watched = this.RULE(
    'watched',
    (): Pick<Watch, 'form' | 'bound' | 'limit' | 'within'> =>
      this.OR<Pick<Watch, 'form' | 'bound' | 'limit' | 'within'>>([
        {
          ALT: () => {
            this.CONSUME(k.reaches);
            const asked = this.wantBoundOrLimit(0);
            this.expect(0, k.within);
            return { form: 'reaches', ...asked, within: this.wantDuration(0) };
          },
        },
        {
          ALT: () => {
            this.CONSUME(k.stays);
            return { form: 'stays', ...this.wantBoundOrLimit(1) };
          },
        },
      ]),
  );

  readonly wait = this.RULE('wait', (): Wait => {
    const start = this.start();
    this.head(0, k.wait);
    const wanted = 'a time (or “until” and a condition)';
    const ends = this.readyForValue([t.NumberText, k.at, k.until], wanted) ? this.SUBRULE(this.waitEnd) : undefined;
    return { type: 'wait', start, end: this.end(start), ...ends };
  });

  readonly waitEnd = this.RULE(
    'waitEnd',
    (): Pick<Wait, 'length' | 'until' | 'within' | 'mend' | 'otherwise'> =>
      this.OR<Pick<Wait, 'length' | 'until' | 'within' | 'mend' | 'otherwise'>>([
        { ALT: () => ({ length: this.SUBRULE(this.span) }) },
        {
          ALT: () => {
            this.CONSUME(k.until);
            const until = this.SUBRULE(this.condition);
            const within = this.optionalWithin(0);
            return { until, within, ...this.OPTION3(() => this.SUBRULE(this.failing)) };
          },
        },
      ]),
  );

  readonly tighten = this.RULE('tighten', (): Tighten => {
    const start = this.start();
    this.head(0, k.tighten);
    const wanted = 'the name of an item, or a text,';
    const tightened = this.readyForAny([t.Name, t.QuotedText], wanted) ? this.SUBRULE(this.itemOrText) : undefined;
    this.expect(0, k.to);
    const torque = this.readyForValue(torqueStarts, 'a torque, such as “25 N.m +/- 2 N.m”,')
      ? this.SUBRULE(this.torque)
      : undefined;
    const pattern = this.OPTION(() => {
      this.CONSUME(k.in);
      return this.wantText(1, 'the pattern, in quotes,');
    });
    return { type: 'tighten', start, end: this.end(start), ...tightened, torque, pattern };
  });

  readonly itemOrText = this.RULE(
    'itemOrText',
    (): Pick<Tighten, 'item' | 'text'> =>
      this.OR<Pick<Tighten, 'item' | 'text'>>([
        { ALT: () => ({ item: this.name(0, 'the name of an item') }) },
        { ALT: () => ({ text: this.SUBRULE(this.text) }) },
      ]),
  );

  readonly torque = this.RULE(
    'torque',
    (): BoundNode =>
      this.OR<BoundNode>([{ ALT: () => this.SUBRULE(this.sideBound) }, { ALT: () => this.SUBRULE(this.setting) }]),
  );

  /** What a wrench is set to: a value, one with a tolerance, or a range. */
  readonly setting = this.RULE('setting', (): BoundNode => {
    const start = this.start();
    const quantity = this.SUBRULE(this.value);
    if (lacksUnit(quantity) && !this.at(k.to)) this.missing({ words: 'a unit' });
    const { high, tolerance } = this.OPTION(() => this.SUBRULE(this.settingEnd)) ?? {};
    const span = { type: 'bound', start, end: this.end(start) } as const;
    return high ? { ...span, form: 'range', low: quantity, high } : { ...span, form: 'exactly', quantity, tolerance };
  });

  readonly settingEnd = this.RULE(
    'settingEnd',
    (): { readonly high?: QuantityNode | undefined; readonly tolerance?: QuantityNode | undefined } =>
      this.OR<{ readonly high?: QuantityNode | undefined; readonly tolerance?: QuantityNode | undefined }>([
        {
          ALT: () => {
            this.CONSUME(t.PlusMinus);
            return { tolerance: this.wantQuantity(0) };
          },
        },
        {
          ALT: () => {
            this.CONSUME(k.to);
            return { high: this.wantQuantity(1) };
          },
        },
      ]),
  );

  readonly record = this.RULE('record', (): Record => {
    const start = this.start();
    this.head(0, k.record);
    const part = this.OPTION1(() => {
      this.CONSUME(k.part);
      return { text: this.wantText(3, 'what the part is called, in quotes,') };
    });
    if (part && !this.RECORDING_PHASE) return { type: 'record', start, end: this.end(start), part: true, ...part };
    const [first, ...others] = this.commaList(0, (occurrence) => this.subrule(occurrence, this.recordColumn), noWord);
    const at = this.OPTION(() => {
      this.CONSUME(k.at);
      return this.commaList(1, (occurrence) => this.wantText(occurrence, 'the name of a place, in quotes,'), noWord);
    });
    return { type: 'record', start, end: this.end(start), ...first, ...(others.length > 0 && { others }), at };
  });

  readonly recordColumn = this.RULE('recordColumn', (): RecordColumn => {
    const text = this.wantText(0, 'a text that says what is recorded');
    const unit = this.OPTION1(() => {
      this.CONSUME(k.in);
      const isBound = () => !this.at(k.at) || [k.least, k.most].includes(this.LA(2).tokenType);
      const bound = { GATE: isBound, DEF: () => this.SUBRULE(this.bound) };
      return { unit: this.wantUnit(0), bound: this.OPTION2(bound) };
    });
    return { text, ...unit };
  });
}
