/** What to do when something is not as it must be: go where the card says, or go on all the same, which two people answer for. */
import type { Exit } from '../../../shared/job.ts';
import type { Desk } from '../desk.ts';
import { button, element, textInput } from '../dom.ts';
import type { Target } from '../entries.ts';
import { peopleAt } from '../people.ts';
import { isFailing, type Judged } from '../state.ts';
import { isName, isSameName } from '../texts.ts';
import { askReason } from './reason.ts';

/** Where something is not as it must be, and nobody has said that the work goes on all the same. */
export function failed(desk: Desk, at: Target, judged: Judged, exit: Exit | undefined): readonly HTMLElement[] {
  return exit && isFailing(judged) ? [exitControls(desk, at, exit)] : [];
}

function exitControls(desk: Desk, at: Target, exit: Exit): HTMLElement {
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
export function askTwo(desk: Desk, at: Target, place: HTMLElement): void {
  const { say } = desk.speech;
  const name = textInput();
  askReason(
    place,
    say('goOnAnyway'),
    desk,
    (reason) => desk.add({ type: 'anyway', ...at, reason, name: name.value.trim() }),
    {
      more: [say('secondName'), name],
      fault: () => {
        if (!isName(name.value)) return say('nameNeeded');
        const isOwn = peopleAt(desk.job, desk.walk, at.move).some((own) => isSameName(own, name.value));
        return isOwn ? say('secondIsOther') : undefined;
      },
    },
  );
}
