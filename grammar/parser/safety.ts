/** Declarations of what holds for the equipment: supplies, hazards, rules, variants. */
import type { Broken, Condition, HarmNode, Hazard, Link, Rule, Source, Supply, Text, Variant } from '../syntax.ts';
import * as t from '../tokens.ts';
import { k } from '../tokens.ts';
import { Equipment } from './equipment.ts';
import { levelTokens } from './statements.ts';

type HazardBody = Pick<Hazard, 'noise' | 'harm' | 'level' | 'text' | 'protect' | 'source'>;
type RuleBody = Pick<Rule, 'trigger' | 'condition' | 'require' | 'because' | 'sources'>;

interface Trigger {
  readonly trigger?: Rule['trigger'];
  readonly condition?: Condition;
}

const variantStarts = [t.NumberText, t.Word];

export abstract class Safety extends Equipment {
  // -------------------------------------------------------------- supplies

  readonly supply = this.RULE('supply', (): Supply => {
    const start = this.start();
    const head = this.head(0, k.supply);
    const name = this.name(0, 'a name for the supply');
    const label = this.optionalText(0);
    const parts: Supply['parts'][number][] = [];
    const nextPart = (): void => {
      const part = this.OR<Source | Link>([
        { ALT: () => this.SUBRULE(this.source) },
        { ALT: () => this.SUBRULE(this.link) },
      ]);
      parts.push(part);
    };
    const lost = (broken: Broken): void => void parts.push(broken);
    this.inBraces(0, { what: 'This supply', head }, () => {
      this.listOf(1, nextPart, { starts: [k.source, k.link], what: '“source” or “link”', lost });
    });
    return { type: 'supply', start, end: this.end(start), name, label, parts };
  });

  readonly source = this.RULE('source', (): Source => {
    const start = this.start();
    this.head(0, k.source);
    const node = this.name(0, 'the name of a node');
    const when = this.optionalWhen(1);
    return { type: 'source', start, end: this.end(start), node, when };
  });

  readonly link = this.RULE('link', (): Link => {
    const start = this.start();
    this.head(0, k.link);
    const from = this.name(0, 'the name of a node');
    const ready = this.readyForAny([t.Arrow, t.BothWays], '“->” or “<->”');
    const both = ready && this.oneOf(0, [t.Arrow, t.BothWays]) === '<->';
    const to = this.name(1, 'the name of a node');
    const when = this.optionalWhen(1);
    return { type: 'link', start, end: this.end(start), from, both, to, when };
  });

  // -------------------------------------------------------------- hazards and rules

  readonly hazard = this.RULE('hazard', (): Hazard => {
    const start = this.start();
    const head = this.head(0, k.hazard);
    const name = this.name(0, 'a name for the hazard');
    const label = this.wantText(0, 'what the hazard is called, in quotes,');
    this.expect(1, k.while);
    const condition = this.SUBRULE(this.condition);
    let inside: HazardBody = {};
    this.inBraces(1, { what: 'This hazard', head }, () => {
      inside = this.SUBRULE(this.hazardBody);
      this.nothingMore();
    });
    return { type: 'hazard', start, end: this.end(start), name, label, condition, ...inside };
  });

  readonly hazardBody = this.RULE('hazardBody', (): HazardBody => {
    const noise = this.OPTION1(() => {
      this.CONSUME(k.level);
      return this.wantQuantity(1);
    });
    const harm = this.OPTION3(() => this.SUBRULE(this.harm));
    const wanted = '“danger”, “warning”, “caution” or “note”';
    const level = this.readyForAny(levelTokens, wanted) ? this.levelWord() : undefined;
    const text = this.wantText(2, 'the text of the admonition');
    const protect = this.OPTION2(() => {
      this.CONSUME(k.protect);
      return this.SUBRULE(this.condition);
    });
    const source = this.optionalSource(4);
    return { noise, harm, level, text, protect, source };
  });

