/** What to do when something is not as it must be: go where the card says, or go on all the same, which two people answer for. */
import type { Exit, MoveIndex } from '../../../shared/job.ts';
import type { Desk } from '../desk.ts';
import { button, element, textInput } from '../dom.ts';
import { isName, isSubstantial } from '../texts.ts';
import { askReason } from './reason.ts';

export function exitControls(
  desk: Desk,
  at: { readonly move: MoveIndex; readonly line: number },
  exit: Exit,
): HTMLElement {
  const { say } = desk.speech;
  const buttons = element('div', { class: 'buttons' });
  const { to, text } = exit;
  if (to !== undefined) {
    const go = () => desk.add({ type: 'exit', move: at.move, to, text });
    buttons.append(button(say('goThere'), go, { class: 'main wanted' }));
  }
  buttons.append(
    exit.firm
      ? element('p', { class: 'is-firm' }, say('isFirm'))
      : button(say('goOnAnyway'), () => askTwo(desk, at, buttons)),
  );
  return element(
    'div',
    { class: 'exit', attributes: { role: 'alert' } },
    element('p', {}, `${say('notSo')} ${text}`),
    buttons,
  );
}

/** A reason of substance, and somebody else who agrees. */
export function askTwo(desk: Desk, at: { readonly move: MoveIndex; readonly line: number }, place: HTMLElement): void {
  const { say } = desk.speech;
  const name = textInput();
  askReason(
    place,
    say('goOnAnyway'),
    desk,
    (reason) => desk.add({ type: 'anyway', ...at, reason, name: name.value.trim() }),
    {
      more: [say('secondName'), name],
      fault: (reason) =>
        isSubstantial(reason) ? (isName(name.value) ? undefined : say('nameNeeded')) : say('moreReason'),
    },
  );
}
