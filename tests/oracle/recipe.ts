/**
 * Recipes of small random cards, as fast-check makes and shrinks them. A recipe names things by number; the printer takes each number modulo what there
 * is, so that every recipe prints as a card that binds.
 */
import * as fc from 'fast-check';

export interface ItemRecipe {
  readonly kind: 'valve' | 'pump' | 'lamp';
  readonly start: 'normal' | 'verify' | 'unknown' | 'assumed';
  readonly state: number;
  readonly may?: { readonly state: number; readonly when?: ConditionRecipe } | undefined;
  readonly leaves?: number | undefined;
}

export type ConditionRecipe =
  | { readonly type: 'state'; readonly item: number; readonly state: number }
  | { readonly type: 'quantified'; readonly every: boolean; readonly kind: number; readonly state: number }
  | { readonly type: 'bound'; readonly bound: number }
  | { readonly type: 'limit'; readonly limit: number }
  | { readonly type: 'reaches'; readonly supply: number; readonly node: number }
  | {
      readonly type: 'lasting';
      readonly item: number;
      readonly state: number;
      readonly atLeast: boolean;
      readonly time: number;
    }
  | { readonly type: 'not'; readonly term: ConditionRecipe }
  | { readonly type: 'and' | 'or'; readonly terms: readonly ConditionRecipe[] };

/** A condition, or a quoted question. */
export type AskedRecipe = ConditionRecipe | { readonly type: 'question' };

export type FlowRecipe =
  | { readonly type: 'go'; readonly target: number }
  | { readonly type: 'stop' }
  | { readonly type: 'finish' };
type Otherwise = FlowRecipe | undefined;

export interface SpanRecipe {
  readonly form: 'exact' | 'range' | 'at least';
  readonly time: number;
}

export type ActionRecipe =
  | { readonly type: 'set' | 'ensure'; readonly changes: readonly { readonly item: number; readonly state: number }[] }
  | { readonly type: 'check'; readonly asked: AskedRecipe; readonly otherwise: Otherwise }
  | { readonly type: 'read'; readonly bound: number | undefined; readonly otherwise: Otherwise }
  | {
      readonly type: 'bring';
      readonly bound: number;
      readonly within: number | undefined;
      readonly otherwise: Otherwise;
    }
  | {
      readonly type: 'run';
      readonly item: number;
      readonly state: number;
      readonly span: SpanRecipe;
      readonly watches: readonly WatchRecipe[];
    }
  | {
      readonly type: 'run-until';
      readonly item: number;
      readonly state: number;
      readonly until: ConditionRecipe;
      readonly within: number;
      readonly otherwise: Otherwise;
    }
  | { readonly type: 'wait'; readonly span: SpanRecipe }
  | {
      readonly type: 'wait-until';
      readonly until: ConditionRecipe;
      readonly within: number | undefined;
      readonly otherwise: Otherwise;
    };

export interface WatchRecipe {
  readonly bound: number;
  readonly within: number | undefined;
  readonly otherwise: Otherwise;
}

export type StatementRecipe =
  | {
      readonly type: 'step';
      readonly text: boolean;
      /** For which machines it is, where it is not for all. */
      readonly only: number | undefined;
      readonly takes: SpanRecipe | undefined;
      readonly actions: readonly ActionRecipe[];
    }
  | { readonly type: 'admonition'; readonly level: number }
  | {
      readonly type: 'if';
      readonly asked: AskedRecipe;
      readonly body: readonly StatementRecipe[];
      readonly otherwise: readonly StatementRecipe[] | undefined;
    }
  | {
      readonly type: 'repeat';
      readonly times: number;
      readonly until: AskedRecipe | undefined;
      readonly body: readonly StatementRecipe[];
      readonly otherwise: Otherwise;
    }
  /** A step whose check has steps of its own for where it fails, and what is done after it. */
  | {
      readonly type: 'mended';
      readonly takes: SpanRecipe | undefined;
      readonly asked: AskedRecipe;
      readonly body: readonly StatementRecipe[];
      readonly otherwise: Otherwise;
      readonly afterwards: ActionRecipe;
    }
  | { readonly type: 'together' | 'choose'; readonly parts: readonly (readonly StatementRecipe[])[] }
  | { readonly type: 'for-each'; readonly kind: number; readonly body: readonly StatementRecipe[] }
  | { readonly type: 'do'; readonly procedure: number; readonly argument: number }
  | { readonly type: 'keep'; readonly condition: ConditionRecipe; readonly otherwise: Otherwise }
  | FlowRecipe;

export type DutyRecipe =
  | { readonly type: 'longest'; readonly limit: number; readonly rest: number | undefined }
  | { readonly type: 'times'; readonly times: number; readonly rest: number }
  | { readonly type: 'window'; readonly times: number; readonly window: number };

