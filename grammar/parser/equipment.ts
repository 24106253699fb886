/** Declarations of what the equipment is: kinds, items, gauges. */
import type { TokenType } from 'chevrotain';
import type {
  Duty,
  Gauge,
  GaugePart,
  ItemDeclaration,
  ItemPart,
  Kind,
  KindState,
  Limit,
  Reads,
  Text,
  Use,
} from '../syntax.ts';
import * as t from '../tokens.ts';
import { k } from '../tokens.ts';
import { boundStarts } from './quantities.ts';
import { Statements } from './statements.ts';

type LimitRow = Limit['rows'][number];

/** What may follow the name of an item where it is declared. */
const itemNameEnds: ReadonlySet<TokenType> = new Set([t.Comma, t.Colon]);
const gaugePartStarts: readonly TokenType[] = [k.reads, k.limit, k.moved];

export abstract class Equipment extends Statements {
  readonly use = this.RULE('use', (): Use => {
    const start = this.start();
    this.head(0, k.use);
    const path = this.wantOneText(0, 'the name of the file, in quotes,');
    return { type: 'use', start, end: this.end(start), path };
  });

  readonly kind = this.RULE('kind', (): Kind => {
    const start = this.start();
    const head = this.head(0, k.kind);
    const name = this.name(0, 'a name for the kind');
    const seen = this.OPTION(() => this.CONSUME(k.seen)) !== undefined;
    let states: KindState[] = [];
    this.inBraces(0, { what: 'This kind', head }, () => {
      states = this.commaList(0, (occurrence) => this.subrule(occurrence, this.kindState));
      this.nothingMore();
    });
    return { type: 'kind', start, end: this.end(start), name, seen, states };
  });

  readonly kindState = this.RULE('kindState', (): KindState | undefined => {
    const start = this.start();
    const name = this.word(0, 'a state');
    let printed: Text | undefined;
    let wording: Text | undefined;
    const others: Text[] = [];
    this.OPTION1(() => {
      this.CONSUME(k.printed);
      printed = this.wantOneText(0, 'what the placard says, in quotes,');
    });
    this.OPTION(() => {
      wording = this.SUBRULE(this.wording);
      this.MANY(() => {
        this.CONSUME(k.or);
        if (this.ready(t.QuotedText, 'another sentence in quotes')) others.push(this.SUBRULE1(this.wording));
      });
    });
    const further = { ...(printed && { printed }), ...(others.length > 0 && { others }) };
    return name && { type: 'kind-state', start, end: this.end(start), name, wording, ...further };
  });

  // -------------------------------------------------------------- items

  readonly item = this.RULE('item', (): ItemDeclaration => {
    const start = this.start();
    this.head(0, k.item);
    const names = this.commaList(
      0,
      (occurrence) => this.subrule(occurrence, this.itemName),
      (next, afterNext) => this.isPlainWord(next) && itemNameEnds.has(afterNext.tokenType),
    );
    this.expect(0, t.Colon);
    const kind = this.name(0, 'the name of a kind');
    const label = this.optionalText(2);
    const parts: ItemPart[] = [];
    this.MANY3(() => parts.push(this.SUBRULE(this.itemPart)));
    return { type: 'item', start, end: this.end(start), names, kind, label, parts };
  });

  readonly itemName = this.RULE('itemName', (): ItemDeclaration['names'][number] | undefined => {
    const name = this.name(0, 'a name for the item');
    const label = this.optionalText(0);
    return name && { name, label };
  });

