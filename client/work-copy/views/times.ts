/** Lines that take time: runs with their rests and watches, and waits. */
import type { DutyItem, JobLine, MoveIndex, Reading, RunLine, Unit } from '../../../shared/job.ts';
import { answersToWatch } from '../answers.ts';
import type { Desk } from '../desk.ts';
import { button, element, outside, verdictLine } from '../dom.ts';
import { longestRun, restUntil } from '../rests.ts';
import type { LineState } from '../state.ts';
import { followed } from './entries.ts';
import { failed } from './exits.ts';
import { askReason } from './reason.ts';

interface At {
  readonly move: MoveIndex;
  readonly line: number;
}

export function runControls(desk: Desk, at: At, line: RunLine, state: LineState): readonly Node[] {
  if (state.began === undefined) return beginRun(desk, at, line);
  const { began, ended } = state;
  const seen = watches(desk, at, line, state, began);
  return ended === undefined
    ? [running(desk, at, line, began), ...seen]
    : [ran(desk, line, ended - began), ...seen, ...untilAnswer(desk, at, line, state)];
}

// ---------------------------------------------------------------- before a run

function beginRun(desk: Desk, at: At, line: RunLine): readonly Node[] {
  const begin = (reason?: string) => desk.add({ type: 'begin', ...at, ...(reason !== undefined && { reason }) });
  return gated(desk, line.duty === undefined ? [] : [line.duty], desk.speech.say('begin'), begin, 'main wanted');
}

/** The item that must rest for longest before one of these begins. */
export function restingItem({ job, walk, now }: Desk, duties: readonly number[]) {
  const resting = duties.flatMap((duty) => {
    const item = job.duties[duty];
    const until = item && restUntil(item.duties, walk.uses[duty] ?? []);
    return item !== undefined && until !== undefined && until > now() ? [{ label: item.label, until }] : [];
  });
  return resting.sort((one, other) => other.until - one.until)[0];
}

/** Shut while an item must still rest; who begins all the same says why. */
function gated(
  desk: Desk,
  duties: readonly number[],
  word: string,
  begin: (reason?: string) => void,
  kind: string,
): readonly Node[] {
  const { speech, clocks } = desk;
  const place = element('div', { class: 'buttons' });
  const press = button(word, () => begin(), { class: kind });
  const resting = restingItem(desk, duties);
  if (resting === undefined) {
    place.append(press);
    return [place];
  }
  const { label: item, until } = resting;
  const left = element('p', { class: 'clock is-rest' });
  const anyway = button(speech.say('beginAnyway'), () => askReason(place, speech.say('beginAnyway'), desk, begin));
  const shut = element('p', { class: 'shut' }, speech.say('shut'));
  place.append(shut, anyway);
  clocks.add((now) => {
    const isOver = now >= until;
    left.textContent = isOver
      ? speech.say('restOver', { item })
      : speech.say('restLeft', { item, time: speech.duration(until - now + 999) });
    if (isOver && place.contains(shut)) place.replaceChildren(press);
  });
  return [left, place];
}

/** In a step of several actions one that begins or ends a time has a tick of its own, from which the time counts. */
export function doControls(desk: Desk, at: At, unit: Unit, state: LineState): readonly Node[] {
  const { say, timeOfDay } = desk.speech;
  const line = unit.lines[at.line];
  const next = unit.lines[at.line + 1];
  if (line?.type !== 'do' || unit.lines.length < 2) return [];
  if (state.began !== undefined)
    return [element('p', { class: 'verdict' }, say('doneAt', { time: timeOfDay(state.began) }))];
  const isTimed = (next?.type === 'wait' && next.exit) || (next?.type === 'reading' && next.within !== undefined);
  if (!line.uses && !line.rests && !isTimed) return [];
  const did = (reason?: string) => {
    const after = { move: at.move, line: at.line + 1 };
    desk.add(
      { type: 'did', ...at, ...(reason !== undefined && { reason }) },
      ...(isTimed ? [{ type: 'begin', ...after } as const] : []),
    );
  };
  return gated(desk, line.uses ?? [], say('thisIsDone'), did, 'main wanted');
}

// ---------------------------------------------------------------- during a run