export interface RuleRecipe {
  readonly trigger: 'before' | 'while' | 'at end' | 'at stop';
  readonly condition: ConditionRecipe;
  readonly require: ConditionRecipe;
}

export interface SupplyRecipe {
  readonly source: ConditionRecipe;
  readonly links: readonly (ConditionRecipe | undefined)[];
  readonly loop: boolean;
  readonly second: boolean;
  readonly backFeed: boolean;
  readonly needed: { readonly item: number; readonly state: number };
}

export interface ProcedureRecipe {
  /** A card of its own with what that assumes, and no procedure. */
  readonly assumes?: readonly { readonly item: number; readonly state: number }[] | undefined;
  readonly body: readonly StatementRecipe[];
}

export interface CardRecipe {
  readonly items: readonly ItemRecipe[];
  readonly starter: readonly DutyRecipe[] | undefined;
  readonly gauge: { readonly movedBy: number | undefined } | undefined;
  readonly supply: SupplyRecipe | undefined;
  readonly hazard: { readonly condition: ConditionRecipe; readonly protect: ConditionRecipe | undefined } | undefined;
  readonly rules: readonly RuleRecipe[];
  /** Each of them may do those before it. */
  readonly procedures: readonly ProcedureRecipe[];
  readonly stages: readonly (readonly StatementRecipe[])[];
  readonly whenStopped: readonly StatementRecipe[] | undefined;
  /** Ask how long an item has been in a state: then nothing drifts and nothing runs at once. */
  readonly lasting: boolean;
  /** Otherwise the starter may be under way when the card begins. */
  readonly startsIdle: boolean;
}

const small = fc.nat({ max: 11 });
/** There in so many of a hundred. */
const maybe = <T>(arbitrary: fc.Arbitrary<T>, percent = 50): fc.Arbitrary<T | undefined> =>
  fc.oneof({ weight: 100 - percent, arbitrary: fc.constant(undefined) }, { weight: percent, arbitrary });

const stateTerm = fc.record({ type: fc.constant('state' as const), item: small, state: small });

const term: fc.Arbitrary<ConditionRecipe> = fc.oneof(
  { weight: 8, arbitrary: stateTerm },
  {
    weight: 1,
    arbitrary: fc.record({ type: fc.constant('quantified' as const), every: fc.boolean(), kind: small, state: small }),
  },
  { weight: 2, arbitrary: fc.record({ type: fc.constant('bound' as const), bound: small }) },
  { weight: 1, arbitrary: fc.record({ type: fc.constant('limit' as const), limit: small }) },
  { weight: 1, arbitrary: fc.record({ type: fc.constant('reaches' as const), supply: small, node: small }) },
  {
    weight: 2,
    arbitrary: fc.record({
      type: fc.constant('lasting' as const),
      item: small,
      state: small,
      atLeast: fc.boolean(),
      time: small,
    }),
  },
);

const condition: fc.Arbitrary<ConditionRecipe> = fc.oneof(
  { weight: 6, arbitrary: term },
  { weight: 1, arbitrary: fc.record({ type: fc.constant('not' as const), term }) },
  {
    weight: 3,
    arbitrary: fc.record({
      type: fc.constantFrom('and' as const, 'or' as const),
      terms: fc.array(term, { minLength: 2, maxLength: 2 }),
    }),
  },
);

const asked: fc.Arbitrary<AskedRecipe> = fc.oneof(
  { weight: 3, arbitrary: condition },
  { weight: 1, arbitrary: fc.constant({ type: 'question' as const }) },
);

const flow: fc.Arbitrary<FlowRecipe> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ type: fc.constant('go' as const), target: fc.nat({ max: 40 }) }) },
  { weight: 1, arbitrary: fc.constant({ type: 'stop' as const }) },
  { weight: 1, arbitrary: fc.constant({ type: 'finish' as const }) },
);

const span: fc.Arbitrary<SpanRecipe> = fc.record({
  form: fc.oneof(
    { weight: 3, arbitrary: fc.constant('exact' as const) },
    { weight: 2, arbitrary: fc.constant('range' as const) },
    { weight: 1, arbitrary: fc.constant('at least' as const) },
  ),
  time: small,
});

const change = fc.record({ item: small, state: small });
const watch: fc.Arbitrary<WatchRecipe> = fc.record({ bound: small, within: maybe(small), otherwise: maybe(flow) });