  readonly itemPart = this.RULE('itemPart', (): ItemPart => {
    const start = this.start();
    return this.OR<ItemPart>([
      {
        ALT: () => {
          this.head(0, k.at);
          const text = this.wantText(0, 'the place in quotes');
          return { type: 'at', start, end: this.end(start), text };
        },
      },
      {
        ALT: () => {
          this.head(1, k.normally);
          const state = this.state(1);
          const verify = this.OPTION1(() => this.CONSUME(k.verify)) !== undefined;
          return { type: 'normally', start, end: this.end(start), state, verify };
        },
      },
      {
        ALT: () => {
          this.head(2, k.may);
          const state = this.state(2);
          const when = this.optionalWhen(2);
          return { type: 'may', start, end: this.end(start), state, when };
        },
      },
      {
        ALT: () => {
          this.head(3, k.reduces);
          const quantity = this.wantQuantity(3);
          return { type: 'reduces', start, end: this.end(start), quantity };
        },
      },
      {
        ALT: () => {
          this.head(4, k.needs);
          const supply = this.name(4, 'the name of a supply');
          this.expect(4, k.while);
          const state = this.state(5);
          return { type: 'needs', start, end: this.end(start), supply, state };
        },
      },
      {
        ALT: () => {
          const duties: Duty[] = [];
          this.inBraces(6, { what: 'This list of duties' }, () => {
            this.listOf(6, () => duties.push(this.SUBRULE(this.duty)), { starts: [k.duty], what: '“duty”' });
          });
          return { type: 'duties', start, end: this.end(start), duties };
        },
      },
    ]);
  });

  protected optionalWhen(idx: number) {
    return this.option(idx, () => {
      this.consume(idx, k.when);
      return this.subrule(idx, this.condition);
    });
  }

  readonly duty = this.RULE('duty', (): Duty => {
    const start = this.start();
    this.head(0, k.duty);
    const state = this.word(0, 'a state');
    const plate = this.OPTION(() => this.SUBRULE(this.plate));
    if (plate && !this.RECORDING_PHASE) return { type: 'duty', start, end: this.end(start), state, ...plate };
    this.expect(0, k.at);
    this.expect(0, k.most);
    const allowed = this.ready(t.NumberText, 'a time or a number of times') ? this.SUBRULE(this.allowance) : undefined;
    return { type: 'duty', start, end: this.end(start), state, ...allowed };
  });

  readonly plate = this.RULE('plate', (): Pick<Duty, 'plate' | 'rest'> => {
    this.CONSUME(k.rated);
    const plate = this.wantOneText(0, 'what stands on the plate, in quotes,');
    return { plate, rest: this.OPTION(() => this.SUBRULE(this.thenRest)) };
  });

  readonly allowance = this.RULE(
    'allowance',
    (): Pick<Duty, 'longest' | 'times' | 'rest' | 'window'> =>
      this.OR<Pick<Duty, 'longest' | 'times' | 'rest' | 'window'>>([
        {
          ALT: () => {
            const times = this.number(0, 'a number');
            this.CONSUME(k.times);
            const wanted = '“, then rest” and a time (or “in” and a time)';
            const ready = this.readyForAny([t.Comma, k.in], wanted);
            return { times, ...(ready ? this.SUBRULE(this.restOrWindow) : undefined) };
          },
        },
        {
          ALT: () => {
            const longest = this.wantDuration(0);
            return { longest, rest: this.OPTION(() => this.SUBRULE(this.thenRest)) };
          },
        },
      ]),
  );

  readonly restOrWindow = this.RULE(
    'restOrWindow',
    (): Pick<Duty, 'rest' | 'window'> =>
      this.OR<Pick<Duty, 'rest' | 'window'>>([
        { ALT: () => ({ rest: this.SUBRULE(this.thenRest) }) },
        {
          ALT: () => {
            this.CONSUME(k.in);
            return { window: this.wantDuration(0) };
          },
        },
      ]),
  );

  readonly thenRest = this.RULE('thenRest', () => {
    this.CONSUME(t.Comma);
    this.expect(0, k.then);
    this.expect(0, k.rest);
    return this.wantDuration(0);
  });

  // -------------------------------------------------------------- gauges

