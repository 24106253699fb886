/** A step on the screen: a button to tick it, and what is to be entered while it is the next one. */
import type { JobLine, MoveIndex, Unit } from '../../../shared/job.ts';
import type { Desk } from '../desk.ts';
import { button, element } from '../dom.ts';
import { keepAnswer, unitName } from '../follow.ts';
import { fieldTexts, wentOnText } from '../record.ts';
import { isAsked, isFailing, type LineState, noEntry, type Visit } from '../state.ts';
import type { Speech } from '../words.ts';
import { checkControls, followed, noteControls } from './entries.ts';
import { askTwo, failed } from './exits.ts';
import { fieldsControls } from './fields.ts';
import { readingControls } from './reading.ts';
import { askReason } from './reason.ts';
import { signControls } from './sign.ts';
import { doControls, restingItem, runControls, waitControls } from './times.ts';

export function isActive({ walk }: Desk, move: MoveIndex): boolean {
  return walk.next.includes(move) || walk.opened.has(move);
}

/** Puts what is to be done at this unit into its place on the card. */
export function showUnit(desk: Desk, move: MoveIndex, unit: Unit, place: HTMLElement): void {
  const lines = place.querySelector<HTMLElement>(':scope > .lines') ?? place;
  const visits = desk.walk.visits.get(move) ?? [];
  for (const [index, visit] of visits.entries()) {
    lines.append(visitNote(desk, unit, visit, visits.length > 1 ? index + 1 : undefined));
  }
  for (const text of wentOnNotes(desk, move, unit)) lines.append(element('p', { class: 'entry went-on' }, text));
  tickPrintedBoxes(place, visits, visits[visits.length - 1]?.lines ?? desk.walk.lines.get(move));
  const shown = place.querySelectorAll<HTMLElement>(':scope > .lines > .line, :scope > .checklist > .line');
  const active = isActive(desk, move);
  unit.lines.forEach((line, index) => {
    shown[index]?.toggleAttribute('hidden', (active || visits.length > 0) && !isAsked(line, desk.walk));
  });
  place.classList.toggle('is-now', active);
  place.classList.toggle('is-done', visits.length > 0 && !active);
  if (!active) return;
  unit.lines.forEach((line, index) => {
    if (!isAsked(line, desk.walk)) return;
    const controls = lineControls(desk, { move, line: index }, unit, line, stateOf(desk, move, index));
    if (controls.length > 0) (shown[index] ?? lines).append(element('div', { class: 'controls' }, ...controls));
  });
  lines.append(unitControls(desk, move, unit));
}

function stateOf({ walk }: Desk, move: MoveIndex, line: number): LineState {
  return walk.lines.get(move)?.get(line) ?? noEntry;
}

function lineControls(
  desk: Desk,
  at: { move: MoveIndex; line: number },
  unit: Unit,
  line: JobLine,
  state: LineState,
): readonly Node[] {
  switch (line.type) {
    case 'do':
      return doControls(desk, at, unit, state);
    case 'check':
      return checkControls(desk, at, line, state);
    case 'reading':
      return readingControls(desk, at, line, state);
    case 'run':
      return runControls(desk, at, line, state);
    case 'wait':
      return waitControls(desk, at, line, state);
    case 'record':
      return noteControls(desk, at, line, state);
    case 'fields':
      return fieldsControls(desk, at, line, state);
    case 'sign':
      return signControls(desk, at, line, state);
  }
}

function unitControls(desk: Desk, move: MoveIndex, unit: Unit): HTMLElement {
  const { say } = desk.speech;
  const buttons = element('div', { class: 'buttons' });
  const controls = element(
    'div',
    { class: 'controls unit-controls' },
    ...roundNotes(desk, move),
    ...keepNotes(desk, move, unit),
    buttons,
  );
  const leaveOut = () => {
    const isUnchecked = unansweredChecks(desk, move, unit).length > 0;
    askWhy(desk, buttons, { move, question: say('leaveOut'), isUnchecked }, (why) =>
      desk.add({ type: 'leave-out', move, ...why }),
    );
  };
  buttons.append(button(say('done'), () => tick(desk, move, unit, buttons), { class: 'main done wanted' }));
  // Leaving a step out is no way past what the card relies on, nor past what is not as it must be.
  if (!unit.lines.some(isFirm) && !isHeldUp(desk, move, unit)) buttons.append(button(say('leaveOut'), leaveOut));
  return controls;
}