const action: fc.Arbitrary<ActionRecipe> = fc.oneof(
  {
    weight: 8,
    arbitrary: fc.record({
      type: fc.constant('set' as const),
      changes: fc.array(change, { minLength: 1, maxLength: 2 }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant('ensure' as const),
      changes: fc.array(change, { minLength: 1, maxLength: 1 }),
    }),
  },
  { weight: 3, arbitrary: fc.record({ type: fc.constant('check' as const), asked, otherwise: maybe(flow) }) },
  {
    weight: 1,
    arbitrary: fc.record({ type: fc.constant('read' as const), bound: maybe(small, 75), otherwise: maybe(flow) }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant('bring' as const),
      bound: small,
      within: maybe(small),
      otherwise: maybe(flow),
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      type: fc.constant('run' as const),
      item: small,
      state: small,
      span,
      watches: fc.array(watch, { maxLength: 2 }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant('run-until' as const),
      item: small,
      state: small,
      until: condition,
      within: small,
      otherwise: maybe(flow),
    }),
  },
  { weight: 3, arbitrary: fc.record({ type: fc.constant('wait' as const), span }) },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant('wait-until' as const),
      until: condition,
      within: maybe(small),
      otherwise: maybe(flow),
    }),
  },
);

const step: fc.Arbitrary<StatementRecipe> = fc.record({
  type: fc.constant('step' as const),
  text: fc.oneof({ weight: 3, arbitrary: fc.constant(false) }, { weight: 1, arbitrary: fc.constant(true) }),
  only: maybe(small, 5),
  takes: maybe(span),
  actions: fc.array(action, { minLength: 1, maxLength: 2 }),
});

const call = fc.record({ type: fc.constant('do' as const), procedure: small, argument: small });

/** Blocks within blocks, two deep at the most. */
function statements(depth: number, minLength: number, maxLength: number): fc.Arbitrary<readonly StatementRecipe[]> {
  return fc.array(statement(depth), { minLength, maxLength });
}

function statement(depth: number): fc.Arbitrary<StatementRecipe> {
  const simple = [
    { weight: 12, arbitrary: step },
    { weight: 2, arbitrary: fc.record({ type: fc.constant('admonition' as const), level: fc.nat({ max: 3 }) }) },
    { weight: 1, arbitrary: call },
    { weight: 1, arbitrary: fc.record({ type: fc.constant('keep' as const), condition, otherwise: maybe(flow) }) },
    { weight: 1, arbitrary: flow as fc.Arbitrary<StatementRecipe> },
  ];
  if (depth === 0) return fc.oneof(...simple);
  const inner = statements(depth - 1, 1, 2);
  return fc.oneof(
    ...simple,
    {
      weight: 3,
      arbitrary: fc.record({ type: fc.constant('if' as const), asked, body: inner, otherwise: maybe(inner) }),
    },
    {
      weight: 2,
      arbitrary: fc.record({
        type: fc.constant('repeat' as const),
        times: fc.integer({ min: 1, max: 3 }),
        until: maybe(asked),
        body: inner,
        otherwise: maybe(flow),
      }),
    },
    {
      weight: 1,
      arbitrary: fc.record({
        type: fc.constantFrom('together' as const, 'choose' as const),
        parts: fc.array(inner, { minLength: 2, maxLength: 2 }),
      }),
    },
    { weight: 1, arbitrary: fc.record({ type: fc.constant('for-each' as const), kind: small, body: inner }) },
    {
      weight: 2,
      arbitrary: fc.record({
        type: fc.constant('mended' as const),
        takes: maybe(span),
        asked,
        body: inner,
        otherwise: maybe(flow),
        afterwards: action,
      }),
    },
  );
}

const item: fc.Arbitrary<ItemRecipe> = fc.record({
  kind: fc.oneof(
    { weight: 4, arbitrary: fc.constant('valve' as const) },
    { weight: 3, arbitrary: fc.constant('pump' as const) },
    { weight: 1, arbitrary: fc.constant('lamp' as const) },
  ),
  start: fc.oneof(
    { weight: 5, arbitrary: fc.constant('normal' as const) },
    { weight: 4, arbitrary: fc.constantFrom('verify' as const, 'unknown' as const, 'assumed' as const) },
  ),
  state: small,
  may: maybe(fc.record({ state: small, when: maybe(stateTerm as fc.Arbitrary<ConditionRecipe>) }), 12),
  leaves: maybe(small, 20),
});

const duty: fc.Arbitrary<DutyRecipe> = fc.oneof(
  fc.record({ type: fc.constant('longest' as const), limit: small, rest: maybe(small) }),
  fc.record({ type: fc.constant('times' as const), times: fc.integer({ min: 1, max: 3 }), rest: small }),
  fc.record({ type: fc.constant('window' as const), times: fc.integer({ min: 1, max: 3 }), window: small }),
);

const rule: fc.Arbitrary<RuleRecipe> = fc.record({
  trigger: fc.constantFrom('before' as const, 'while' as const, 'at end' as const, 'at stop' as const),
  condition,
  require: condition,
});

