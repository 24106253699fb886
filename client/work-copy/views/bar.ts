/** The bar at the foot of the screen: what is next, which rests go on, and what can be done at any time. */
import type { Move } from '../../../shared/job.ts';
import { capital } from '../../../shared/text.ts';
import type { Desk } from '../desk.ts';
import { button, element } from '../dom.ts';
import { withWho } from '../follow.ts';
import { longestRun, restUntil } from '../rests.ts';
import type { Speech } from '../words.ts';

export function showBar(desk: Desk, place: HTMLElement, goTo: (move: number) => void): void {
  const { job, walk, speech } = desk;
  const { say } = speech;
  const next = walk.next.flatMap((index) => {
    const move = job.moves[index];
    if (move === undefined) return [];
    const what = asked(move, speech);
    const text = walk.next.length === 1 ? speech.labelled(say('now'), what) : what;
    return [button(text, () => goTo(index), { class: 'now' })];
  });
  const buttons = element('div', { class: 'buttons' });
  // Far from where one stops, and it stays there: a hand that presses twice does not take the stop back.
  buttons.append(
    button(say('undo'), () => desk.add({ type: 'undo' }), { class: 'undo' }),
    ...next,
    ...(walk.ended === undefined && !walk.owesReason
      ? [
          // What makes the machine safe is shown at once; why is asked when it is. Who has stopped does not stop again.
          button(say('stopNow'), () => desk.add({ type: 'stop' }), { class: 'stop' }),
        ]
      : []),
  );
  place.replaceChildren(element('div', { class: 'rests' }, ...running(desk), ...rests(desk)), buttons);
}

/** What is to be done, and by whom. */
function asked(move: Move, { labelled }: Speech): string {
  if (move.type !== 'unit' && move.type !== 'ask' && move.type !== 'choose') return '';
  if (move.type !== 'unit') return move.who === '' ? move.text : labelled(move.who, move.text);
  return withWho(move);
}

/** What goes on and may last only so long, however it was begun. */
function running({ job, walk, speech, clocks, signal }: Desk): readonly Node[] {
  return job.duties.flatMap(({ label, duties }, index) => {
    const limit = longestRun(duties);
    const uses = walk.uses[index] ?? [];
    const last = uses[uses.length - 1];
    if (limit === undefined || last === undefined || last.to !== undefined) return [];
    const clock = element('p', { class: 'clock is-running' });
    clocks.add((time) => {
      const lasted = time - last.from;
      const isOver = lasted >= limit;
      clock.classList.toggle('is-over', isOver);
      const most = speech.duration(limit);
      const said = speech.say('inState', { item: capital(label), time: speech.duration(lasted), limit: most });
      const word = speech.say('tooLong', { limit: most });
      clock.textContent = isOver ? `${said}. ${word}` : said;
      if (isOver) signal.give(`use ${index} ${last.from}`, speech.labelled(capital(label), word));
    });
    return [clock];
  });
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
