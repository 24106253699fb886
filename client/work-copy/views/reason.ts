import type { Desk } from '../desk.ts';
import { button, element, faultLine, field, form, submit, textInput } from '../dom.ts';
import { isSubstantial } from '../texts.ts';

interface Options {
  /** A further field: its label and input. */
  readonly more?: readonly [string, HTMLInputElement];
  /** There is no way back from it. */
  readonly isOwed?: boolean;
  /** What is wrong with the further field. */
  readonly fault?: () => string | undefined;
}

/** Asks why, in the place of what was there; a reason that says nothing is not taken. */
export function askReason(
  place: HTMLElement,
  question: string,
  { speech }: Desk,
  take: (reason: string) => void,
  { more, fault: faultOf, isOwed = false }: Options = {},
): void {
  const before = Array.from(place.childNodes);
  const input = textInput({ required: '' });
  const fault = faultLine();
  const send = () => {
    const reason = input.value.trim();
    const said = isSubstantial(reason) ? faultOf?.() : speech.say('moreReason');
    if (said === undefined) take(reason);
    else fault.textContent = said;
  };
  const back = isOwed ? undefined : button(speech.say('cancel'), () => place.replaceChildren(...before));
  const asking = form(
    send,
    element('p', { class: 'question' }, question),
    field(speech.say('reason'), input),
    more && field(...more),
    fault,
    submit(speech.say('record')),
    back,
  );
  asking.noValidate = true;
  place.replaceChildren(asking);
  input.focus();
}
