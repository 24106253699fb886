/** What differs between machines, and the values that a part of a card is for. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Which } from '../../shared/card.ts';
import type { Found } from './declare.ts';
import { reportSecond } from './duplicates.ts';
import { findIn, placeOf, type Scope, type VariantEntry, type Work } from './names.ts';
import { reportNumber } from './quantities.ts';
import type { Declared } from './references.ts';

/** More machines than this are a slip: each value is looked at by itself. */
const mostValues = 10_000;

export function bindVariants(work: Work, found: readonly Found<syntax.Variant>[]): void {
  for (const each of found) work.names.variants.set(each.declared.name, bindVariant(each));
}

function bindVariant({ scope, node, declared }: Found<syntax.Variant>): VariantEntry {
  const words = new Map<string, { declared: Declared }>();
  for (const word of node.words) {
    const first = words.get(word.text)?.declared;
    if (first) reportSecond(scope, word, 'value', first);
    else words.set(word.text, { declared: scope.work.references.declare('value', word, scope.file, declared) });
  }
  const numeric = node.from !== undefined;
  const values = numeric ? numbers(scope, node.from, node.to) : [...words.keys()];
  return { declared, variant: { name: declared.name, values, numeric, place: declared.place }, words };
}

/** The whole numbers from one to another, as they are written on the card. */
function numbers(scope: Scope, from: syntax.NumberNode | undefined, to: syntax.NumberNode | undefined): string[] {
  const first = wholeNumber(scope, from);
  const last = wholeNumber(scope, to);
  if (first === undefined || last === undefined || to === undefined) return [];
  if (last < first || last - first >= mostValues) {
    reportNumber(scope, to, 'values in the wrong order', to.text);
    return [];
  }
  return Array.from({ length: last - first + 1 }, (_, index) => String(first + index));
}

function wholeNumber(scope: Scope, node: syntax.NumberNode | undefined): number | undefined {
  if (node === undefined) return undefined;
  const value = Number(node.text);
  if (Number.isSafeInteger(value)) return value;
  reportNumber(scope, node, 'no whole number', node.text);
  return undefined;
}

/** Undefined where nothing of it is known: the part is then for all machines. */
export function bindWhich(scope: Scope, node: syntax.Which | undefined): Which | undefined {
  if (node === undefined) return undefined;
  const parts = node.parts.flatMap(({ variant: name, values }) => {
    const entry = findIn(scope, scope.work.names.variants, name, 'variant');
    if (entry === undefined) return [];
    const known = values.flatMap((value) => bindValue(scope, entry, value));
    return known.length === 0 ? [] : [{ variant: entry.variant, values: [...new Set(known)] }];
  });
  return parts.length === 0 ? undefined : { parts, place: placeOf(scope, node) };
}

function bindValue(scope: Scope, entry: VariantEntry, value: syntax.WhichValue): readonly string[] {
  const { variant, words } = entry;
  if (value.type === 'name') {
    const declared = findIn(scope, words, value, 'value', variant.name)?.declared;
    return declared ? [declared.name] : [];
  }
  const wanted = value.to ? numbers(scope, value.from, value.to) : [value.from.text];
  const stray = wanted.find((number) => !variant.values.includes(number));
  if (stray === undefined || variant.values.length === 0) return wanted;
  const place = stray === value.from.text ? value.from : (value.to ?? value.from);
  scope.work.problems.add({
    type: 'unknown-name',
    place: placeOf(scope, place),
    name: place.text,
    sort: 'value',
    of: variant.name,
    near: [variant.values[0], variant.values.at(-1)].filter((end) => end !== undefined),
  });
  return [];
}
