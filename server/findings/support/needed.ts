/** What to write so that a requirement holds, worked out from what of it does not. */
import type { Condition, Gauge } from '../../../shared/card.ts';
import { boundWords, durationWords } from '../../../shared/quantity.ts';
import type { ItemState, Unmet } from '../../proof/break.ts';

export interface Needed {
  readonly states: readonly ItemState[];
  /** Waits, as actions of the language, and readings with what is asked for; to be done when the states are so. */
  readonly waits: readonly string[];
  readonly reads: readonly { readonly gauge: Gauge; readonly asked: string }[];
}

export function toSet(states: readonly ItemState[]): Needed {
  return { states, waits: [], reads: [] };
}

/** Whether it stays so through the action that it is brought about for: what is only seen may change with that. */
export function staysSo({ states }: Needed): boolean {
  return !states.some(({ item }) => item.kind.seen);
}

const nothing = toSet([]);

/** The least that makes a requirement hold; of alternatives the first that takes the least. Undefined where writing steps does not help. */
export function neededFor(require: Condition, unmet: readonly Unmet[]): Needed | undefined {
  const needed = needs(require, unmet, true);
  return needed && sizeOf(needed) > 0 ? needed : undefined;
}

function needs(condition: Condition, unmet: readonly Unmet[], holds: boolean): Needed | undefined {
  switch (condition.type) {
    case 'and':
    case 'or': {
      const each = condition.terms.map((term) => needs(term, unmet, holds));
      return (condition.type === 'and') === holds ? allOf(each) : leastOf(each);
    }
    case 'not':
      return needs(condition.term, unmet, !holds);
    case 'quantified':
      return needs(condition.written, unmet, holds);
    case 'state':
      return needsState(condition, unmet, holds);
    case 'bound':
    case 'limit':
      return needsReading(condition, unmet, holds);
    case 'reaches':
      return unmet.some((part) => part.type === 'supply' && part.supply === condition.supply) ? undefined : nothing;
    case 'open':
      return nothing;
  }
}

function allOf(each: readonly (Needed | undefined)[]): Needed | undefined {
  const known = each.filter((one) => one !== undefined);
  if (known.length < each.length) return undefined;
  const states = known.flatMap((one) => one.states);
  const reads = known.flatMap((one) => one.reads);
  return {
    states: states.filter(({ item }, index) => states.findIndex((other) => other.item === item) === index),
    waits: [...new Set(known.flatMap(({ waits }) => waits))],
    reads: reads.filter(
      (one, index) => reads.findIndex((other) => other.gauge === one.gauge && other.asked === one.asked) === index,
    ),
  };
}

function leastOf(each: readonly (Needed | undefined)[]): Needed | undefined {
  const known = each.filter((one) => one !== undefined);
  return known.sort((a, b) => sizeOf(a) - sizeOf(b))[0];
}

function sizeOf({ states, waits, reads }: Needed): number {
  return states.length + waits.length + reads.length;
}

function needsState(
  { item, state, lasting }: Extract<Condition, { type: 'state' }>,
  unmet: readonly Unmet[],
  holds: boolean,
): Needed | undefined {
  const short = unmet.find((part) => part.type === 'time' && part.item === item && part.state === state);
  if (short) {
    if (!holds || lasting?.form !== 'at least' || short.type !== 'time') return undefined;
    const missing = short.sure ? lasting.duration.sub(short.sure) : lasting.duration;
    return { ...nothing, waits: [`wait ${durationWords(missing)}`] };
  }
  const wrong = unmet.find((part) => part.type === 'item' && part.item === item);
  if (wrong?.type !== 'item') return nothing;
  const [wanted] = holds ? [state] : wrong.wanted;
  return wanted === undefined ? undefined : toSet([{ item, state: wanted }]);
}

function needsReading(
  condition: Extract<Condition, { type: 'bound' | 'limit' }>,
  unmet: readonly Unmet[],
  holds: boolean,
): Needed | undefined {
  const { gauge } = condition;
  const reading = unmet.find((part) => part.type === 'reading' && part.gauge === gauge);
  if (reading?.type !== 'reading') return nothing;
  // Where it is known to be otherwise, to read it once more is no mend.
  if (!holds || reading.known) return undefined;
  const asked = condition.type === 'limit' ? `in ${condition.limit.name}` : boundWords(condition.bound, 'symbol');
  return { ...nothing, reads: [{ gauge, asked }] };
}
