/** What to do when something is not as it must be: go where the card says, or go on all the same and say why. */
import type { Exit, MoveIndex } from '../../../shared/job.ts';
import type { Desk } from '../desk.ts';
import { button, element } from '../dom.ts';
import { askReason } from './reason.ts';

export function exitControls(
  desk: Desk,
  at: { readonly move: MoveIndex; readonly line: number },
  exit: Exit,
): HTMLElement {
  const { say } = desk.speech;
  const buttons = element('div', { class: 'buttons' });
  buttons.append(
    button(say('goThere'), () => desk.add({ type: 'exit', move: at.move, to: exit.to, text: exit.text }), {
      class: 'main wanted',
    }),
    button(say('goOnAnyway'), () =>
      askReason(buttons, say('goOnAnyway'), desk, (reason) => desk.add({ type: 'anyway', ...at, reason })),
    ),
  );
  return element(
    'div',
    { class: 'exit', attributes: { role: 'alert' } },
    element('p', {}, `${say('notSo')} ${exit.text}`),
    buttons,
  );
}