function running(desk: Desk, at: At, line: RunLine, began: number): HTMLElement {
  const { speech, clocks, signal } = desk;
  const { say, duration } = speech;
  const limit = limitOf(desk.job.duties[line.duty ?? -1]);
  const clock = element('p', { class: 'clock', role: 'timer' });
  const word = element('p', { class: 'alarm', role: 'alert' });
  const buttons = element('div', { class: 'buttons' });
  const isUntil = line.exit !== undefined;
  const isShortAt = (now: number) => !isUntil && line.least !== undefined && now - began < line.least;
  const end = () => {
    const isShort = isShortAt(desk.now());
    const isLate = isUntil && line.most !== undefined && desk.now() - began > line.most;
    if (isShort) askReason(buttons, say('endEarly'), desk, (reason) => desk.add({ type: 'end', ...at, reason }));
    else if (isLate) desk.add({ type: 'end', ...at }, { type: 'check', ...at, passed: false, late: true });
    else desk.add({ type: 'end', ...at });
  };
  const press = endButton(say, end);
  buttons.append(press.button);
  const most = line.most ?? line.least;
  clocks.add((now) => {
    const time = now - began;
    press.say(isShortAt(now));
    clock.textContent =
      most === undefined ? duration(time) : say('running', { time: duration(time), most: duration(most) });
    const isTooLong = limit !== undefined && time > limit;
    clock.classList.toggle('is-over', isTooLong || (most !== undefined && time >= most));
    if (isTooLong) setText(word, say('tooLong', { limit: duration(limit) }));
    else if (most !== undefined && time >= most) {
      setText(word, say('release'));
      if (time < most + justOver) signal.give(`run ${began}`, say('release'));
    }
  });
  return element('div', { class: 'timed' }, clock, word, buttons);
}

/** Ending before the time is over is never what is offered first. */
function endButton(say: Desk['speech']['say'], end: () => void) {
  const press = button(say('end'), end);
  return {
    button: press,
    say: (isEarly: boolean) => {
      setText(press, say(isEarly ? 'endEarly' : 'end'));
      for (const kind of ['main', 'wanted']) press.classList.toggle(kind, !isEarly);
    },
  };
}

/** A signal for something that was over this long before anybody looked says nothing any more. */
const justOver = 60_000;

/** Written only when it changes: a live region is read out each time. */
function setText(node: HTMLElement, text: string): void {
  if (node.textContent !== text) node.textContent = text;
}

function limitOf(item: DutyItem | undefined): number | undefined {
  return item && longestRun(item.duties);
}

function watches(desk: Desk, at: At, line: RunLine, state: LineState, began: number): readonly Node[] {
  const { speech, clocks } = desk;
  return line.watches.map((watch, index) => {
    const judged = state.watches[index] ?? {};
    const { passed } = judged;
    const { within } = watch;
    const [good, bad] = answersToWatch(watch);
    const isLate = () => within !== undefined && (state.ended ?? desk.now()) - began > within;
    const answer = (is: boolean) => () => desk.add({ type: 'watch', ...at, watch: index, passed: is && !isLate() });
    const left = element('span', { class: 'watch-time' });
    if (within !== undefined && passed === undefined && state.ended === undefined) {
      clocks.add((now) => {
        const rest = began + within - now;
        left.textContent =
          rest > 0 ? speech.say('timeLeft', { time: speech.duration(rest + 999) }) : speech.say('timeOver');
        left.classList.toggle('is-over', rest <= 0);
        if (rest <= 0 && rest > -justOver) desk.signal.give(`watch ${index} ${began}`, speech.say('timeOver'));
      });
    }
    const buttons = element(
      'div',
      { class: 'buttons' },
      button(speech.say(good), answer(true), {
        class: 'main',
        'aria-pressed': String(passed === true),
      }),
      button(speech.say(bad), answer(false), { 'aria-pressed': String(passed === false) }),
    );
    const told = judged.from === undefined ? [] : [followed(desk, speech.say(passed ? good : bad), judged)];
    const out = failed(desk, { ...at, watch: index }, judged, watch.exit);
    return element('div', { class: 'watch' }, element('p', {}, watch.text, ' ', left), ...told, buttons, ...out);
  });
}

// ---------------------------------------------------------------- after a run

function ran(desk: Desk, line: RunLine, length: number): HTMLElement {
  const { say, duration } = desk.speech;
  const limit = limitOf(desk.job.duties[line.duty ?? -1]);
  const over =
    limit !== undefined && length > limit ? `, ${say('tooLongBy', { time: duration(length - limit + 999) })}` : '';
  return element(
    'p',
    { class: over ? 'verdict is-outside' : 'verdict' },
    say('ranFor', { time: duration(length) }) + over,
  );
}

/** A run or wait until something is so ends with the question whether it is. */
function untilAnswer(desk: Desk, at: At, line: { readonly exit?: RunLine['exit'] }, state: LineState): readonly Node[] {
  const { say } = desk.speech;
  const { exit } = line;
  if (exit === undefined) return [];
  if (state.passed !== undefined) {
    const told =
      state.from === undefined ? [] : [followed(desk, say(state.passed ? 'didReach' : 'didNotReach'), state)];
    return [...told, ...failed(desk, at, state, exit)];
  }
  const answer = (passed: boolean) => () => desk.add({ type: 'check', ...at, passed });
  return [
    element(
      'div',
      { class: 'buttons' },
      button(say('didReach'), answer(true), { class: 'main wanted' }),
      button(say('didNotReach'), answer(false)),
    ),
  ];
}

