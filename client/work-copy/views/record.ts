/** The end of a job: the fields that a record needs, and the record itself. */
import { shortDigest } from '../../../shared/page-text.ts';
import type { Desk } from '../desk.ts';
import { button, element, faultLine, field, form, glued, submit, textInput } from '../dom.ts';
import type { Entry, RecordFile } from '../entries.ts';
import { unitName } from '../follow.ts';
import { openConflicts } from '../merge.ts';
import { recordRows, wentOnText } from '../record.ts';
import { isName } from '../texts.ts';
import { askReason } from './reason.ts';

export function showRecord(
  desk: Desk,
  sealed: Promise<RecordFile>,
  entries: readonly Entry[],
  place: HTMLElement,
): void {
  const { walk, speech, job } = desk;
  place.replaceChildren();
  if (walk.ended === undefined) return;
  const { say } = speech;
  place.append(
    element('h2', {}, say('recordTitle')),
    element('p', {}, walk.ended === 'stopped' ? say('stopped') : say('finished')),
    asked(desk, entries),
    element('p', {}, [job.number, job.title, job.revision].filter(Boolean).join(' · ')),
    digestLine(desk, sealed),
    wentOnList(desk),
    entryTable(desk, entries),
  );
}

/** What is still owed before there is a record, one after another. */
function asked(desk: Desk, entries: readonly Entry[]): HTMLElement {
  const { walk, speech } = desk;
  if (walk.owesReason) return whyStopped(desk);
  if (openConflicts(entries).length > 0) return element('p', { class: 'fault' }, speech.say('settleFirst'));
  return walk.finish ? filledFields(desk, walk.finish.fields) : fieldsForm(desk);
}

/** The same as in the file, so that paper and file can be held together. */
function digestLine({ speech }: Desk, sealed: Promise<RecordFile>): HTMLElement {
  const line = element('p', { class: 'digest' });
  void sealed.then(({ digest }) => {
    line.textContent = digest === undefined ? '' : speech.say('recordDigest', { digest: shortDigest(digest) });
  });
  return line;
}

/** What a reader of the record must not overlook. */
function wentOnList({ job, walk, speech }: Desk): HTMLElement | string {
  if (walk.wentOn.length === 0) return '';
  const rows = walk.wentOn.map((one) =>
    element('li', {}, speech.labelled(unitName(job, one.move), wentOnText(one, speech))),
  );
  return element('div', { class: 'went-on' }, element('h3', {}, speech.say('wentOnOver')), element('ul', {}, ...rows));
}

function whyStopped(desk: Desk): HTMLElement {
  const place = element('div', { class: 'controls' });
  const take = (reason: string) => desk.add({ type: 'why-stopped', reason });
  askReason(place, desk.speech.say('reasonForStop'), desk, take, { isOwed: true });
  return place;
}

function fieldsForm({ speech, job, walk, add }: Desk): HTMLElement {
  const { fields } = job.record;
  const inputs = fields.map(({ sort }) => {
    const name = [...new Set(walk.names)].join(', ');
    return textInput({ value: sort === 'work' ? job.title : sort === 'name' ? name : '' });
  });
  const fault = faultLine();
  const finish = () => {
    const unnamed = inputs.find(({ value }, index) => fields[index]?.sort === 'name' && !isName(value));
    if (unnamed === undefined) add({ type: 'finish', fields: inputs.map(({ value }) => value.trim()) });
    else {
      fault.textContent = speech.say('nameNeeded');
      unnamed.focus();
    }
  };
  const rows = fields.flatMap(({ text, sort }, index) => {
    const input = inputs[index];
    return input && sort !== 'hand' && sort !== 'date' ? [field(text, input)] : [];
  });
  return form(finish, element('p', {}, speech.say('finishMeaning')), ...rows, fault, submit(speech.say('finish')));
}

function filledFields({ job, walk, speech }: Desk, fields: readonly string[]): HTMLElement {
  const at = walk.finish?.at ?? 0;
  const rows = job.record.fields.map(({ text, sort }, index) => {
    const value = sort === 'date' ? `${speech.day(at)} ${speech.timeOfDay(at)}` : fields[index] || '–';
    const shown =
      sort === 'hand' ? element('dd', {}, element('span', { class: 'blank wide' })) : element('dd', {}, value);
    return element('div', {}, element('dt', {}, text), shown);
  });
  return element(
    'div',
    {},
    ...(job.record.meaning === '' ? [] : [element('p', {}, job.record.meaning)]),
    element('dl', { class: 'record-fields' }, ...rows),
    button(speech.say('print'), () => window.print(), { class: 'main controls' }),
  );
}

function entryTable({ job, speech }: Desk, entries: readonly Entry[]): HTMLElement {
  const { say } = speech;
  const heads = [say('time'), say('where'), say('what')].map((text) => element('th', { scope: 'col' }, text));
  let day = '';
  const rows = recordRows(job, entries, speech).map(({ at, where, what, undone }) => {
    const time = [speech.day(at) === day ? '' : speech.day(at), speech.timeOfDay(at)].join(' ').trim();
    day = speech.day(at);
    const text = glued(what);
    const cell = element('td', {}, ...(undone ? [element('del', {}, ...text), ` (${say('undone')})`] : text));
    return element('tr', {}, element('td', {}, time), element('td', {}, where), cell);
  });
  return element('table', {}, element('thead', {}, element('tr', {}, ...heads)), element('tbody', {}, ...rows));
}
