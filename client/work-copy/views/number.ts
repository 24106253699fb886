/** A field for a number: says what it understands while it is typed, asks back what may be meant in two ways, and takes nothing else. */

import type { Desk } from '../desk.ts';
import { button, element, faultLine, field, textInput } from '../dom.ts';
import type { Happening, OfLine } from '../entries.ts';
import { type Exact, exact } from '../exact.ts';
import { typedNumber } from '../readings.ts';

export interface Meant {
  /** As it was typed; where that leaves a doubt, as it was answered. */
  readonly text: string;
  readonly value: Exact;
  /** Only where `text` alone would leave a doubt. */
  readonly number?: string;
}

interface Options {
  readonly label: string;
  readonly value?: string | undefined;
  /** Tells the fields of one line apart. */
  readonly part?: number;
  /** Printed. */
  readonly unit: () => string;
  /** Why a number cannot be taken. */
  readonly fault?: (value: Exact) => string | undefined;
  /** Absent where it is one of several fields that are entered together. */
  readonly take?: (value: Meant) => Happening | undefined;
  /** A number that is carried over, with no doubt how it is meant. */
  readonly carried?: string | undefined;
  /** What was said of an older entry no longer counts. */
  readonly changed?: () => void;
}

export interface NumberField {
  readonly field: HTMLElement;
  /** What is understood, what is asked back, what is wrong. */
  readonly below: readonly HTMLElement[];
  readonly fault: HTMLElement;
  readonly text: () => string;
  readonly send: () => void;
  /** What is in the field, after saying what is wrong with it. */
  readonly meant: () => Meant | undefined;
  /** The unit was changed. */
  readonly refresh: () => void;
}

export function numberField(desk: Desk, at: OfLine, options: Options): NumberField {
  const { say, number } = desk.speech;
  const { part = 0 } = options;
  const input = textInput({
    inputmode: 'decimal',
    value: desk.drafts.text(at, part) ?? options.carried ?? options.value ?? '',
    class: (options.carried ?? options.value) === undefined ? 'wanted' : '',
  });
  const understood = element('p', { class: 'understood' });
  const fault = faultLine();
  const asking = element('div', { class: 'buttons which' });
  const withUnit = (plain: string) => `${number(plain)} ${options.unit()}`.trim();

  /** Text that was asked back is not asked back again. */
  let settled = options.carried;
  const read = () => (input.value === settled ? { meanings: [input.value], isSure: true } : typedNumber(input.value));
  const settle = (plain: string) => {
    settled = plain;
    input.value = plain;
    desk.drafts.type(at, plain, part);
    refresh();
  };

  const refresh = () => {
    fault.textContent = '';
    asking.replaceChildren();
    const { meanings, isSure } = read();
    understood.textContent = isSure ? say('understood', { value: withUnit(meanings[0] ?? '') }) : '';
  };
  const refused = (value: Exact): boolean => {
    fault.textContent = options.fault?.(value) ?? '';
    return fault.textContent !== '';
  };
  const choose = (plain: string) => {
    asking.replaceChildren();
    fault.textContent = '';
    const value = exact(plain);
    if (refused(value)) return;
    const isPlain = typedNumber(plain).isSure;
    const chosen = { text: plain, value, ...(!isPlain && { number: plain }) };
    const taken = options.take?.(chosen);
    if (taken) desk.add(taken);
    else settle(plain);
  };
  const askBack = (meanings: readonly string[]) => {
    fault.textContent = say('whichNumber');
    asking.replaceChildren(...meanings.map((plain) => button(withUnit(plain), () => choose(plain), { class: 'main' })));
  };
  const meant = (): Meant | undefined => {
    refresh();
    const { meanings, isSure } = read();
    if (!isSure) {
      if (meanings.length > 0) askBack(meanings);
      else fault.textContent = say('notANumber');
      return undefined;
    }
    const value = exact(meanings[0] ?? '');
    return refused(value) ? undefined : { text: input.value.trim(), value };
  };
  const take = () => {
    const value = meant();
    return value && options.take?.(value);
  };
  const send = () => {
    const taken = take();
    if (taken) desk.add(taken);
  };

  input.addEventListener('input', () => {
    desk.drafts.type(at, input.value, part);
    options.changed?.();
    refresh();
  });
  if (options.take) desk.drafts.offer(at, take);
  if (desk.drafts.text(at, part) !== undefined) refresh();
  return {
    field: field(options.label, input),
    below: [understood, fault, asking],
    fault,
    text: () => input.value.trim(),
    send,
    meant,
    refresh,
  };
}
