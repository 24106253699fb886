/** The lines of a step as the work copy needs them: what is entered, judged, timed. */
import type { Bound, Condition, Flow, Gauge, Limit, Run, Sign, Step, TimeSpan } from '../../../shared/card.ts';
import { decimal } from '../../../shared/exact.ts';
import type {
  Exit,
  JobCondition,
  JobField,
  JobLine,
  ReadingEnds,
  ReadingLimit,
  WatchLine,
} from '../../../shared/job.ts';
import { type Ends, roundedInward } from '../../../shared/quantity.ts';
import type { Unit } from '../../../shared/units.ts';
import type { Context } from '../context.ts';
import { boundText, senseOf } from '../sentences/bounds.ts';
import { conditionText } from '../sentences/conditions.ts';
import { type Line, type LineField, linesOf, signedFor } from '../sentences/lines.ts';
import { milliseconds } from '../sentences/times.ts';
import type { DutyTable } from './duties.ts';
import { type GaugeTable, unitsOf } from './gauges.ts';
import type { ItemTable } from './items.ts';

/** `asked`: what is not so. `first`: what is done before. */
type MakeExit = (flow: Flow | undefined, asked?: Condition, first?: string) => Exit;

/** What all lines of a card share. */
export interface Tables {
  readonly duties: DutyTable;
  readonly gauges: GaugeTable;
  readonly items: ItemTable;
}

export function jobLines(step: Step, context: Context, tables: Tables, makeExit: MakeExit): readonly JobLine[] {
  return linesOf(step, context).map((line) => ({
    ...jobLine(line, context, tables, makeExit),
    ...endsOf(line, tables),
    ...tables.items.broughtBy(line),
  }));
}

function jobLine(line: Line, context: Context, tables: Tables, makeExit: MakeExit): JobLine {
  const { duties, gauges } = tables;
  const text = [line.sentence, ...line.notes].join(' ');
  const { source } = line;
  const exit = line.failure && { exit: makeExit(line.failure.flow, askedBy(source)) };
  switch (source.type) {
    case 'check':
      return {
        type: 'check',
        text,
        ...(source.question && { question: true as const }),
        exit: makeExit(source.otherwise, source.condition),
        ...conditionOf(source.condition, gauges),
      };
    case 'read':
    case 'bring': {
      const asked = source.asked ? readingLimits(source.asked, source.gauge, context, gauges) : [];
      return {
        type: 'reading',
        text,
        gauge: gauges.indexOf(source.gauge),
        units: unitsOf(source.gauge, context).map(({ printed }) => printed),
        limits: asked,
        ...(source.type === 'bring' && source.within && { within: milliseconds(source.within) }),
        ...exit,
      };
    }
    case 'run':
      return runLine(source, line, tables, makeExit);
    case 'wait':
      return {
        type: 'wait',
        text,
        ...spanOf(source.length, source.until?.within),
        ...exit,
        ...conditionOf(source.until?.condition, gauges),
      };
    case 'record':
    case 'tighten': {
      const { fields, blank } = line;
      if (fields.length > 0) return { type: 'fields', text, fields: fields.map((field) => jobField(field, context)) };
      return { type: 'record', text, ...(blank?.unit && { unit: blank.unit.printed }) };
    }
    case 'sign':
      return signJobLine(source);
    case 'set':
    case 'ensure':
      return { type: 'do', text, ...dutyChanges(line, duties) };
    case 'step':
    case 'watch':
      return { type: 'do', text };
  }
}

/** Who signs stands where the signature is; a record only repeats for what. */
export const signJobLine = (sign: Sign): JobLine => ({
  type: 'sign',
  text: signedFor(sign),
  ...(sign.independent && { independent: true }),
});

function jobField({ unit, bound, ...field }: LineField, context: Context): JobField {
  const ends = unit && bound && endsIn(bound, {}, unit);
  return {
    ...field,
    ...(unit && { unit: unit.printed }),
    ...(bound && ends && { limit: { text: boundText(bound, {}, context), ends: readingEnds(ends, bound) } }),
  };
}

function askedBy(source: Line['source']): Condition | undefined {
  switch (source.type) {
    case 'read':
    case 'bring':
      return source.asked;
    case 'wait':
      return source.until?.condition;
    default:
      return undefined;
  }
}

export function conditionOf(
  condition: Condition | undefined,
  gauges: GaugeTable,
): { readonly condition?: JobCondition } {
  const told = condition && gauges.condition(condition);
  return told && told.type !== 'open' ? { condition: told } : {};
}

