/** The bar at the foot of the screen: what is next, which rests go on, and what can be done at any time. */
import type { Desk } from '../desk.ts';
import { button, element } from '../dom.ts';
import { restUntil } from '../rests.ts';
import { askReason } from './reason.ts';

export function showBar(desk: Desk, place: HTMLElement, goTo: (move: number) => void): void {
  const { job, walk, speech } = desk;
  const { say } = speech;
  const next = walk.next.flatMap((index) => {
    const move = job.moves[index];
    const name =
      move?.type === 'unit' ? [move.name, move.who].filter(Boolean).join(', ') : move?.type === 'ask' ? move.text : '';
    return [button(`${say('now')}: ${name}`, () => goTo(index), { class: 'now' })];
  });
  const buttons = element('div', { class: 'buttons' });
  buttons.append(
    ...next,
    button(say('undo'), () => desk.add({ type: 'undo' })),
    ...(walk.ended === undefined
      ? [
          button(
            say('stopNow'),
            () => askReason(buttons, say('stopNow'), desk, (reason) => desk.add({ type: 'stop', reason })),
            { class: 'stop' },
          ),
        ]
      : []),
  );
  place.replaceChildren(element('div', { class: 'rests' }, ...rests(desk)), buttons);
}

function rests({ job, walk, speech, clocks, signal, now }: Desk): readonly Node[] {
  return job.duties.flatMap(({ label, duties }, index) => {
    const until = restUntil(duties, walk.uses[index] ?? []);
    if (until === undefined || until <= now()) return [];
    const clock = element('p', { class: 'clock is-rest' });
    clocks.add((time) => {
      const isOver = time >= until;
      clock.textContent = isOver
        ? speech.say('restOver', { item: label })
        : speech.say('restLeft', { item: label, time: speech.duration(until - time + 999) });
      clock.classList.toggle('is-over', isOver);
      if (isOver) signal.give(`rest ${index} ${until}`, speech.say('restOver', { item: label }));
    });
    return [clock];
  });
}
