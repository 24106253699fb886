/** Card models by hand, for tests of what comes after binding. Each thing gets a place of its own. */
import type {
  Action,
  Bound,
  Card,
  Check,
  Condition,
  Duty,
  Equipment,
  Flow,
  Gauge,
  Hazard,
  Item,
  Kind,
  Label,
  Limit,
  Role,
  Sign,
  Stage,
  Statement,
  Step,
  Watch,
  Words,
} from '../../shared/card.ts';
import { exact } from '../../shared/exact.ts';
import { interval } from '../../shared/interval.ts';
import { toBase } from '../../shared/quantity.ts';
import type { Place } from '../../shared/text.ts';
import { unit } from '../../shared/units.ts';

let next = 0;

export function place(length = 5): Place {
  next += 10;
  return { file: 'test.card', start: next, end: next + length };
}

export const words = (text: string): Words => ({ text, place: place() });
export const label = (name: string): Label => ({ name, place: place() });
export const role = (name: string, text = name, qualified?: string): Role => ({
  name,
  label: text,
  place: place(),
  ...(qualified && { qualified }),
});

/** `kind('valve', { closed: 'Close {}', open: 'Open {}' })` */
export function kind(name: string, states: Readonly<Record<string, string | undefined>>, seen = false): Kind {
  const all = Object.entries(states).map(([state, wording]) => ({
    name: state,
    place: place(),
    ...(wording && { wording }),
  }));
  return { name, seen, states: all, place: place() };
}

export function stateOf(of: Item | Kind, state: string): number {
  const states = 'states' in of ? of.states : of.kind.states;
  return states.findIndex(({ name }) => name === state);
}

export function item(name: string, of: Kind, text: string, more: Partial<Item> & { normal?: string } = {}): Item {
  const { normal, ...rest } = more;
  return {
    id: 0,
    name,
    label: text,
    kind: of,
    verify: false,
    may: [],
    needs: [],
    duties: [],
    place: place(),
    ...(normal && { normally: stateOf(of, normal) }),
    ...rest,
  };
}

export const longest = (state: number, limit: number, rest?: number): Duty => ({
  type: 'longest',
  state,
  limit: exact(limit),
  place: place(),
  ...(rest && { rest: exact(rest) }),
});
export const timesThenRest = (state: number, times: number, rest: number): Duty => ({
  type: 'times-then-rest',
  state,
  times,
  rest: exact(rest),
  place: place(),
});

export function gauge(name: string, symbol: string, text: string, more: Partial<Gauge> = {}): Gauge {
  return { id: 0, name, label: text, unit: unit(symbol), limits: [], place: place(), ...more };
}

const quantity = (value: number | string, symbol: string) => ({ value: exact(value), unit: unit(symbol) });

export function atLeast(value: number | string, symbol: string): Bound {
  const low = quantity(value, symbol);
  return { interval: interval(toBase(low)), low, form: 'at least', place: place() };
}

export function atMost(value: number | string, symbol: string): Bound {
  const high = quantity(value, symbol);
  return { interval: interval(undefined, toBase(high)), high, form: 'at most', place: place() };
}

export function range(from: number | string, to: number | string, symbol: string): Bound {
  const low = quantity(from, symbol);
  const high = quantity(to, symbol);
  return { interval: interval(toBase(low), toBase(high)), low, high, form: 'range', place: place() };
}

export function limit(name: string, of: Gauge, bound: Bound): Limit {
  return { name, gauge: of, bound, place: place() };
}

export const reading = (of: Gauge, bound: Bound): Condition => ({ type: 'bound', gauge: of, bound, place: place() });
export const within = (of: Gauge, named: Limit): Condition => ({
  type: 'limit',
  gauge: of,
  limit: named,
  place: place(),
});
export const is = (of: Item, state: string): Condition => ({
  type: 'state',
  item: of,
  state: stateOf(of, state),
  place: place(),
});
export const and = (...terms: Condition[]): Condition => ({ type: 'and', terms, place: place() });
export const or = (...terms: Condition[]): Condition => ({ type: 'or', terms, place: place() });
export const not = (term: Condition): Condition => ({ type: 'not', term, place: place() });

export const goTo = (target: Label): Flow => ({ type: 'go', target, place: place() });
export const stop = (text: string): Flow => ({ type: 'stop', text, place: place() });
export const finish = (): Flow => ({ type: 'finish', place: place() });

export const set = (...changes: readonly (readonly [Item, string])[]): Action => setting('set', changes);
export const ensure = (...changes: readonly (readonly [Item, string])[]): Action => setting('ensure', changes);

function setting(type: 'set' | 'ensure', changes: readonly (readonly [Item, string])[]): Action {
  return {
    type,
    changes: changes.map(([of, state]) => ({ item: of, state: stateOf(of, state), place: place() })),
    place: place(),
  };
}