/** Ticks a unit with what is typed in it; where something in it is not entered, after asking why, and never past what is not as it must be. */
function tick(desk: Desk, move: MoveIndex, unit: Unit, place: HTMLElement): void {
  const typed = desk.drafts.take(move);
  if (typed === undefined) return;
  if (typed.length > 0) {
    desk.add(...typed);
    retick(desk.fresh(), move, unit);
    return;
  }
  const states = unit.lines
    .map((line, index) => ({ line, state: stateOf(desk, move, index) }))
    .filter(({ line }) => isAsked(line, desk.walk));
  const owed = states.find(({ line, state }) => isFirm(line) && isMissing(line, state));
  if (isHeldUp(desk, move, unit)) desk.signal.say(desk.speech.say('notSo'));
  else if (owed) desk.signal.say(desk.speech.say('answerFirst', { what: owed.line.text }));
  else if (!states.some(({ line, state }) => isMissing(line, state))) tickRested(desk, move, states, place);
  else {
    const isUnchecked = unansweredChecks(desk, move, unit).length > 0;
    askWhy(desk, place, { move, question: desk.speech.say('missingLines'), isUnchecked }, (why) =>
      desk.add({ type: 'tick', move, ...why }),
    );
  }
}

/** What may fail and was not looked at: leaving that out is no cheaper than going on over it. */
function unansweredChecks(desk: Desk, move: MoveIndex, unit: Unit): readonly JobLine[] {
  const mayFail = (line: JobLine) =>
    line.type === 'fields' ? line.fields.some(({ limit }) => limit) : 'exit' in line && line.exit !== undefined;
  return unit.lines.filter(
    (line, index) => mayFail(line) && isAsked(line, desk.walk) && isMissing(line, stateOf(desk, move, index)),
  );
}

function askWhy(
  desk: Desk,
  place: HTMLElement,
  asked: { readonly move: MoveIndex; readonly question: string; readonly isUnchecked: boolean },
  take: (why: { readonly reason: string; readonly name?: string }) => void,
): void {
  if (asked.isUnchecked) askTwo(desk, place, asked, take);
  else askReason(place, asked.question, desk, (reason) => take({ reason }));
}

type LineAndState = { readonly line: JobLine; readonly state: LineState };

/** Who sets something going before it has rested says why. */
function tickRested(desk: Desk, move: MoveIndex, states: readonly LineAndState[], place: HTMLElement): void {
  const { speech } = desk;
  const begun = states.flatMap(({ line, state }) =>
    line.type === 'do' && state.began === undefined ? [...(line.uses ?? [])] : [],
  );
  const resting = restingItem(desk, begun);
  if (resting === undefined) desk.add({ type: 'tick', move });
  else {
    const time = speech.duration(resting.until - desk.now() + 999);
    const question = `${speech.say('restLeft', { item: resting.label, time })}. ${speech.say('beginAnyway')}`;
    askReason(place, question, desk, (reason) => desk.add({ type: 'tick', move, reason }));
  }
}

/** The place that was pressed is gone with what was entered. */
function retick(desk: Desk, move: MoveIndex, unit: Unit): void {
  const place = document.querySelector<HTMLElement>(`[data-move="${move}"] .unit-controls .buttons`);
  if (place) tick(desk, move, unit, place);
}

const isFirm = (line: JobLine) => 'exit' in line && line.exit?.firm === true;

/** Something in it is not as it must be, and nobody has answered for going on. */
function isHeldUp(desk: Desk, move: MoveIndex, unit: Unit): boolean {
  const states = unit.lines.map((_, index) => stateOf(desk, move, index));
  const watched = states.flatMap(({ watches }) => Object.values(watches));
  return [...states, ...watched, ...Object.values(desk.walk.keeps.get(move) ?? {})].some(isFailing);
}

function isMissing(line: JobLine, { passed, value, values, began, ended, watches }: LineState): boolean {
  switch (line.type) {
    case 'do':
      return false;
    case 'check':
      return passed === undefined;
    case 'run':
      if (line.watches.some((_, index) => watches[index] === undefined)) return true;
      return ended === undefined || (line.exit !== undefined && passed === undefined);
    case 'wait':
      return passed === undefined && (ended === undefined || line.exit !== undefined);
    case 'fields':
      return line.fields.some(({ optional }, index) => !optional && !values?.[index]);
    case 'reading':
      return value === undefined || (line.within !== undefined && began === undefined);
    case 'record':
    case 'sign':
      return value === undefined;
  }
}

