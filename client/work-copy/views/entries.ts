/** Lines at which something is written down: checks, readings, notes and signatures. */
import type { Exit, JobLine, MoveIndex, Reading } from '../../../shared/job.ts';
import type { Desk } from '../desk.ts';
import { button, element, field, form, submit, textInput } from '../dom.ts';
import { isInside, numberIn } from '../readings.ts';
import type { LineState } from '../walk.ts';
import { exitControls } from './exits.ts';

interface At {
  readonly move: MoveIndex;
  readonly line: number;
}

type Of<Type extends JobLine['type']> = Extract<JobLine, { type: Type }>;

export function checkControls(desk: Desk, at: At, line: Of<'check'>, state: LineState): readonly Node[] {
  const { say } = desk.speech;
  const answer = (passed: boolean) => () => desk.add({ type: 'check', ...at, passed });
  const wanted = state.passed === undefined ? ' wanted' : '';
  const pressed = (is: boolean) => ({ 'aria-pressed': String(is) });
  const buttons = element(
    'div',
    { class: 'buttons' },
    button(say('passed'), answer(true), { class: `main${wanted}`, attributes: pressed(state.passed === true) }),
    button(say('failed'), answer(false), { attributes: pressed(state.passed === false) }),
  );
  return [buttons, ...failed(desk, at, state, line.exit)];
}

/** Where a line is not as it must be, and nobody has said that the work goes on all the same. */
function failed(desk: Desk, at: At, state: LineState, exit: Exit | undefined): readonly Node[] {
  return state.passed === false && state.anyway === undefined && exit ? [exitControls(desk, at, exit)] : [];
}

export function readingControls(desk: Desk, at: At, line: Reading, state: LineState): readonly Node[] {
  const { say } = desk.speech;
  const input = textInput({
    inputmode: 'decimal',
    value: state.value ?? '',
    class: state.value === undefined ? 'wanted' : '',
  });
  const unit = choice(line.units, state.unit ?? 0);
  const rows = line.limits.map(({ when, text }) => `${when ?? ''}: ${text}`);
  const limit = line.limits.length > 1 ? choice(rows, state.limit ?? 0) : undefined;
  const fault = element('p', { class: 'fault', attributes: { role: 'alert' } });
  const send = () => {
    const value = numberIn(input.value);
    if (value === undefined) {
      fault.textContent = say('notANumber');
      return;
    }
    const chosen = Number(limit?.value ?? 0);
    const ends = line.limits[chosen]?.ends[Number(unit.value)];
    desk.add({
      type: 'reading',
      ...at,
      value: input.value.trim(),
      unit: Number(unit.value),
      ...(line.limits.length > 0 && { limit: chosen }),
      ...(ends && { inside: isInside(value, ends) }),
    });
  };
  const entry = form(
    send,
    limit && field(say('whichLimit'), limit),
    field(say('reading'), input),
    line.units.length > 1 ? field(say('unit'), unit) : element('span', { class: 'unit' }, line.units[0] ?? ''),
    submit(say('enter')),
    fault,
  );
  return [entry, ...verdict(desk, line, state), ...failed(desk, at, state, line.exit)];
}

function verdict({ speech }: Desk, line: Reading, state: LineState): readonly Node[] {
  const limit = line.limits[state.limit ?? 0];
  if (state.value === undefined || state.passed === undefined || limit === undefined) return [];
  const value = `${state.value} ${line.units[state.unit ?? 0] ?? ''}`;
  const text = speech.say(state.passed ? 'inside' : 'outside', { value, limit: limit.text });
  return [
    element('p', { class: state.passed ? 'verdict' : 'verdict is-outside', attributes: { role: 'status' } }, text),
  ];
}

function choice(texts: readonly string[], chosen: number): HTMLSelectElement {
  const select = element('select');
  texts.forEach((text, index) => {
    select.append(
      element('option', { attributes: { value: String(index), ...(index === chosen && { selected: '' }) } }, text),
    );
  });
  return select;
}

export function noteControls(desk: Desk, at: At, line: Of<'record'>, state: LineState): readonly Node[] {
  const { say } = desk.speech;
  const input = textInput({ value: state.value ?? '', class: state.value === undefined ? 'wanted' : '' });
  const send = () => input.value.trim() !== '' && desk.add({ type: 'note', ...at, value: input.value.trim() });
  return [
    form(send, field(say('value'), input), element('span', { class: 'unit' }, line.unit ?? ''), submit(say('enter'))),
  ];
}

export function signControls(desk: Desk, at: At, state: LineState): readonly Node[] {
  const { say } = desk.speech;
  if (state.value !== undefined) return [element('p', { class: 'verdict' }, say('signedBy', { name: state.value }))];
  const input = textInput({ class: 'wanted', autocomplete: 'name' });
  const send = () => input.value.trim() !== '' && desk.add({ type: 'sign', ...at, name: input.value.trim() });
  return [form(send, field(say('name'), input), submit(say('sign')))];
}
