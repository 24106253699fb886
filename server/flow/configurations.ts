import type { Card, Stage, Statement, Variant, Which } from '../../shared/card.ts';

/** A sort of machine for which the card reads the same. */
export interface Configuration {
  /** `unit 3 to 4 and fit old`; empty where the card is the same for all. */
  readonly machines: string;
  /** As `machines`, with `for` before them. */
  readonly words: string;
  readonly includes: (only: Which | undefined) => boolean;
  /** One machine of the sort: the value of each variant that the card looks at, by the variant's name. */
  readonly values: ReadonlyMap<string, string>;
}

type Assignment = ReadonlyMap<Variant, string>;

const mostAssignments = 4096;

/** Every combination of variant values that gives a different card, within what the card applies to. */
export function configurations(card: Card): readonly Configuration[] {
  const restrictions = collectRestrictions(card.body);
  const variants = [...new Set(restrictions.flatMap((which) => which.parts.map((part) => part.variant)))];
  const groups = new Map<string, Assignment[]>();
  for (const assignment of assignments(variants, card.applies, restrictions)) {
    const signature = restrictions.map((which) => (satisfies(which, assignment) ? '1' : '0')).join('');
    const alike = groups.get(signature);
    if (alike) alike.push(assignment);
    else groups.set(signature, [assignment]);
  }
  if (groups.size <= 1) {
    const assignment = [...groups.values()][0]?.[0];
    return [
      { ...named(''), includes: (only) => !only || !assignment || satisfies(only, assignment), values: new Map() },
    ];
  }
  return [...groups.values()].map((alike) => ({
    ...named(describe(variants, alike, card.applies, restrictions)),
    includes: (only) => !only || satisfies(only, alike[0] as Assignment),
    values: new Map([...(alike[0] as Assignment)].map(([variant, value]) => [variant.name, value])),
  }));
}

function satisfies(which: Which, assignment: Assignment): boolean {
  return which.parts.every((part) => {
    const value = assignment.get(part.variant);
    return value === undefined || part.values.includes(value);
  });
}

function allowedValues(variant: Variant, applies: Which | undefined): readonly string[] {
  const parts = applies?.parts.filter((part) => part.variant === variant) ?? [];
  return variant.values.filter((value) => parts.every((part) => part.values.includes(value)));
}

/** Values that no restriction tells apart are taken together: one stands for them in each assignment. */
function assignments(
  variants: readonly Variant[],
  applies: Which | undefined,
  restrictions: readonly Which[],
): Assignment[] {
  let all: Map<Variant, string>[] = [new Map()];
  for (const variant of variants) {
    const values = representatives(variant, allowedValues(variant, applies), restrictions);
    all = all.flatMap((partial) => values.map((value) => new Map(partial).set(variant, value)));
    if (all.length > mostAssignments) all = all.slice(0, mostAssignments);
  }
  return all;
}

function signatureOf(variant: Variant, value: string, restrictions: readonly Which[]): string {
  return restrictions
    .flatMap((which) => which.parts.filter((part) => part.variant === variant))
    .map((part) => (part.values.includes(value) ? '1' : '0'))
    .join('');
}

function representatives(variant: Variant, values: readonly string[], restrictions: readonly Which[]): string[] {
  const bySignature = new Map<string, string>();
  for (const value of values) {
    const signature = signatureOf(variant, value, restrictions);
    if (!bySignature.has(signature)) bySignature.set(signature, value);
  }
  return [...bySignature.values()];
}

function describe(
  variants: readonly Variant[],
  alike: readonly Assignment[],
  applies: Which | undefined,
  restrictions: readonly Which[],
): string {
  const parts: string[] = [];
  for (const variant of variants) {
    const allowed = allowedValues(variant, applies);
    const chosen = new Set(
      alike.map((assignment) => signatureOf(variant, assignment.get(variant) as string, restrictions)),
    );
    const values = allowed.filter((value) => chosen.has(signatureOf(variant, value, restrictions)));
    if (values.length < allowed.length) parts.push(`${variant.name} ${listOfValues(variant, values)}`);
  }
  return parts.join(' and ');
}

function named(machines: string): Pick<Configuration, 'machines' | 'words'> {
  return { machines, words: machines && `for ${machines}` };
}

/** `3 to 5, 7` for numbers, `old, new` for words. */
export function listOfValues(variant: Variant, values: readonly string[]): string {
  if (!variant.numeric) return values.join(', ');
  const runs: string[][] = [];
  for (const value of values) {
    const last = runs.at(-1);
    if (last && Number(last.at(-1)) + 1 === Number(value)) last.push(value);
    else runs.push([value]);
  }
  return runs.map((run) => (run.length === 1 ? run[0] : `${run[0]} to ${run.at(-1)}`)).join(', ');
}

function collectRestrictions(body: readonly (Stage | Statement)[]): Which[] {
  const found: Which[] = [];
  for (const statement of body) {
    if ('only' in statement && statement.only) found.push(statement.only);
    for (const block of blocksOf(statement)) found.push(...collectRestrictions(block));
  }
  return found;
}

/** The blocks that stand in a statement or stage, in the order written. */
export function blocksOf(statement: Stage | Statement): readonly (readonly (Stage | Statement)[])[] {
  switch (statement.type) {
    case 'stage':
    case 'do':
      return [statement.body];
    case 'if':
      return statement.otherwise ? [statement.body, statement.otherwise] : [statement.body];
    case 'repeat':
      return [statement.body];
    case 'together':
      return statement.lanes.map((lane) => lane.body);
    case 'for-each':
      return statement.rounds;
    case 'choose':
      return statement.ways.map((way) => way.body);
    default:
      return [];
  }
}