  readonly harm = this.RULE('harm', (): HarmNode => {
    const start = this.start();
    const likelihood = this.oneOf<'will' | 'could'>(1, [k.will, k.could]);
    const outcomes = [k.kill, k.injure, k.damage];
    const ready = this.readyForAny(outcomes, '“kill”, “injure” or “damage”');
    const outcome = ready ? this.oneOf<'kill' | 'injure' | 'damage'>(2, outcomes) : undefined;
    return { type: 'harm', start, end: this.end(start), likelihood, outcome };
  });

  readonly rule = this.RULE('rule', (): Rule => {
    const start = this.start();
    const head = this.head(0, k.rule);
    const name = this.name(0, 'a name for the rule');
    const title = this.wantText(0, 'what the rule says, in quotes,');
    const each = this.OPTION((): Rule['each'] => {
      this.CONSUME(k.for);
      this.expect(2, k.each);
      const item = this.name(3, 'a name for the item of each round');
      this.expect(4, k.in);
      return { name: item, kind: this.name(5, 'the name of a kind') };
    });
    let inside: RuleBody = { because: [], sources: [] };
    this.inBraces(1, { what: 'This rule', head }, () => {
      inside = this.SUBRULE(this.ruleBody);
    });
    return { type: 'rule', start, end: this.end(start), name, title, each, ...inside };
  });

  readonly ruleBody = this.RULE('ruleBody', (): RuleBody => {
    const wanted = '“before”, “while”, “at end” or “at stop”';
    const when = this.readyForAny([k.before, k.while, k.at], wanted) ? this.SUBRULE(this.trigger) : undefined;
    this.expect(2, k.require);
    const require = this.SUBRULE(this.condition);
    const because: Text[] = [];
    const sources: Text[] = [];
    const nextReason = (): void => {
      const { list, text } = this.SUBRULE(this.reason);
      if (text) (list === 'because' ? because : sources).push(text);
    };
    this.listOf(3, nextReason, { starts: [k.because, k.source], what: '“because” or “source”' });
    return { ...when, require, because, sources };
  });

  readonly trigger = this.RULE(
    'trigger',
    (): Trigger =>
      this.OR<Trigger>([
        {
          ALT: () => {
            const trigger = this.oneOf<'before' | 'while'>(1, [k.before, k.while]);
            return { trigger, condition: this.SUBRULE(this.condition) };
          },
        },
        {
          ALT: () => {
            this.CONSUME(k.at);
            const ready = this.readyForAny([k.end, k.stop], '“end” or “stop”');
            return { trigger: ready ? `at ${this.oneOf<'end' | 'stop'>(2, [k.end, k.stop])}` : undefined };
          },
        },
      ]),
  );

  readonly reason = this.RULE('reason', () => {
    const list = this.oneHeadOf<'because' | 'source'>(0, [k.because, k.source]);
    return { list, text: this.wantText(0, 'a text in quotes') };
  });

  readonly variant = this.RULE('variant', (): Variant => {
    const start = this.start();
    this.head(0, k.variant);
    const name = this.name(0, 'a name for the variant');
    const wanted = 'a range of numbers, or a list of words,';
    const ready = this.startsNextSentence() ? this.missing({ words: wanted }) : this.readyForAny(variantStarts, wanted);
    const values = ready ? this.SUBRULE(this.variantValues) : { words: [] };
    return { type: 'variant', start, end: this.end(start), name, ...values };
  });

  readonly variantValues = this.RULE(
    'variantValues',
    (): Pick<Variant, 'from' | 'to' | 'words'> =>
      this.OR<Pick<Variant, 'from' | 'to' | 'words'>>([
        {
          ALT: () => {
            const from = this.number(0, 'a number');
            this.expect(1, k.to);
            return { from, to: this.number(2, 'a number'), words: [] };
          },
        },
        {
          ALT: () => {
            return { words: this.commaList(0, (occurrence) => this.state(occurrence, 'a word')) };
          },
        },
      ]),
  );
}