const supply: fc.Arbitrary<SupplyRecipe> = fc.record({
  source: stateTerm as fc.Arbitrary<ConditionRecipe>,
  links: fc.array(maybe(stateTerm as fc.Arbitrary<ConditionRecipe>), { minLength: 4, maxLength: 4 }),
  loop: fc.boolean(),
  second: fc.boolean(),
  backFeed: fc.boolean(),
  needed: change,
});

export const cardRecipe: fc.Arbitrary<CardRecipe> = fc.record({
  items: fc.array(item, { minLength: 1, maxLength: 3 }),
  starter: maybe(fc.array(duty, { minLength: 1, maxLength: 2 }), 40),
  gauge: maybe(fc.record({ movedBy: maybe(small, 30) })),
  supply: maybe(supply, 30),
  hazard: maybe(fc.record({ condition, protect: maybe(condition) })),
  rules: fc.array(rule, { minLength: 0, maxLength: 3 }),
  procedures: maybe(fc.record({ body: statements(1, 1, 2) }), 30).map((one) => (one ? [one] : [])),
  stages: fc.array(statements(2, 1, 4), { minLength: 1, maxLength: 3 }),
  whenStopped: maybe(statements(0, 1, 2), 30),
  lasting: fc.oneof({ weight: 5, arbitrary: fc.constant(false) }, { weight: 1, arbitrary: fc.constant(true) }),
  startsIdle: fc.oneof({ weight: 5, arbitrary: fc.constant(true) }, { weight: 1, arbitrary: fc.constant(false) }),
});

/** A block of lanes, some of them with lanes of their own. */
function lanes(depth: number): fc.Arbitrary<StatementRecipe> {
  const simple = { weight: 6, arbitrary: statement(0) };
  const branch = fc.record({
    type: fc.constant('if' as const),
    asked,
    body: fc.oneof(statements(0, 1, 1), fc.constant([{ type: 'finish' as const }])),
    otherwise: maybe(statements(0, 1, 1)),
  });
  const inner = depth > 0 ? [{ weight: 2, arbitrary: lanes(depth - 1) }] : [];
  const part = fc.array(fc.oneof(simple, { weight: 1, arbitrary: branch }, ...inner), { minLength: 1, maxLength: 2 });
  return fc.record({
    type: fc.constant('together' as const),
    parts: fc.array(part, { minLength: 2, maxLength: 2 }),
  });
}

/** Cards of which most is done in lanes, with an item that has duties: among the other cards both are rare together. */
export const lanesRecipe: fc.Arbitrary<CardRecipe> = fc.record({
  items: fc.array(item, { minLength: 2, maxLength: 3 }),
  starter: fc.array(duty, { minLength: 1, maxLength: 2 }),
  gauge: maybe(fc.record({ movedBy: maybe(small, 30) }), 20),
  supply: fc.constant(undefined),
  hazard: fc.constant(undefined),
  rules: fc.constant([]),
  procedures: fc.constant([]),
  stages: fc.tuple(step, lanes(1), step).map((list) => [list]),
  whenStopped: maybe(statements(0, 1, 1), 20),
  lasting: fc.oneof({ weight: 5, arbitrary: fc.constant(false) }, { weight: 1, arbitrary: fc.constant(true) }),
  startsIdle: fc.oneof({ weight: 5, arbitrary: fc.constant(true) }, { weight: 1, arbitrary: fc.constant(false) }),
});

/** Cards of which most is done in procedures that are done several times, some of them in one another. */
export const callsRecipe: fc.Arbitrary<CardRecipe> = fc.record({
  items: fc.array(item, { minLength: 1, maxLength: 3 }),
  starter: maybe(fc.array(duty, { minLength: 1, maxLength: 2 })),
  gauge: maybe(fc.record({ movedBy: maybe(small, 30) }), 20),
  supply: fc.constant(undefined),
  hazard: maybe(fc.record({ condition, protect: maybe(condition) }), 30),
  rules: fc.array(rule, { minLength: 0, maxLength: 2 }),
  procedures: fc.tuple(
    fc.record({ assumes: maybe(fc.array(change, { minLength: 1, maxLength: 2 }), 30), body: statements(1, 1, 2) }),
    fc.record({ body: calls(1) }),
  ),
  stages: calls(2).map((list) => [list]),
  whenStopped: maybe(statements(0, 1, 1), 20),
  lasting: fc.oneof({ weight: 5, arbitrary: fc.constant(false) }, { weight: 1, arbitrary: fc.constant(true) }),
  startsIdle: fc.oneof({ weight: 5, arbitrary: fc.constant(true) }, { weight: 1, arbitrary: fc.constant(false) }),
});

function calls(depth: number): fc.Arbitrary<readonly StatementRecipe[]> {
  const some = fc.oneof(
    { weight: 3, arbitrary: call },
    { weight: 2, arbitrary: step },
    { weight: 1, arbitrary: statement(depth) },
  );
  return fc.array(some, { minLength: 2, maxLength: 3 });
}
