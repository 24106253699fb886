/** Several values that are written down together: the cells of a table, what was fitted, which tool was used. */
import type { FieldsLine, JobField, MoveIndex } from '../../../shared/job.ts';
import type { Desk } from '../desk.ts';
import { button, element, field, form, submit, textInput } from '../dom.ts';
import { isInside, numberIn } from '../readings.ts';
import type { LineState } from '../state.ts';
import { askTwo } from './exits.ts';

interface At {
  readonly move: MoveIndex;
  readonly line: number;
}

export function fieldsControls(desk: Desk, at: At, line: FieldsLine, state: LineState): readonly Node[] {
  const { say } = desk.speech;
  const inputs = line.fields.map((one, index) => inputOf(one, state.values?.[index]));
  const fault = element('p', { class: 'fault', attributes: { role: 'alert' } });
  const send = () => {
    const values = inputs.map((input) => input.value.trim());
    const unread = line.fields.find((one, index) => isUnread(one, values[index] ?? ''));
    if (unread) {
      fault.textContent = `${unread.label}: ${say('notANumber')}`;
      return;
    }
    const isJudged = line.fields.some((one, index) => values[index] && isJudgedField(one));
    const passed = faultsOf(desk, line, values).length === 0;
    desk.add({ type: 'fields', ...at, values, ...(isJudged && { passed }) });
  };
  const rows = line.fields.map(({ label, unit }, index) =>
    field(unit ? `${label} (${unit})` : label, inputs[index] as HTMLInputElement),
  );
  return [form(send, ...rows, submit(say('enter')), fault), ...judged(desk, at, line, state)];
}

function inputOf({ kind, optional }: JobField, value: string | undefined): HTMLInputElement {
  return textInput({
    ...(kind === 'date' && { type: 'date' }),
    ...(kind === 'number' && { inputmode: 'decimal' }),
    value: value ?? '',
    class: value || optional ? '' : 'wanted',
  });
}

const isUnread = ({ kind }: JobField, value: string) =>
  kind === 'number' && value !== '' && numberIn(value) === undefined;

const isJudgedField = ({ kind, limit }: JobField) => limit !== undefined || kind === 'date';

/** What is outside its limit, or over its date, in words. */
function faultsOf({ speech, now }: Desk, { fields }: FieldsLine, values: readonly string[]): readonly string[] {
  return fields.flatMap(({ label, kind, unit, limit }, index) => {
    const value = values[index] ?? '';
    if (kind === 'date')
      return value !== '' && value < dayOf(now()) ? [`${label}: ${speech.say('overDate', { date: value })}`] : [];
    const number = limit && numberIn(value);
    if (number === undefined || isInside(number, limit?.ends ?? {})) return [];
    const shown = unit ? `${value} ${unit}` : value;
    return [`${label}: ${speech.say('outside', { value: shown, limit: limit?.text ?? '' })}`];
  });
}

/** The day as a date field gives it, where the work is done. */
function dayOf(at: number): string {
  const day = new Date(at);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
}

/** What is not as it must be, until somebody says why the work goes on all the same. */
function judged(desk: Desk, at: At, line: FieldsLine, { values, passed, anyway }: LineState): readonly Node[] {
  if (values === undefined || passed !== false || anyway !== undefined) return [];
  const { say } = desk.speech;
  const buttons = element('div', { class: 'buttons' });
  const goOn = () => askTwo(desk, at, buttons);
  buttons.append(button(say('goOnAnyway'), goOn));
  const texts = faultsOf(desk, line, values).map((text) => element('p', { class: 'verdict is-outside' }, text));
  return [element('div', { class: 'exit', attributes: { role: 'alert' } }, ...texts, buttons)];
}
