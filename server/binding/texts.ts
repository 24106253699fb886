/** Texts with their slots filled in, as a reader sees them. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Limit, Words } from '../../shared/card.ts';
import { boundWords, quantityWords } from '../../shared/quantity.ts';
import { findLimit } from './conditions.ts';
import {
  type Callable,
  inWords,
  placeOf,
  reportUnknown,
  type Scope,
  scopeFor,
  type Thing,
  thingNamed,
} from './names.ts';

export function bindWords(scope: Scope, text: syntax.Text): Words;
export function bindWords(scope: Scope, text: syntax.Text | undefined): Words | undefined;
export function bindWords(scope: Scope, text: syntax.Text | undefined): Words | undefined {
  return text && { text: filledIn(scope, text), place: placeOf(scope, text) };
}

/** What readers call a card or procedure; `scope` is the one inside it. */
export function titleOf(scope: Scope, { node, declared }: Callable): string {
  return node.title ? filledIn(scope, node.title) : inWords(declared.name);
}

/** The text with the label or limit that each slot stands for; a slot with a problem of its own stays as it is written. */
export function filledIn(scope: Scope, text: syntax.Text): string {
  if (text.segments.length <= 1 && text.segments[0]?.type !== 'slot') return text.value;
  return text.segments
    .map((part) => (part.type === 'words' ? part.value : (slotWords(scope, part) ?? asWritten(part))))
    .join('');
}

function asWritten({ name, limit }: syntax.TextSlot): string {
  return `{${name?.text ?? ''}${limit ? `.${limit.text}` : ''}}`;
}

function slotWords(scope: Scope, { name, limit }: syntax.TextSlot): string | undefined {
  if (name === undefined) return undefined;
  const thing = findLabelled(scope, name);
  if (thing === undefined) return undefined;
  if (limit === undefined) return labelOf(thing);
  const entry = thing.gauge && findLimit(scopeFor(scope, thing), thing.gauge, limit);
  return entry && limitWords(entry.limit);
}

/** Anything that has a label may stand in a slot. */
function findLabelled(scope: Scope, name: syntax.Name): Thing | undefined {
  const thing = thingNamed(scope, name.text);
  if (thing) {
    scope.work.references.use(name, scope.file, thing.declared);
    return thing;
  }
  const meant = reportUnknown(scope, name, 'item', [...scope.locals.keys(), ...scope.work.names.things.keys()]);
  const guess = meant === undefined ? undefined : thingNamed(scope, meant);
  return guess && { ...guess, isGuess: true };
}

function labelOf({ item, gauge, supply, value }: Thing): string | undefined {
  return value ? quantityWords(value) : (item ?? gauge ?? supply)?.label;
}

/** A limit written out: `27 to 29 V`, or for one that depends on another gauge all its rows. */
function limitWords({ bound, by }: Limit): string | undefined {
  if (bound) return boundWords(bound);
  return by?.rows.map((row) => `${boundWords(row.bound)} (${by.gauge.label} ${boundWords(row.when)})`).join(', ');
}
