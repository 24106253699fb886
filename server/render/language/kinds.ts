/** The shipped kinds and their states, which a language other than that of the rulebook words anew. */
import type { Kind } from '../../../shared/card.ts';
import { spoken } from '../sentences/labels.ts';

export const setKinds = {
  valve: ['closed', 'open'],
  door: ['closed', 'open'],
  panel: ['fitted', 'removed'],
  cover: ['fitted', 'removed'],
  cap: ['fitted', 'removed'],
  plug: ['connected', 'apart'],
  hose: ['connected', 'apart'],
  drain: ['closed', 'open'],
  gate: ['closed', 'open'],
  guard: ['fitted', 'removed'],
  latch: ['locked', 'released'],
  breaker: ['closed', 'open', 'pulled'],
  switch: ['off', 'on'],
  selector: ['off', 'auto', 'on'],
  button: ['released', 'pressed'],
  isolator: ['open', 'closed', 'locked'],
  contactor: ['open', 'closed'],
  fuse: ['fitted', 'removed'],
  battery: ['connected', 'apart'],
  key: ['away', 'fitted'],
  chock: ['away', 'fitted'],
  pin: ['away', 'fitted'],
  clamp: ['open', 'closed'],
  brake: ['released', 'set'],
  jack: ['lowered', 'raised'],
  prop: ['away', 'fitted'],
  lock: ['away', 'fitted'],
  tag: ['away', 'fitted'],
  barrier: ['away', 'fitted'],
  'ground-wire': ['apart', 'connected'],
  lever: ['off', 'on'],
  handle: ['stowed', 'pulled'],
  pump: ['stopped', 'running'],
  fan: ['stopped', 'running'],
  motor: ['stopped', 'running'],
  engine: ['stopped', 'running'],
  cart: ['stopped', 'running'],
  compressor: ['stopped', 'running'],
  conveyor: ['stopped', 'running'],
  heater: ['off', 'on'],
  light: ['off', 'on'],
  starter: ['off', 'cranking'],
  worn: ['away', 'on'],
  test: ['due', 'passed'],
} as const;

export const seenKinds = {
  lamp: ['off', 'on'],
  needle: ['low', 'normal', 'high'],
  'sight-glass': ['low', 'normal', 'high'],
  trip: ['normal', 'tripped'],
  flag: ['away', 'shown'],
} as const;

/** What a kind is called: one of them, and several. */
export interface Noun {
  readonly one: string;
  readonly many: string;
  /** Absent where only the writer knows it. */
  readonly gender?: 'm' | 'f' | 'n';
}

/** How a state is said of what a label names. */
export type StateOf = (label: string) => string;

interface Seen<State extends string> {
  readonly noun: Noun;
  readonly is: Readonly<Record<State, string | StateOf>>;
}

interface Settable<State extends string> extends Seen<State> {
  /** The order that brings it into the state, with `{}` where its label stands. */
  readonly to: Readonly<Record<State, string>>;
}

export type KindTable = {
  readonly [Name in keyof typeof setKinds]: Settable<(typeof setKinds)[Name][number]>;
} & { readonly [Name in keyof typeof seenKinds]: Seen<(typeof seenKinds)[Name][number]> };

interface AnyKind extends Seen<string> {
  readonly to?: Readonly<Record<string, string>>;
}

interface Translated {
  readonly kinds: KindTable | 'as shipped';
}

/** A kind that a writer has declared is in the writer's own language. */
function translated(kind: Kind, { kinds }: Translated): AnyKind | undefined {
  if (kinds === 'as shipped' || kind.place.file !== 'std:kinds') return undefined;
  return (kinds as Readonly<Record<string, AnyKind>>)[kind.name];
}

export function nounOf(kind: Kind, words: Translated): Noun {
  const own = spoken(kind.name);
  return translated(kind, words)?.noun ?? { one: own, many: own };
}

/** The state of what the label names. */
export function stateText(kind: Kind, state: number, label: string, words: Translated): string {
  const { printed, name = '' } = kind.states[state] ?? {};
  const word = translated(kind, words)?.is[name];
  if (word === undefined) return printed ?? spoken(name);
  return typeof word === 'string' ? word : word(label);
}

export function wordingOf(kind: Kind, state: number, words: Translated): string | undefined {
  const { wording, name = '' } = kind.states[state] ?? {};
  return translated(kind, words)?.to?.[name] ?? wording;
}