/** What a press on the tick button of a unit means: done, or begun before its turn. */
export function pressTick(desk: Desk, move: MoveIndex, unit: Unit, place: HTMLElement): void {
  const own = place.querySelector<HTMLElement>('.unit-controls .buttons');
  if (own) {
    tick(desk, move, unit, own);
    return;
  }
  const lines = place.querySelector<HTMLElement>(':scope > .lines') ?? place;
  const asking = element('div', { class: 'controls' });
  lines.append(asking);
  const isPlain = unit.lines.every((line) => line.type === 'do');
  askReason(asking, desk.speech.say('outOfOrder'), desk, (reason) => {
    const open = { type: 'open', move, reason } as const;
    if (isPlain) desk.add(open, { type: 'tick', move, reason });
    else desk.add(open);
  });
}

// ---------------------------------------------------------------- what is said beside

function roundNotes({ job, walk, speech }: Desk, move: MoveIndex): readonly Node[] {
  const notes: Node[] = [];
  for (const [at, round] of walk.rounds) {
    const loop = job.moves[at];
    if (loop?.type !== 'loop' || move < at || move >= loop.end) continue;
    notes.push(element('p', { class: 'round' }, speech.say('round', { round, times: loop.times })));
  }
  return notes;
}

function keepNotes(desk: Desk, move: MoveIndex, unit: Unit): readonly Node[] {
  return unit.keeps.flatMap((index) => {
    const keep = desk.job.keeps[index];
    if (keep === undefined) return [];
    const at = { move, keep: index };
    const judged = desk.walk.keeps.get(move)?.[index];
    const known = judged?.from === undefined && judged?.passed === false ? judged : keepAnswer(desk, at);
    const broken = () => desk.add({ type: 'keep', ...at, passed: false });
    const told =
      known?.from === undefined ? [] : [followed(desk, desk.speech.say(known.passed ? 'passed' : 'failed'), known)];
    const out = judged ? failed(desk, at, judged, keep.exit) : [];
    const press = out.length > 0 ? [] : [button(desk.speech.say('keepBroken'), broken)];
    return [element('div', { class: 'keep-note' }, element('p', {}, keep.text), ...told, ...out, ...press)];
  });
}

/** At its own step, and at each signature after it: whoever signs knows what was gone on over. */
function wentOnNotes({ job, walk, speech }: Desk, move: MoveIndex, unit: Unit): readonly string[] {
  const signedAt = Math.max(0, ...(walk.visits.get(move) ?? []).map(({ at }) => at));
  const isSigned = unit.lines.some(({ type }) => type === 'sign');
  const isOpen = walk.next.includes(move) || walk.opened.has(move);
  return walk.wentOn.flatMap((one) => {
    if (one.move === move) return [wentOnText(one, speech)];
    return isSigned && (isOpen || signedAt >= one.at)
      ? [speech.labelled(unitName(job, one.move), wentOnText(one, speech))]
      : [];
  });
}

function visitNote({ speech }: Desk, unit: Unit, visit: Visit, round: number | undefined): HTMLElement {
  const { say, timeOfDay } = speech;
  const head = visit.leftOut ? say('leftOut') : say('doneAt', { time: timeOfDay(visit.at) });
  const values = [...visit.lines].map(([index, state]) => valueText(unit.lines[index], state, speech)).filter(Boolean);
  const text = [round === undefined ? head : `${round}. ${head}`, ...values, visit.reason].filter(Boolean).join(' · ');
  return element('p', { class: 'entry' }, text);
}

function valueText(line: JobLine | undefined, { value, values, unit }: LineState, speech: Speech): string {
  if (values) return fieldTexts(line, values, speech).join(' · ');
  if (value === undefined) return '';
  if (line?.type === 'reading') return `${value} ${line.units[unit ?? 0] ?? ''}`;
  return line?.type === 'record' ? `${value} ${line.unit ?? ''}`.trim() : value;
}

/** The printed boxes show what is done, also on paper; one for each time where there are several. */
function tickPrintedBoxes(place: HTMLElement, visits: readonly Visit[], lines: Visit['lines'] = new Map()): void {
  const single = place.querySelectorAll<HTMLElement>(':scope > .tick > .box');
  const several = place.querySelectorAll<HTMLElement>(':scope > .lines > .times .box');
  for (const box of place.querySelectorAll(':scope > .lines > .line > .sentence > .letter > .box')) {
    box.classList.toggle('is-ticked', visits[0]?.leftOut === false);
  }
  (several.length > 0 ? several : single).forEach((box, index) => {
    box.classList.toggle('is-ticked', visits[index]?.leftOut === false);
  });
  place.querySelectorAll(':scope > .checklist > .line > .box').forEach((box, index) => {
    box.classList.toggle('is-ticked', lines.get(index)?.passed === true);
  });
}
