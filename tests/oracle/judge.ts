/** Judges mutants of a clean card: what concrete runs show to be bad must be reported by the engine. */
import type { Bound, Card, Gauge, Stage, Statement } from '../../shared/card.ts';
import type { Exact } from '../../shared/exact.ts';
import { differences } from './compare.ts';
import { actionConditions, bodiesOf, boundTerms } from './conditions.ts';
import { ask, findingsOf } from './engine.ts';
import { seenOnAllMachines } from './machines.ts';
import { type Mutant, mutantsOf, SLIPS, type Slip } from './mutants.ts';
import { inside } from './readings.ts';
import { placeKey } from './verdicts.ts';

export interface Judged {
  readonly mutant: Mutant;
  /** It no longer reads as a card: a name, unit or word is wrong, and told as that. */
  readonly broken: boolean;
  /** More runs than the oracle can go through. */
  readonly tooBig: boolean;
  /** What runs show, as `code subject`. */
  readonly bad: readonly string[];
  /** What of that the engine does not report. */
  readonly missed: readonly string[];
}

export interface Sample {
  readonly name: string;
  readonly text: string;
  readonly others: ReadonlyMap<string, string>;
}

/** More than this are too many for the oracle. */
export const mostWorlds = 30_000;

export function judgeMutants(sample: Sample): readonly Judged[] {
  const { card } = ask(sample.text, sample.others);
  const normalStates = new Map(
    card.equipment.items.flatMap((item) =>
      item.normally === undefined ? [] : [[item.name, item.kind.states[item.normally]?.name ?? ''] as const],
    ),
  );
  return mutantsOf(sample.text, normalStates).map((mutant) => judge(mutant, sample));
}

function judge(mutant: Mutant, { others }: Sample): Judged {
  const asked = askSafely(mutant.text, others);
  if (!asked) return { mutant, broken: true, tooBig: false, bad: [], missed: [] };
  const seen = seenOnAllMachines(asked.card, mostWorlds);
  if (!seen) return { mutant, broken: false, tooBig: true, bad: [], missed: [] };
  const verdicts = seen.verdicts().map(({ code, subject }) => `${code} ${subject}`);
  const unsaid = differences(asked.card, seen, asked.says)
    .filter(({ sort, code }) => sort === 'missed' && /^(safety|supply|duty)/.test(code))
    .map(({ code, subject }) => `${code} ${subject}`);
  const loose = looserBounds(asked.card);
  const told = new Set(
    findingsOf(mutant.text, others)
      .filter(({ code }) => code.startsWith('limit.'))
      .map(({ place }) => placeKey(place)),
  );
  const untold = loose.filter(({ bound }) => !told.has(placeKey(bound.place)));
  const words = ({ gauge }: { readonly gauge: Gauge }) => `limit.looser ${gauge.name}`;
  return {
    mutant,
    broken: false,
    tooBig: false,
    bad: [...verdicts, ...loose.map(words)],
    missed: [...unsaid, ...untold.map(words)],
  };
}

function askSafely(text: string, others: ReadonlyMap<string, string>) {
  try {
    return ask(text, others);
  } catch {
    return undefined;
  }
}

/** Written-out bounds that let a reading through which that side of every named limit keeps out. */
function looserBounds(card: Card): readonly { readonly gauge: Gauge; readonly bound: Bound }[] {
  const terms = card.body.flatMap(askedTerms).flatMap((term) => (term.type === 'bound' ? [term] : []));
  return terms.filter(({ gauge, bound }) => {
    const named = gauge.limits.flatMap((limit) => limit.bound ?? limit.by?.rows.map((row) => row.bound) ?? []);
    return letsThrough(bound, named, 'low') || letsThrough(bound, named, 'high');
  });
}

function letsThrough(asked: Bound, named: readonly Bound[], side: 'low' | 'high'): boolean {
  const end = asked.interval[side]?.value;
  const limits = named.flatMap((limit) => limit.interval[side] ?? []);
  if (!end || limits.length === 0) return false;
  const readings: readonly Exact[] = [end, ...limits.map(({ value }) => value.add(end).div(2))];
  const onSide = (interval: Bound['interval'], value: Exact) => inside({ [side]: interval[side] }, value);
  return readings.some(
    (value) => onSide(asked.interval, value) && limits.every((limit) => !inside({ [side]: limit }, value)),
  );
}

function askedTerms(statement: Stage | Statement): readonly ReturnType<typeof boundTerms>[number][] {
  const own = statement.type === 'step' ? statement.actions.flatMap(actionConditions).flatMap(boundTerms) : [];
  return [...own, ...bodiesOf(statement).flat().flatMap(askedTerms)];
}

/** The mutants that the engine is silent about, one to a line; empty where there is none. */
export function reportOfMisses(judged: readonly Judged[]): string {
  const missed = judged.filter((each) => each.missed.length > 0);
  return missed.map(({ mutant, missed: codes }) => `${mutant.slip}: ${mutant.at} (${codes.join(', ')})`).join('\n');
}

/** The table for a person: how many mutants of each sort, and what became of them. */
export function tableOf(judged: readonly Judged[]): string {
  const row = (name: string, cells: readonly (string | number)[]) =>
    [name.padEnd(22), ...cells.map((cell) => String(cell).padStart(10))].join('');
  const count = (slip: Slip) => {
    const those = judged.filter(({ mutant }) => mutant.slip === slip);
    const bad = those.filter((each) => each.bad.length > 0);
    return [
      those.length,
      those.filter(({ broken }) => broken).length,
      those.filter(({ tooBig }) => tooBig).length,
      bad.length,
      bad.filter(({ missed }) => missed.length === 0).length,
      bad.filter(({ missed }) => missed.length > 0).length,
    ];
  };
  const rows = SLIPS.map((slip) => ({ slip, cells: count(slip) }));
  const total = rows.reduce<number[]>((sum, { cells }) => cells.map((cell, index) => cell + (sum[index] ?? 0)), []);
  return [
    row('slip', ['mutants', 'no card', 'too big', 'bad', 'reported', 'missed']),
    ...rows.map(({ slip, cells }) => row(slip, cells)),
    row('all', total),
  ].join('\n');
}