function endsOf({ source, changes }: Line, { gauges }: Tables): { readonly ends?: number } {
  switch (source.type) {
    case 'wait':
      return gauges.endedBy({ type: 'moment', cause: 'wait' });
    case 'bring':
      return gauges.endedBy({ type: 'moment', cause: 'bring', gauge: source.gauge });
    case 'run':
      return gauges.endedBy({ type: 'set', item: source.item, state: source.state });
    default:
      return gauges.endedBy(...changes.map(({ item, state }) => ({ type: 'set' as const, item, state })));
  }
}

// ---------------------------------------------------------------- readings

function readingLimits(asked: Condition, gauge: Gauge, context: Context, gauges: GaugeTable): readonly ReadingLimit[] {
  if (asked.type === 'bound') return [readingLimit(asked.bound, gauge, context)];
  return asked.type === 'limit' ? limitRows(asked.limit, gauge, context, gauges) : [];
}

function limitRows({ bound, by }: Limit, gauge: Gauge, context: Context, gauges: GaugeTable): readonly ReadingLimit[] {
  if (bound) return [readingLimit(bound, gauge, context)];
  return (by?.rows ?? []).map((row) => {
    const condition: Condition = { type: 'bound', gauge: by?.gauge as Gauge, bound: row.when, place: row.when.place };
    const when = conditionText(condition, context);
    return { ...readingLimit(row.bound, gauge, context), when, ...conditionOf(condition, gauges) };
  });
}

/** In the gauge's own unit the limit itself; in the second the limit that is printed beside it, so that paper and screen agree. */
function readingLimit(bound: Bound, gauge: Gauge, context: Context): ReadingLimit {
  const ends = unitsOf(gauge, context).map((unit): ReadingEnds | null => {
    const own = endsIn(bound, gauge, unit);
    return own && readingEnds(own, bound);
  });
  return { text: boundText(bound, gauge, context), ends };
}

function endsIn(bound: Bound, gauge: Pick<Gauge, 'difference'>, unit: Unit): Ends | null {
  const exactly = bound.tolerance === undefined ? bound.exactly : undefined;
  const low = exactly ?? bound.low;
  const high = exactly ?? bound.high;
  const ends = { ...(low && { low }), ...(high && { high }) };
  if ((low ?? high)?.unit === unit) return ends;
  // An exact value has no other unit in which it could be met exactly.
  return exactly ? null : (roundedInward(ends, unit, senseOf(gauge)) ?? null);
}

function readingEnds({ low, high }: Ends, bound: Bound): ReadingEnds {
  return {
    ...(low && { low: decimal(low.value), ...(bound.interval.low?.open && { lowOpen: true as const }) }),
    ...(high && { high: decimal(high.value), ...(bound.interval.high?.open && { highOpen: true as const }) }),
  };
}

// ---------------------------------------------------------------- times and runs

function spanOf(length: TimeSpan | undefined, within: TimeSpan['most']): { least?: number; most?: number } {
  const most = length ? length.most : within;
  return { ...(length && { least: milliseconds(length.least) }), ...(most && { most: milliseconds(most) }) };
}

function runLine(run: Run, line: Line, { duties, gauges }: Tables, makeExit: MakeExit): JobLine {
  const duty = duties.indexOf(run.item, run.state);
  const watches = run.watches.map((watch, index): WatchLine => {
    const { sentence = '', failure } = line.meanwhile[index] ?? {};
    return {
      text: sentence,
      ...(watch.within && { within: milliseconds(watch.within) }),
      ...(watch.form === 'stays' && { stays: true }),
      ...conditionOf(watch.asked, gauges),
      exit: makeExit(watch.otherwise, undefined, failure?.first),
    };
  });
  return {
    type: 'run',
    text: line.sentence,
    ...(duty !== undefined && { duty }),
    ...spanOf(run.length, run.until?.within),
    watches,
    ...(run.until && { exit: makeExit(run.until.otherwise, run.until.condition) }),
    ...conditionOf(run.until?.condition, gauges),
  };
}

/** A `set` into a duty's state begins a run, and one out of it ends it. */
function dutyChanges({ changes }: Line, duties: DutyTable): Pick<Extract<JobLine, { type: 'do' }>, 'uses' | 'rests'> {
  const uses = changes.flatMap(({ item, state }) => duties.indexOf(item, state) ?? []);
  const rests = changes.flatMap(({ item, state }) =>
    item.duties.filter((duty) => duty.state !== state).flatMap((duty) => duties.indexOf(item, duty.state) ?? []),
  );
  return { ...(uses.length > 0 && { uses }), ...(rests.length > 0 && { rests: [...new Set(rests)] }) };
}
