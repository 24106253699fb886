/** The end of a job: the fields that a record needs, and the record itself. */
import type { Desk } from '../desk.ts';
import { button, element, field, form, submit, textInput } from '../dom.ts';
import type { Entry, RecordFields } from '../entries.ts';
import { unitName } from '../follow.ts';
import { recordRows, wentOnText } from '../record.ts';
import { isName } from '../texts.ts';
import { askReason } from './reason.ts';

export function showRecord(desk: Desk, entries: readonly Entry[], place: HTMLElement): void {
  const { walk, speech, job } = desk;
  place.replaceChildren();
  if (walk.ended === undefined) return;
  const { say } = speech;
  const fields = walk.finish?.fields;
  place.append(
    element('h2', {}, say('recordTitle')),
    element('p', {}, walk.ended === 'stopped' ? say('stopped') : say('finished')),
    walk.owesReason ? whyStopped(desk) : fields ? filledFields(desk, fields) : fieldsForm(desk),
    element('p', {}, [job.number, job.title, job.revision].filter(Boolean).join(' · ')),
    wentOnList(desk),
    entryTable(desk, entries),
  );
}

/** What a reader of the record must not overlook. */
function wentOnList({ job, walk, speech }: Desk): HTMLElement | string {
  if (walk.wentOn.length === 0) return '';
  const rows = walk.wentOn.map((one) => element('li', {}, `${unitName(job, one.move)}: ${wentOnText(one, speech)}`));
  return element('div', { class: 'went-on' }, element('h3', {}, speech.say('wentOnOver')), element('ul', {}, ...rows));
}

function whyStopped(desk: Desk): HTMLElement {
  const place = element('div', { class: 'controls' });
  const take = (reason: string) => desk.add({ type: 'why-stopped', reason });
  askReason(place, desk.speech.say('reasonForStop'), desk, take, { isOwed: true });
  return place;
}

const labels = [
  ['machine', 'machine'],
  ['workDone', 'workDone'],
  ['name', 'name'],
  ['certificate', 'certificate'],
  ['remarks', 'remarks'],
] as const satisfies readonly (readonly [keyof RecordFields, string])[];

function fieldsForm(desk: Desk): HTMLElement {
  const { speech, job } = desk;
  const inputs = new Map(labels.map(([key]) => [key, textInput({ value: key === 'workDone' ? job.title : '' })]));
  const value = (key: keyof RecordFields) => inputs.get(key)?.value.trim() ?? '';
  const fault = element('p', { class: 'fault', attributes: { role: 'alert' } });
  const finish = () => {
    if (!isName(value('name'))) {
      fault.textContent = speech.say('nameNeeded');
      inputs.get('name')?.focus();
      return;
    }
    const fields = {
      machine: value('machine'),
      workDone: value('workDone'),
      name: value('name'),
      certificate: value('certificate'),
      remarks: value('remarks'),
    };
    desk.add({ type: 'finish', fields });
  };
  const rows = labels.flatMap(([key, word]) => {
    const input = inputs.get(key);
    return input ? [field(speech.say(word), input)] : [];
  });
  return form(finish, element('p', {}, speech.say('finishMeaning')), ...rows, fault, submit(speech.say('finish')));
}

function filledFields({ walk, speech }: Desk, fields: RecordFields): HTMLElement {
  const rows = labels.map(([key, word]) =>
    element('div', {}, element('dt', {}, speech.say(word)), element('dd', {}, fields[key] || '–')),
  );
  const date = element(
    'div',
    {},
    element('dt', {}, speech.say('time')),
    element('dd', {}, `${speech.day(walk.finish?.at ?? 0)} ${speech.timeOfDay(walk.finish?.at ?? 0)}`),
  );
  return element(
    'div',
    {},
    element('dl', { class: 'record-fields' }, ...rows, date),
    button(speech.say('print'), () => window.print(), { class: 'main controls' }),
  );
}

function entryTable({ job, speech }: Desk, entries: readonly Entry[]): HTMLElement {
  const { say } = speech;
  const heads = [say('time'), say('where'), say('what')].map((text) =>
    element('th', { attributes: { scope: 'col' } }, text),
  );
  let day = '';
  const rows = recordRows(job, entries, speech).map(({ at, where, what, undone }) => {
    const time = [speech.day(at) === day ? '' : speech.day(at), speech.timeOfDay(at)].join(' ').trim();
    day = speech.day(at);
    const text = undone ? element('del', {}, what) : what;
    const cell = element('td', {}, text, undone ? ` (${say('undone')})` : undefined);
    return element('tr', {}, element('td', {}, time), element('td', {}, where), cell);
  });
  return element('table', {}, element('thead', {}, element('tr', {}, ...heads)), element('tbody', {}, ...rows));
}