// ---------------------------------------------------------------- waits

export function waitControls(
  desk: Desk,
  at: At,
  line: Extract<JobLine, { type: 'wait' }>,
  state: LineState,
): readonly Node[] {
  const { say, duration } = desk.speech;
  const { began, ended } = state;
  if (state.late !== undefined) return [ranOut(desk, state), ...untilAnswer(desk, at, line, state)];
  if (state.from !== undefined) return [followed(desk, say('didReach'), state)];
  if (began === undefined) {
    return [
      element(
        'div',
        { class: 'buttons' },
        button(say('wait'), () => desk.add({ type: 'begin', ...at }), { class: 'main wanted' }),
      ),
    ];
  }
  if (ended !== undefined) {
    return [
      element('p', { class: 'verdict' }, say('waited', { time: duration(ended - began) })),
      ...untilAnswer(desk, at, line, state),
    ];
  }
  return [waiting(desk, at, line, began)];
}

function ranOut({ speech }: Desk, { late }: LineState): HTMLElement {
  const text =
    typeof late === 'number'
      ? speech.say('tooLate', { time: speech.duration(late + 999) })
      : speech.say('ranOut', { answer: speech.say('didNotReach') });
  return verdictLine(text, { ...outside, role: 'status' });
}

/** The clock of what is to be brought about in a time. */
export function bringClock(desk: Desk, at: At, { within }: Reading, state: LineState): readonly Node[] {
  const { say, duration } = desk.speech;
  const { began, ended, late } = state;
  if (within === undefined) return [];
  if (late !== undefined) return [ranOut(desk, state)];
  if (began === undefined) {
    const begin = button(say('begin'), () => desk.add({ type: 'begin', ...at }), { class: 'main wanted' });
    return [element('div', { class: 'buttons' }, begin)];
  }
  if (ended !== undefined || state.value !== undefined) return [];
  const clock = element('p', { class: 'clock', role: 'timer' });
  const reached = button(say('didReach'), () => desk.add({ type: 'end', ...at }), { class: 'main' });
  desk.clocks.add((now) => {
    const left = began + within - now;
    clock.textContent = left > 0 ? say('timeLeft', { time: duration(left + 999) }) : say('timeOver');
    clock.classList.toggle('is-over', left <= 0);
    if (left <= 0 && left > -justOver) desk.signal.give(`bring ${began}`, say('timeOver'));
  });
  return [clock, element('div', { class: 'buttons' }, reached)];
}

function waiting(desk: Desk, at: At, line: Extract<JobLine, { type: 'wait' }>, began: number): HTMLElement {
  const { speech, clocks, signal } = desk;
  const { say, duration } = speech;
  const target = line.least ?? line.most;
  const clock = element('p', { class: 'clock', role: 'timer' });
  const buttons = element('div', { class: 'buttons' });
  const isShortAt = (now: number) => line.exit === undefined && line.least !== undefined && now - began < line.least;
  const end = () => {
    if (!isShortAt(desk.now())) desk.add({ type: 'end', ...at });
    else askReason(buttons, say('endEarly'), desk, (reason) => desk.add({ type: 'end', ...at, reason }));
  };
  const press = endButton(say, end);
  const late = { type: 'check', ...at, passed: false, late: true } as const;
  const answer = (passed: boolean) => () => {
    const isLate = target !== undefined && desk.now() - began > target;
    desk.add(...(isLate ? [late] : [{ type: 'end', ...at } as const, { type: 'check', ...at, passed } as const]));
  };
  if (line.exit === undefined) buttons.append(press.button);
  else
    buttons.append(
      button(say('didReach'), answer(true), { class: 'main wanted' }),
      button(say('didNotReach'), answer(false)),
    );
  /** What runs out has failed, whether anybody looks or not: but not while the page is being put up. */
  let isShown = false;
  clocks.add((now) => {
    const left = target === undefined ? undefined : began + target - now;
    if (left === undefined) clock.textContent = duration(now - began);
    else clock.textContent = left > 0 ? say('waitLeft', { time: duration(left + 999) }) : say('waitOver');
    press.say(isShortAt(now));
    if (left !== undefined && left <= 0) {
      if (left > -justOver) signal.give(`wait ${began}`, line.exit ? say('timeOver') : say('waitOver'));
      if (line.exit && left < 0 && isShown) desk.add(late);
    }
  });
  isShown = true;
  return element('div', { class: 'timed' }, clock, buttons);
}
