/** What to do when something is not as it must be: go where the card says, or go on all the same, which two people answer for. */
import type { Exit, MoveIndex } from '../../../shared/job.ts';
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
  buttons.append(exit.firm ? element('p', { class: 'is-firm' }, say('isFirm')) : goOnButton(desk, at, buttons));
  return element('div', { class: 'exit', role: 'alert' }, element('p', {}, `${say('notSo')} ${text}`), buttons);
}

export function goOnButton(desk: Desk, at: Target, place: HTMLElement): HTMLButtonElement {
  const question = desk.speech.say('goOnAnyway');
  return button(question, () =>
    askTwo(desk, place, { move: at.move, question }, (agreed) => desk.add({ type: 'anyway', ...at, ...agreed })),
  );
}

/** A reason, and somebody else who agrees. */
export function askTwo(
  desk: Desk,
  place: HTMLElement,
  { move, question }: { readonly move: MoveIndex; readonly question: string },
  take: (agreed: { readonly reason: string; readonly name: string }) => void,
): void {
  const { say } = desk.speech;
  const name = textInput();
  askReason(place, question, desk, (reason) => take({ reason, name: name.value.trim() }), {
    more: [say('secondName'), name],
    fault: () => {
      if (!isName(name.value)) return say('nameNeeded');
      const isOwn = peopleAt(desk.job, desk.walk, move).some((own) => isSameName(own, name.value));
      return isOwn ? say('secondIsOther') : undefined;
    },
  });
}
