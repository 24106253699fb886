/** Steps: who does what, with what in hand. */
import type { TokenType } from 'chevrotain';
import * as messages from '../messages.ts';
import type { Accept, Sign, Step, StepPart } from '../syntax.ts';
import * as t from '../tokens.ts';
import { k } from '../tokens.ts';
import { Actions, actionStarts } from './actions.ts';
import { furthestLookForBrace, nameOf, pieceOf } from './recovering.ts';

/** What a step goes on with after `step`. */
export const stepGoesOn: readonly TokenType[] = [
  k.by,
  k.inspected,
  k.takes,
  k.see,
  k.source,
  k.only,
  t.OpenBrace,
  ...actionStarts,
];
const actionListStarts: readonly TokenType[] = [...actionStarts, k.sign, k.accept];

type StepActions = Pick<Step, 'actions' | 'braces'>;

export abstract class Steps extends Actions {
  /** Where the block begins that is being read. */
  protected blockStart = 0;

  readonly step = this.RULE('step', (): Step => {
    const start = this.start();
    this.head(0, k.step);
    const label = this.OPTION({
      GATE: () => this.LA(2).tokenType === t.Colon,
      DEF: () => {
        const name = nameOf(this.CONSUME(t.Name));
        this.CONSUME(t.Colon);
        return name;
      },
    });
    const parts: StepPart[] = [];
    const readParts = (): void => this.MANY(() => parts.push(this.SUBRULE(this.stepPart)));
    readParts();
    while (this.mendStrayWord(stepGoesOn)) readParts();
    const done = this.SUBRULE(this.stepActions);
    return { type: 'step', start, end: this.end(start), label, parts, ...done };
  });

  private readonly stepPartForms = [
    { ALT: () => this.SUBRULE(this.text) },
    { ALT: () => this.SUBRULE(this.byRole) },
    { ALT: () => this.SUBRULE(this.inspectedBy) },
    { ALT: () => this.SUBRULE(this.takes) },
    { ALT: () => this.SUBRULE(this.see) },
    { ALT: () => this.SUBRULE(this.fromSource) },
    { ALT: () => this.SUBRULE(this.only) },
  ];

  readonly stepPart = this.RULE('stepPart', (): StepPart => this.OR<StepPart>(this.stepPartForms));

  readonly byRole = this.RULE('byRole', (): StepPart => {
    const start = this.start();
    this.CONSUME(k.by);
    const role = this.name(0, 'the name of a role');
    return { type: 'by', start, end: this.end(start), role };
  });

  readonly inspectedBy = this.RULE('inspectedBy', (): StepPart => {
    const start = this.start();
    this.CONSUME(k.inspected);
    this.expect(0, k.by);
    const role = this.name(0, 'the name of a role');
    return { type: 'inspected', start, end: this.end(start), role };
  });

  readonly takes = this.RULE('takes', (): StepPart => {
    const start = this.start();
    this.CONSUME(k.takes);
    const span = this.wantSpan(0);
    return { type: 'takes', start, end: this.end(start), span };
  });

  readonly see = this.RULE('see', (): StepPart => {
    const start = this.start();
    this.CONSUME(k.see);
    const text = this.wantOneText(1, 'a text that says where to look');
    return { type: 'see', start, end: this.end(start), text };
  });

  readonly fromSource = this.RULE('fromSource', (): StepPart => {
    const start = this.start();
    this.CONSUME(k.source);
    const text = this.wantOneText(1, 'what it comes from, in quotes,');
    return { type: 'from-source', start, end: this.end(start), text };
  });

  readonly only = this.RULE('only', (): StepPart => {
    const start = this.start();
    this.CONSUME(k.only);
    const which = this.SUBRULE(this.which);
    return { type: 'only', start, end: this.end(start), which };
  });

  private readonly stepActionForms = [
    { ALT: () => this.SUBRULE(this.oneAction) },
    { ALT: () => this.SUBRULE(this.actionsInBraces) },
  ];

  /** One action, or several in braces, or none. */
  readonly stepActions = this.RULE(
    'stepActions',
    (): StepActions => this.OPTION(() => this.OR<StepActions>(this.stepActionForms)) ?? { actions: [] },
  );

  readonly actionsInBraces = this.RULE('actionsInBraces', (): StepActions => {
    const start = this.start();
    let actions: StepActions['actions'] = [];
    this.inBraces(0, { what: 'This step' }, () => {
      actions = this.SUBRULE(this.actionList);
    });
    return { actions, braces: { start, end: this.end(start) } };
  });

  readonly actionList = this.RULE('actionList', (): Step['actions'][number][] => {
    const actions: Step['actions'][number][] = [];
    this.listOf(0, () => actions.push(this.SUBRULE(this.actionInBraces)), {
      starts: actionListStarts,
      what: 'an action, such as “set” or “check”',
      lost: (broken) => actions.push(broken),
    });
    return actions;
  });

  /** The one action of a step; or the first of several whose opening brace was left out. */
  readonly oneAction = this.RULE('oneAction', (): StepActions => {
    const first = pieceOf(this.LA(1));
    const action = this.SUBRULE(this.action);
    if (this.RECORDING_PHASE || !this.isBraceMissingBefore(first.start)) return { actions: [action] };
    this.report(messages.missingBefore('{', first, 'The actions of this step have a “}” but no “{”.'));
    const actions = [action, ...this.SUBRULE(this.actionList)];
    this.surplusBraces--;
    this.SKIP_TOKEN();
    return { actions, braces: { start: first.start, end: this.end(first.start) } };
  });

  /** Whether a closing brace that has no opening one stands where the braces of this step would end. */
  private isBraceMissingBefore(start: number): boolean {
    if (this.surplusBraces <= 0 || this.onOneLine(this.blockStart, start)) return false;
    for (let ahead = 1; ahead <= furthestLookForBrace; ahead++) {
      const next = this.LA(ahead);
      if (this.isFirstOnLine(next) || next.tokenType === t.OpenBrace) return false;
      if (next.tokenType === t.CloseBrace) return true;
    }
    return false;
  }

  private readonly partsInBraces = [
    { ALT: () => this.SUBRULE(this.action) },
    { ALT: () => this.SUBRULE(this.sign) },
    { ALT: () => this.SUBRULE(this.accept) },
  ];

  readonly actionInBraces = this.RULE('actionInBraces', (): Step['actions'][number] =>
    this.OR<Step['actions'][number]>(this.partsInBraces),
  );

  readonly sign = this.RULE('sign', (): Sign => {
    const start = this.start();
    this.head(0, k.sign);
    const role = this.name(0, 'the name of a role');
    const independent = this.OPTION2(() => this.CONSUME(k.independent)) !== undefined;
    const text = this.optionalText(0);
    return { type: 'sign', start, end: this.end(start), role, independent, text };
  });

  readonly accept = this.RULE('accept', (): Accept => {
    const start = this.start();
    this.head(0, k.accept);
    const group = this.word(0, 'the code of a finding');
    this.expect(0, t.Dot);
    const rest = this.word(1, 'the rest of the code');
    const code = group &&
      rest && { type: 'name' as const, text: `${group.text}.${rest.text}`, start: group.start, end: rest.end };
    this.expect(0, k.because);
    const because = this.wantText(0, 'a reason in quotes');
    const by = this.OPTION1(() => {
      this.CONSUME1(k.by);
      return this.wantText(1, 'the name of whoever accepts it, in quotes');
    });
    return { type: 'accept', start, end: this.end(start), code, because, by };
  });
}
