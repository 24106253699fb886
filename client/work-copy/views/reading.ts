/** A gauge is read: judged at once against its limit, in any of its units. */

import type { JobUnit, Reading } from '../../../shared/job.ts';
import type { Desk } from '../desk.ts';
import { choice, element, faultLine, field, form, outside, submit, verdictLine } from '../dom.ts';
import type { Happening } from '../entries.ts';
import type { Exact } from '../exact.ts';
import { unitName } from '../follow.ts';
import { answerOf, combined, type Entered } from '../known.ts';
import { beyondScale, fromBase, isInside, plain, toBase } from '../readings.ts';
import { knownAt, type LineState } from '../state.ts';
import type { At } from './entries.ts';
import { failed } from './exits.ts';
import { type Meant, numberField } from './number.ts';
import { bringClock } from './times.ts';

export function readingControls(desk: Desk, at: At, line: Reading, state: LineState): readonly Node[] {
  const said = [...verdict(desk, line, state), ...failed(desk, at, state, line.exit)];
  /** What was said of an entry goes with it as soon as another is typed. */
  const unsay = () => {
    for (const node of said) (node as HTMLElement).remove();
  };
  const row = limitRow(desk, at, line, state, unsay);
  const gauge = desk.job.gauges[line.gauge];
  const entry = gauge?.workedOut
    ? workedOutForm(desk, at, line, state, row, unsay)
    : readForm(desk, at, line, state, row, unsay);
  return [...(row.note ? [row.note] : []), ...bringClock(desk, at, line, state), entry, ...said];
}

function readForm(desk: Desk, at: At, line: Reading, state: LineState, row: Row, unsay: () => void): HTMLFormElement {
  const { say } = desk.speech;
  const { units = [] } = desk.job.gauges[line.gauge] ?? {};
  const chosen = choice(line.units, state.unit ?? 0);
  const unit = () => Number(chosen.value);
  const entry = numberField(desk, at, {
    label: say('reading'),
    value: state.value,
    unit: () => line.units[unit()] ?? '',
    fault: (value) => offScale(desk, value, units[unit()]) ?? row.fault(),
    take: (value) => judged(at, line, row, { value, unit: unit() }),
    changed: unsay,
  });
  chosen.addEventListener('change', () => {
    unsay();
    entry.refresh();
  });
  return form(
    entry.send,
    row.field,
    entry.field,
    line.units.length > 1 ? field(say('unit'), chosen) : element('span', { class: 'unit' }, line.units[0] ?? ''),
    submit(say('enter')),
    ...entry.below,
  );
}

function judged(
  at: At,
  line: Reading,
  row: Row,
  { value, unit, parts }: { readonly value: Meant; readonly unit: number; readonly parts?: string },
): Happening | undefined {
  const limit = row.chosen();
  if (line.limits.length > 0 && limit === undefined) return undefined;
  const ends = limit === undefined ? undefined : line.limits[limit]?.ends[unit];
  return {
    type: 'reading',
    ...at,
    value: value.text,
    unit,
    ...(limit !== undefined && { limit }),
    ...(ends && { inside: isInside(value.value, ends) }),
    ...(value.number !== undefined && { number: value.number }),
    ...(parts !== undefined && { parts }),
  };
}

function offScale({ speech }: Desk, value: Exact, unit: JobUnit | undefined): string | undefined {
  const beyond = unit && beyondScale(value, unit);
  if (unit === undefined || beyond === undefined) return undefined;
  const end = `${speech.number(beyond.end)} ${unit.printed}`;
  return speech.say(beyond.side === 'low' ? 'scaleBegins' : 'scaleEnds', { end });
}

function verdict({ speech }: Desk, line: Reading, state: LineState): readonly Node[] {
  const limit = line.limits[state.limit ?? 0];
  if (state.value === undefined || state.inside === undefined || limit === undefined) return [];
  const own = `${state.value} ${line.units[state.unit ?? 0] ?? ''}`;
  const value = state.parts === undefined ? own : speech.say('workedOutFrom', { value: own, parts: state.parts });
  const text = speech.say(state.inside ? 'inside' : 'outside', { value, limit: limit.text });
  return [verdictLine(text, { ...(!state.inside && outside), role: 'status' })];
}

// ---------------------------------------------------------------- which limit

