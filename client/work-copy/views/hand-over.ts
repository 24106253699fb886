/** The work changes hands in the middle: a page with who, what is open and how the machine stands, which is recorded and printed. */
import type { Job, MoveIndex } from '../../../shared/job.ts';
import { capital } from '../../../shared/text.ts';
import type { Desk } from '../desk.ts';
import { button, element, faultLine, field, form, submit, textInput } from '../dom.ts';
import { type Entry, standing } from '../entries.ts';
import { unitName, withWho } from '../follow.ts';
import { wentOnText } from '../record.ts';
import { isFailing, type Walk } from '../state.ts';
import { isName, isSameName } from '../texts.ts';
import { walk } from '../walk.ts';
import type { Speech } from '../words.ts';

type HandOver = Extract<Entry, { type: 'hand-over' }>;

/** Each hand-over so far, a page each, as things stood then. */
export function handOverPages({ job, speech }: Desk, entries: readonly Entry[]): readonly HTMLElement[] {
  const counting = standing(entries);
  return counting.flatMap((entry, index) =>
    entry.type === 'hand-over' ? [handOverPage(job, walk(job, counting.slice(0, index)), entry, speech)] : [],
  );
}

/** Asks who hands over and who takes over. */
export function handOverForm(desk: Desk, close: () => void): HTMLElement {
  const { say } = desk.speech;
  const from = textInput({ value: desk.walk.names[0] ?? '' });
  const to = textInput({ class: 'wanted', autocomplete: 'name' });
  const remarks = element('textarea', { rows: '2' });
  const fault = faultLine();
  const send = () => {
    const [own, other] = [from.value.trim(), to.value.trim()];
    fault.textContent = faultIn(own, other, desk);
    if (fault.textContent === '') desk.add({ type: 'hand-over', from: own, to: other, remarks: remarks.value.trim() });
  };
  return form(
    send,
    ...standingParts(desk.job, desk.walk, desk.speech),
    field(say('handsOver'), from),
    field(say('takesOver'), to),
    field(say('mustKnow'), remarks),
    fault,
    submit(say('handOver')),
    button(say('cancel'), close),
  );
}

/** Nothing would change hands by a name that nobody works under. */
function faultIn(from: string, to: string, { walk, speech }: Desk): string {
  if (!isName(from) || !isName(to)) return speech.say('nameNeeded');
  if (isSameName(from, to)) return speech.say('otherTakesOver');
  const isHere = walk.names.some((name) => isSameName(name, from));
  return isHere ? '' : speech.say('notHere', { names: [...new Set(walk.names)].join(', ') });
}

function handOverPage(job: Job, at: Walk, entry: HandOver, speech: Speech): HTMLElement {
  const { say } = speech;
  const rows = [
    [say('time'), `${speech.day(entry.at)} ${speech.timeOfDay(entry.at)}`],
    [say('handsOver'), entry.from],
    [say('takesOver'), entry.to],
    [say('mustKnow'), entry.remarks || '–'],
  ].map(([label = '', value = '']) =>
    element('div', {}, element('dt', {}, label), element('dd', { dir: 'auto' }, value)),
  );
  const signatures = [entry.from, entry.to].map((name) =>
    element('p', { class: 'blanks' }, `${say('signature')}, ${name}: `, element('span', { class: 'line-wide' })),
  );
  const page = element(
    'section',
    { class: 'hand-over' },
    element('h2', {}, say('handOverPage')),
    element('p', {}, [job.number, job.title, job.revision].filter(Boolean).join(' · ')),
    element('dl', { class: 'record-fields' }, ...rows),
    ...standingParts(job, at, speech),
    ...signatures,
    button(say('print'), () => printAlone(page), { class: 'main controls' }),
  );
  return page;
}

/** Nothing else of the card. */
function printAlone(page: HTMLElement): void {
  const mark = (is: boolean) => {
    document.body.classList.toggle('prints-page', is);
    page.classList.toggle('is-printed', is);
  };
  mark(true);
  window.addEventListener('afterprint', () => mark(false), { once: true });
  window.print();
}

// ---------------------------------------------------------------- how things stand

function standingParts(job: Job, at: Walk, speech: Speech): readonly HTMLElement[] {
  const { say } = speech;
  return [
    ...listed(say('comesNext'), nextTexts(job, at)),
    ...listed(say('isOpen'), openTexts(job, at, speech), say('nothingOpen')),
    ...listed(say('stateNow'), stateTexts(job, at, speech), say('noStateYet')),
  ];
}

function listed(title: string, texts: readonly string[], none = '–'): readonly HTMLElement[] {
  const items = (texts.length === 0 ? [none] : texts).map((text) => element('li', { dir: 'auto' }, text));
  return [element('h3', {}, title), element('ul', {}, ...items)];
}

function nextTexts(job: Job, { next }: Walk): readonly string[] {
  return next.map((index) => {
    const move = job.moves[index];
    if (move?.type === 'unit') return withWho(move);
    return move?.type === 'ask'
      ? move.text
      : move?.type === 'choose'
        ? move.ways.map(({ text }) => text).join(' / ')
        : '';
  });
}

/** What runs or waits, what is not as it must be, what was left out or gone on over. */
function openTexts(job: Job, at: Walk, speech: Speech): readonly string[] {
  const { say, timeOfDay } = speech;
  const begun = [...at.lines].flatMap(([move, lines]) =>
    [...lines].flatMap(([index, state]) => {
      const text = lineText(job, move, index);
      const own = (what: string) => `${unitName(job, move)}: ${text} ${what}`;
      if (state.began !== undefined && state.ended === undefined)
        return [own(say('stillRuns', { time: timeOfDay(state.began) }))];
      return isFailing(state) ? [own(say('notSo'))] : [];
    }),
  );
  const running = at.uses.flatMap((uses, index) => {
    const last = uses[uses.length - 1];
    if (last === undefined || last.to !== undefined) return [];
    return [`${capital(job.duties[index]?.label ?? '')}: ${say('stillRuns', { time: timeOfDay(last.from) })}`];
  });
  const leftOut = [...at.visits].flatMap(([move, visits]) =>
    visits
      .filter((visit) => visit.leftOut)
      .map(({ reason = '' }) => `${unitName(job, move)}: ${say('leftOut')}. ${reason}`.trim()),
  );
  const wentOn = at.wentOn.map((one) => `${unitName(job, one.move)}: ${wentOnText(one, speech)}`);
  return [...begun, ...running, ...leftOut, ...wentOn];
}

function lineText(job: Job, move: MoveIndex, line: number): string {
  const unit = job.moves[move];
  return unit?.type === 'unit' ? (unit.lines[line]?.text ?? '') : '';
}

function stateTexts(job: Job, { stands }: Walk, { say, timeOfDay }: Speech): readonly string[] {
  return [...stands].map(([index, { state, move, at }]) => {
    const item = job.items[index];
    const since = say('since', { where: unitName(job, move), time: timeOfDay(at) });
    return [item?.states[state] ?? '', since, item?.drifts ? say('mayHaveChanged') : ''].filter(Boolean).join(' ');
  });
}