  readonly gauge = this.RULE('gauge', (): Gauge => {
    const start = this.start();
    const head = this.head(0, k.gauge);
    const name = this.name(0, 'a name for the gauge');
    const label = this.optionalText(0);
    this.expect(1, k.in);
    const unit = this.wantUnit(0);
    const difference = this.OPTION1(() => this.SUBRULE(this.difference));
    const at = this.OPTION2(() => {
      this.CONSUME(k.at);
      return this.wantText(2, 'the place in quotes');
    });
    const parts: GaugePart[] = [];
    this.unitMeant = unit?.text;
    this.OPTION3(() => {
      this.inBraces(3, { what: 'This gauge', head }, () => {
        this.listOf(0, () => parts.push(this.SUBRULE(this.gaugePart)), {
          starts: gaugePartStarts,
          what: '“reads”, “limit” or “moved by”',
          lost: (broken) => parts.push(broken),
        });
      });
    });
    this.unitMeant = undefined;
    return { type: 'gauge', start, end: this.end(start), name, label, unit, difference, at, parts };
  });

  readonly difference = this.RULE('difference', (): Gauge['difference'] => {
    this.CONSUME(t.Equals);
    const left = this.name(0, 'the name of a gauge');
    const ready = this.readyForAny([t.Minus, t.Plus], '“-” or “+”, with a space on either side,');
    const sign = ready ? this.oneOf<'-' | '+'>(0, [t.Minus, t.Plus]) : '-';
    const right = this.name(1, 'the name of a gauge');
    return left && { left, sign, right };
  });

  readonly gaugePart = this.RULE(
    'gaugePart',
    (): GaugePart =>
      this.OR<GaugePart>([
        { ALT: () => this.SUBRULE(this.reads) },
        { ALT: () => this.SUBRULE(this.limit) },
        { ALT: () => this.SUBRULE(this.moved) },
      ]),
  );

  readonly reads = this.RULE('reads', (): Reads => {
    const start = this.start();
    this.head(0, k.reads);
    const from = this.number(0, 'the lowest number of the scale');
    this.expect(0, k.to);
    const to = this.number(1, 'the highest number of the scale');
    const by = this.OPTION(() => {
      this.CONSUME(k.by);
      return this.number(2, 'the step from mark to mark');
    });
    return { type: 'reads', start, end: this.end(start), from, to, by };
  });

  readonly limit = this.RULE('limit', (): Limit => {
    const start = this.start();
    this.head(0, k.limit);
    const name = this.name(0, 'a name for the limit');
    const wanted = 'a bound, such as “at least 24 V” or “27 V to 29 V”,';
    const set = this.readyForAny([...boundStarts, k.by], wanted) ? this.SUBRULE(this.boundOrTable) : undefined;
    const source = this.optionalSource(1);
    return {
      type: 'limit',
      start,
      end: this.end(start),
      name,
      bound: set?.bound,
      byGauge: set?.byGauge,
      rows: set?.rows ?? [],
      source,
    };
  });

  readonly boundOrTable = this.RULE(
    'boundOrTable',
    (): Partial<Limit> =>
      this.OR<Partial<Limit>>([
        { ALT: () => this.SUBRULE(this.limitTable) },
        { ALT: () => ({ bound: this.SUBRULE(this.bound) }) },
      ]),
  );

  readonly limitTable = this.RULE('limitTable', (): Pick<Limit, 'byGauge' | 'rows'> => {
    const head = this.CONSUME(k.by);
    const byGauge = this.name(0, 'the name of the other gauge');
    let rows: LimitRow[] = [];
    this.inBraces(0, { what: 'This limit', head }, () => {
      rows = this.commaList(
        0,
        (occurrence) => this.subrule(occurrence, this.limitRow),
        () => this.atAny(boundStarts),
      );
      this.nothingMore();
    });
    return { byGauge, rows };
  });

  readonly limitRow = this.RULE('limitRow', (): LimitRow | undefined => {
    const { unitMeant } = this;
    this.unitMeant = undefined;
    const when = this.wantBound(0, 'a bound of the other gauge');
    this.unitMeant = unitMeant;
    this.expect(0, t.Colon);
    const bound = this.wantBound(1);
    return when && { when, bound };
  });

  readonly moved = this.RULE('moved', (): GaugePart => {
    const start = this.start();
    this.head(0, k.moved);
    this.expect(0, k.by);
    const by = this.names(0, 'the name of an item');
    return { type: 'moved', start, end: this.end(start), by };
  });
}