export const check = (asked: Condition | string, otherwise?: Flow): Check => ({
  type: 'check',
  place: place(),
  ...(typeof asked === 'string' ? { question: words(asked) } : { condition: asked }),
  ...(otherwise && { otherwise }),
});
export const read = (of: Gauge, asked?: Condition, otherwise?: Flow): Action => ({
  type: 'read',
  gauge: of,
  place: place(),
  ...(asked && { asked }),
  ...(otherwise && { otherwise }),
});
export const bring = (of: Gauge, asked: Condition, seconds?: number): Action => ({
  type: 'bring',
  gauge: of,
  asked,
  place: place(),
  ...(seconds && { within: exact(seconds) }),
});
/** Without `most` the time is exactly `least`; `unknown` is from there to no known end. */
export const span = (least: number, most: number | 'unknown' = least) => ({
  least: exact(least),
  place: place(),
  ...(most !== 'unknown' && { most: exact(most) }),
});
export const run = (of: Item, state: string, seconds: number, watches: readonly Watch[] = []): Action => ({
  type: 'run',
  item: of,
  state: stateOf(of, state),
  length: span(seconds),
  watches,
  place: place(),
});
export const runUntil = (
  of: Item,
  state: string,
  condition: Condition,
  seconds?: number,
  otherwise?: Flow,
): Action => ({
  type: 'run',
  item: of,
  state: stateOf(of, state),
  until: {
    condition,
    ...(seconds !== undefined && { within: exact(seconds) }),
    place: place(),
    ...(otherwise && { otherwise }),
  },
  watches: [],
  place: place(),
});
export const watch = (of: Gauge, form: Watch['form'], asked: Condition, seconds?: number, otherwise?: Flow): Watch => ({
  type: 'watch',
  gauge: of,
  form,
  asked,
  place: place(),
  ...(seconds && { within: exact(seconds) }),
  ...(otherwise && { otherwise }),
});
export const wait = (least: number, most?: number): Action => ({
  type: 'wait',
  length: span(least, most),
  place: place(),
});
export const record = (text: string, symbol?: string): Action => ({
  type: 'record',
  columns: [{ text: words(text), ...(symbol && { unit: unit(symbol) }) }],
  rows: [],
  place: place(),
});
export const sign = (by?: Role, text?: string): Sign => ({
  type: 'sign',
  place: place(),
  ...(by && { role: by }),
  ...(text && { text: words(text) }),
});

export function step(
  by: Role | readonly Role[] | undefined,
  actions: readonly (Action | Sign)[] | string,
  more: Partial<Step> = {},
): Step {
  const roles = by === undefined ? [] : 'length' in by ? by : [by];
  return {
    type: 'step',
    texts: typeof actions === 'string' ? [words(actions)] : [],
    roles,
    see: [],
    actions: typeof actions === 'string' ? [] : actions,
    place: place(),
    head: place(),
    ...more,
  };
}

export function hazard(name: string, level: Hazard['level'], condition: Condition, text: string): Hazard {
  return { id: 0, name, label: name, condition, level, text, place: place() };
}

export const admonition = (level: Hazard['level'], about: Hazard | string): Statement => ({
  type: 'admonition',
  level,
  place: place(),
  texts: typeof about === 'string' ? [words(about)] : [],
  ...(typeof about !== 'string' && { hazard: about }),
});
export const stage = (title: string, body: readonly Statement[], more: Partial<Stage> = {}): Stage => ({
  type: 'stage',
  title,
  whenStopped: false,
  body,
  place: place(),
  ...more,
});
export const repeat = (times: number, body: readonly Statement[]): Statement => ({
  type: 'repeat',
  times,
  body,
  head: place(),
  place: place(),
});
export const repeatUntil = (
  times: number,
  question: string,
  body: readonly Statement[],
  otherwise?: Flow,
): Statement => ({
  type: 'repeat',
  times,
  until: { question: words(question) },
  body,
  head: place(),
  place: place(),
  ...(otherwise && { otherwise }),
});
export const when = (
  asked: Condition | string,
  body: readonly Statement[],
  otherwise?: readonly Statement[],
): Statement => ({
  type: 'if',
  body,
  chained: otherwise?.[0]?.type === 'if',
  head: place(),
  place: place(),
  ...(typeof asked === 'string' ? { question: words(asked) } : { condition: asked }),
  ...(otherwise && { otherwise }),
});
export const together = (...lanes: readonly (readonly [Role, readonly Statement[]])[]): Statement => ({
  type: 'together',
  lanes: lanes.map(([by, body]) => ({ role: by, body, place: place() })),
  place: place(),
});
export const choose = (...ways: readonly (readonly [string, readonly Statement[]])[]): Statement => ({
  type: 'choose',
  ways: ways.map(([text, body]) => ({ text: words(text), body, place: place() })),
  place: place(),
});
export const forEach = (items: readonly Item[], body: (one: Item) => readonly Statement[]): Statement => ({
  type: 'for-each',
  name: 'one',
  items,
  rounds: items.map(body),
  place: place(),
});
export const keep = (condition: Condition, otherwise?: Flow): Statement => ({
  type: 'keep',
  condition,
  place: place(),
  ...(otherwise && { otherwise }),
});

export const noEquipment: Equipment = {
  kinds: [],
  items: [],
  gauges: [],
  supplies: [],
  hazards: [],
  rules: [],
  variants: [],
};

export function card(title: string, body: Card['body'], more: Partial<Card> = {}): Card {
  return {
    name: 'card',
    title,
    equipment: noEquipment,
    crew: [],
    signOffs: {},
    tools: [],
    parts: [],
    materials: [],
    references: [],
    assumes: [],
    leaves: [],
    body,
    place: place(),
    extent: { file: 'test.card', start: 0, end: next + 100 },
    ...more,
  };
}