interface Row {
  /** The index of the limit that counts; undefined where there is none, or nobody has said which. */
  readonly chosen: () => number | undefined;
  readonly fault: () => string | undefined;
  readonly field?: HTMLElement;
  readonly note?: HTMLElement;
}

/** A limit that depends on another gauge takes its row from what was read of that, while it stands; else it is asked. */
function limitRow(desk: Desk, at: At, line: Reading, state: LineState, unsay: () => void): Row {
  const { say, timeOfDay } = desk.speech;
  const { limits } = line;
  if (limits.length < 2) return { chosen: () => (limits.length === 1 ? 0 : undefined), fault: () => undefined };
  const known = knownAt(desk.walk, at.move, at.line);
  for (const [index, { condition, text }] of limits.entries()) {
    const answer = condition && answerOf(condition, known);
    if (!answer?.holds) continue;
    const [{ move, at: time, text: value }] = answer.from as readonly [Entered];
    const where = { value, where: unitName(desk.job, move), time: timeOfDay(time), limit: text };
    return {
      chosen: () => index,
      fault: () => undefined,
      note: verdictLine(say('rowFrom', where), { class: 'row-from' }),
    };
  }
  const select = choice(
    ['–', ...limits.map(({ when, text }) => desk.speech.labelled(when ?? '', text))],
    state.limit === undefined ? 0 : state.limit + 1,
  );
  const chosen = () => (select.value === '0' ? undefined : Number(select.value) - 1);
  select.addEventListener('change', unsay);
  return {
    chosen,
    fault: () => (chosen() === undefined ? say('choiceNeeded') : undefined),
    field: field(say('whichLimit'), select),
  };
}

// ---------------------------------------------------------------- worked out from others

/** Nobody works it out by hand: what it hangs on is carried over where it still stands, or asked for. */
function workedOutForm(
  desk: Desk,
  at: At,
  line: Reading,
  state: LineState,
  row: Row,
  unsay: () => void,
): HTMLFormElement {
  const { job, speech, walk, drafts } = desk;
  const gauge = job.gauges[line.gauge];
  const [own] = gauge?.units ?? [];
  const known = knownAt(walk, at.move, at.line);
  const fault = faultLine();
  const parts = (gauge?.workedOut ?? []).map(({ gauge: index, sign }, part) => {
    const [unit] = job.gauges[index]?.units ?? [];
    const read = known(index);
    const carried = read && unit && plain(fromBase(read.base, unit));
    const entry = numberField(desk, at, {
      label: job.gauges[index]?.label ?? '',
      carried,
      part,
      unit: () => unit?.printed ?? '',
      fault: (value) => offScale(desk, value, unit),
      changed: unsay,
    });
    const origin = read?.from
      .map(({ move, at: time }) => `${unitName(job, move)}, ${speech.timeOfDay(time)}`)
      .join('; ');
    return { sign, unit, entry, origin };
  });
  const take = (): Happening | undefined => {
    fault.textContent = row.fault() ?? '';
    const values = parts.map(({ entry }) => entry.meant());
    if (own === undefined || fault.textContent !== '' || values.includes(undefined)) return undefined;
    const bases = parts.map(({ sign, unit }, index) => ({
      sign,
      base: toBase((values[index] as Meant).value, unit ?? own),
    }));
    const value = fromBase(combined(bases), own);
    fault.textContent = offScale(desk, value, own) ?? '';
    if (fault.textContent !== '') return undefined;
    const text = plain(value);
    const said = parts.map(({ sign, unit }, index) => {
      const written = `${(values[index] as Meant).text} ${unit?.printed ?? ''}`.trim();
      return index === 0 && sign === 1 ? written : `${sign === 1 ? '+' : '−'} ${written}`;
    });
    return judged(at, line, row, { value: { text, value, number: text }, unit: 0, parts: said.join(' ') });
  };
  const isCarried = parts.every(({ origin }) => origin !== undefined);
  drafts.offer(at, take, isCarried && state.value === undefined);
  const send = () => {
    const taken = take();
    if (taken) desk.add(taken);
  };
  return form(
    send,
    row.field,
    ...parts.flatMap(({ entry, unit, origin }) => [
      entry.field,
      element('span', { class: 'unit' }, [unit?.printed, origin && `(${origin})`].filter(Boolean).join(' ')),
      ...entry.below,
    ]),
    submit(speech.say('enter')),
    fault,
  );
}
