/** Several values that are written down together: the cells of a table, what was fitted, which tool was used. */
import { dayOf } from '../../../shared/day.ts';
import type { FieldsLine, JobField, MoveIndex } from '../../../shared/job.ts';
import type { Desk } from '../desk.ts';
import { element, faultLine, field, form, outside, submit, textInput, verdictLine } from '../dom.ts';
import type { Happening } from '../entries.ts';
import { type Exact, exact } from '../exact.ts';
import { isInside, numberIn } from '../readings.ts';
import type { LineState } from '../state.ts';
import { toolsInUse } from '../tools.ts';
import { goOnButton } from './exits.ts';
import { numberField } from './number.ts';

interface At {
  readonly move: MoveIndex;
  readonly line: number;
}

/** One of the fields: its value as text, or undefined after its `fault` was said. */
interface Cell {
  readonly nodes: readonly HTMLElement[];
  readonly read: () => string | undefined;
  readonly fault: () => string;
}

export function fieldsControls(desk: Desk, at: At, line: FieldsLine, state: LineState): readonly Node[] {
  const { say } = desk.speech;
  const cells = line.fields.map((one, index) => cellOf(desk, at, one, index, state.values?.[index]));
  const fault = faultLine();
  const take = (): Happening | undefined => {
    const values = cells.map(({ read }) => read());
    const unread = values.indexOf(undefined);
    fault.textContent =
      unread < 0 ? '' : desk.speech.labelled(line.fields[unread]?.label ?? '', cells[unread]?.fault() ?? '');
    if (unread >= 0) return undefined;
    const entered = values as readonly string[];
    const isJudged = line.fields.some((one, index) => entered[index] && isJudgedField(desk, one, line.fields));
    const passed = faultsOf(desk, line, entered).length === 0;
    return { type: 'fields', ...at, values: entered, ...(isJudged && { passed }) };
  };
  desk.drafts.offer(at, take);
  const send = () => {
    const taken = take();
    if (taken) desk.add(taken);
  };
  const nodes = cells.flatMap((cell) => cell.nodes);
  return [form(send, ...nodes, submit(say('enter')), fault), ...judged(desk, at, line, state)];
}

function cellOf(desk: Desk, at: At, one: JobField, part: number, value: string | undefined): Cell {
  const label = one.unit ? `${one.label} (${one.unit})` : one.label;
  if (one.kind === 'number') return numberCell(desk, at, label, one, part, value);
  const input = textInput({
    ...(one.kind === 'date' && { type: 'date' }),
    value: desk.drafts.text(at, part) ?? value ?? '',
    class: value || one.optional ? '' : 'wanted',
  });
  input.addEventListener('input', () => desk.drafts.type(at, input.value, part));
  return { nodes: [field(label, input)], read: () => input.value.trim(), fault: () => '' };
}

/** A number is understood, asked back and refused as that of a reading; what is wrong is said once, under all fields. */
function numberCell(
  desk: Desk,
  at: At,
  label: string,
  { unit = '' }: JobField,
  part: number,
  value: string | undefined,
): Cell {
  const isSettled = value !== undefined && value !== '' && numberIn(value) === undefined;
  const entry = numberField(desk, at, { label, part, value, unit: () => unit, ...(isSettled && { carried: value }) });
  const read = () => (entry.text() === '' ? '' : entry.meant()?.text);
  const nodes = [entry.field, ...entry.below.filter((node) => node !== entry.fault)];
  return { nodes, read, fault: () => entry.fault.textContent ?? '' };
}

/** What was asked back is kept in decimal digits. */
function numberOf(value: string): Exact | undefined {
  return numberIn(value) ?? (/^-?\d{1,15}\.\d{1,15}$/.test(value) ? exact(value) : undefined);
}

function isJudgedField({ job, walk }: Desk, field: JobField, all: readonly JobField[]): boolean {
  return field.limit !== undefined || field.kind === 'date' || (isUse(field, all) && toolsInUse(job, walk).length > 0);
}

/** Before the work a tool is written down with its due date; with a value it is used. */
const isUse = ({ kind }: JobField, all: readonly JobField[]) =>
  kind === 'tool' && !all.some((field) => field.kind === 'date');

/** What is outside its limit, over its date, or done with a tool that nobody wrote down, in words. */
function faultsOf(desk: Desk, { fields }: FieldsLine, values: readonly string[]): readonly string[] {
  const { speech } = desk;
  return fields.flatMap((one, index) => {
    const { label, kind, unit, limit } = one;
    const value = values[index] ?? '';
    const told = (text: string) => [speech.labelled(label, text)];
    if (kind === 'date') return overDate(desk, value).flatMap(told);
    if (isUse(one, fields)) return toolFaults(desk, value).flatMap(told);
    const number = limit && numberOf(value);
    if (number === undefined || isInside(number, limit?.ends ?? {})) return [];
    const shown = unit ? `${value} ${unit}` : value;
    return told(speech.say('outside', { value: shown, limit: limit?.text ?? '' }));
  });
}

/** A job may go on for days: a tool that was in its calibration when it was written down need not be so any more. */
function toolFaults(desk: Desk, value: string): readonly string[] {
  const tools = toolsInUse(desk.job, desk.walk);
  if (value === '' || tools.length === 0) return [];
  const tool = tools.find(({ number }) => number.toLowerCase() === value.toLowerCase());
  return tool ? overDate(desk, tool.due) : [desk.speech.say('otherTool', { number: value })];
}

function overDate({ speech, now }: Desk, date: string): readonly string[] {
  return date !== '' && date < dayOf(now()) ? [speech.say('overDate', { date })] : [];
}

/** What is not as it must be, until somebody says why the work goes on all the same. */
function judged(desk: Desk, at: At, line: FieldsLine, { values, passed, anyway }: LineState): readonly Node[] {
  if (values === undefined || passed !== false || anyway !== undefined) return [];
  const buttons = element('div', { class: 'buttons' });
  buttons.append(goOnButton(desk, at, buttons));
  const texts = faultsOf(desk, line, values).map((text) => verdictLine(text, outside));
  return [element('div', { class: 'exit', role: 'alert' }, ...texts, buttons)];
}
