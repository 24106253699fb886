/** Questions and choices: the answer says where the card goes on. */
import type { Move, MoveIndex } from '../../../shared/job.ts';
import type { Desk } from '../desk.ts';
import { button, element } from '../dom.ts';

export function showAsk(
  desk: Desk,
  move: MoveIndex,
  { text }: Extract<Move, { type: 'ask' }>,
  place: HTMLElement,
): void {
  const { say } = desk.speech;
  place.classList.add('is-now');
  place.append(
    element(
      'div',
      { class: 'controls' },
      element('p', { class: 'question' }, text),
      element(
        'div',
        { class: 'buttons' },
        button(say('yes'), () => desk.add({ type: 'answer', move, yes: true }), { class: 'main wanted' }),
        button(say('no'), () => desk.add({ type: 'answer', move, yes: false }), { class: 'main' }),
      ),
    ),
  );
}

export function showChoose(
  desk: Desk,
  move: MoveIndex,
  { ways }: Extract<Move, { type: 'choose' }>,
  place: HTMLElement,
): void {
  const { say, labelled } = desk.speech;
  place.classList.add('is-now');
  const buttons = ways.map((way, index) =>
    button(labelled(say('choose'), way.text), () => desk.add({ type: 'choose', move, way: index }), {
      class: index === 0 ? 'main wanted' : 'main',
    }),
  );
  place.append(element('div', { class: 'controls' }, element('div', { class: 'buttons' }, ...buttons)));
}
