/** Lines at which something is written down: checks and notes. Readings and signatures have files of their own. */
import type { JobLine, MoveIndex } from '../../../shared/job.ts';
import { answersTo } from '../answers.ts';
import type { Desk } from '../desk.ts';
import { button, element, faultLine, field, form, outside, submit, textInput, verdictLine } from '../dom.ts';
import type { Happening } from '../entries.ts';
import type { Judged, LineState } from '../state.ts';
import { failed } from './exits.ts';
import { numberField } from './number.ts';

export interface At {
  readonly move: MoveIndex;
  readonly line: number;
}

type Of<Type extends JobLine['type']> = Extract<JobLine, { type: Type }>;

export function checkControls(desk: Desk, at: At, line: Of<'check'>, state: LineState): readonly Node[] {
  const { say } = desk.speech;
  if (state.from !== undefined && state.passed !== undefined)
    return [followed(desk, say(state.passed ? 'passed' : 'failed'), state), ...failed(desk, at, state, line.exit)];
  const answer = (passed: boolean) => () => desk.add({ type: 'check', ...at, passed });
  const [good, bad] = answersTo(line);
  const wanted = state.passed === undefined ? ' wanted' : '';
  const pressed = (is: boolean) => ({ 'aria-pressed': String(is) });
  const buttons = element(
    'div',
    { class: 'buttons' },
    button(say(good), answer(true), { class: `main${wanted}`, ...pressed(state.passed === true) }),
    button(say(bad), answer(false), { ...pressed(state.passed === false) }),
  );
  return [buttons, ...failed(desk, at, state, line.exit)];
}

/** What nobody was asked, because it follows from readings. */
export function followed({ speech }: Desk, answer: string, { passed, from = '' }: Judged): HTMLElement {
  const text = speech.say('answeredFrom', { answer, from });
  return verdictLine(text, { ...(!passed && outside), role: 'status' });
}

export function noteControls(desk: Desk, at: At, line: Of<'record'>, state: LineState): readonly Node[] {
  const { say } = desk.speech;
  if (line.unit === undefined) {
    const take = (text: string): Happening | undefined =>
      text === '' ? undefined : { type: 'note', ...at, value: text };
    return [textForm(desk, at, { label: say('value'), action: say('enter'), value: state.value, take })];
  }
  const unit = line.unit;
  const entry = numberField(desk, at, {
    label: say('value'),
    value: state.value,
    unit: () => unit,
    take: (value) => ({ type: 'note', ...at, value: value.text }),
  });
  return [
    form(entry.send, entry.field, element('span', { class: 'unit' }, unit), submit(say('enter')), ...entry.below),
  ];
}

interface TextOptions {
  readonly label: string;
  readonly action: string;
  readonly value?: string | undefined;
  /** What is said of a text that cannot be taken. */
  readonly fault?: (text: string) => string;
  readonly autocomplete?: string;
  readonly take: (text: string) => Happening | undefined;
}

export function textForm(desk: Desk, at: At, options: TextOptions): HTMLFormElement {
  const { value, autocomplete = 'off' } = options;
  const input = textInput({
    value: desk.drafts.text(at) ?? value ?? '',
    class: value === undefined ? 'wanted' : '',
    autocomplete,
  });
  const fault = faultLine();
  input.addEventListener('input', () => {
    fault.textContent = '';
    desk.drafts.type(at, input.value);
  });
  const take = () => {
    const taken = options.take(input.value.trim());
    if (taken === undefined) fault.textContent = options.fault?.(input.value) ?? '';
    return taken;
  };
  desk.drafts.offer(at, take);
  const send = () => {
    const taken = take();
    if (taken) desk.add(taken);
  };
  return form(send, field(options.label, input), submit(options.action), fault);
}
