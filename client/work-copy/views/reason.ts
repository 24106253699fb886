import type { Desk } from '../desk.ts';
import { button, element, field, form, submit, textInput } from '../dom.ts';

/** Asks why, in the place of what was there; an empty reason is not taken. */
export function askReason(
  place: HTMLElement,
  question: string,
  { speech }: Desk,
  take: (reason: string) => void,
): void {
  const before = Array.from(place.childNodes);
  const input = textInput({ required: '' });
  const fault = element('p', { class: 'fault', attributes: { role: 'alert' } });
  const send = () => {
    const reason = input.value.trim();
    if (reason === '') fault.textContent = speech.say('reasonNeeded');
    else take(reason);
  };
  const back = button(speech.say('cancel'), () => place.replaceChildren(...before));
  const asking = form(
    send,
    element('p', { class: 'question' }, question),
    field(speech.say('reason'), input),
    fault,
    submit(speech.say('record')),
    back,
  );
  asking.noValidate = true;
  place.replaceChildren(asking);
  input.focus();
}
