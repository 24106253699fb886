/** Where two records say different things of one step: both, and who says which counts. */
import type { Desk } from '../desk.ts';
import { button, element, faultLine, field, form, submit, textInput } from '../dom.ts';
import type { Entry } from '../entries.ts';
import { openConflicts } from '../merge.ts';
import { type Row, recordRows } from '../record.ts';
import { isName } from '../texts.ts';

export function showConflicts(desk: Desk, entries: readonly Entry[], place: HTMLElement): void {
  const { job, speech } = desk;
  place.replaceChildren();
  const conflicts = openConflicts(entries);
  if (conflicts.length === 0) return;
  const rows = new Map(recordRows(job, entries, speech).map((row) => [row.id, row]));
  const shown = conflicts.map((sides) =>
    element(
      'div',
      { class: 'conflict' },
      ...sides.map((ids, index) => {
        const own = ids.flatMap((id) => rows.get(id) ?? []);
        return side(desk, own, speech.say(index === 0 ? 'entriesHere' : 'entriesReadIn'), sides[1 - index] ?? []);
      }),
    ),
  );
  place.append(element('h2', {}, speech.say('conflicts')), element('p', {}, speech.say('conflictsMeaning')), ...shown);
}

function side(desk: Desk, rows: readonly Row[], title: string, others: readonly string[]): HTMLElement {
  const { say, timeOfDay } = desk.speech;
  const lines = rows.map(({ at, where, what }) =>
    element('li', { dir: 'auto' }, [timeOfDay(at), where, what].filter(Boolean).join(' · ')),
  );
  const controls = element('div', { class: 'controls' });
  const press = button(say('thisCounts'), () => askName(desk, controls, others));
  controls.append(press);
  return element('div', {}, element('h3', {}, title), element('ul', {}, ...lines), controls);
}

function askName({ speech: { say }, add }: Desk, place: HTMLElement, of: readonly string[]): void {
  const name = textInput({ autocomplete: 'name' });
  const fault = faultLine();
  const before = Array.from(place.childNodes);
  const send = () => {
    const value = name.value.trim();
    if (isName(value)) add({ type: 'settle', of, name: value });
    else fault.textContent = say('nameNeeded');
  };
  const back = button(say('cancel'), () => place.replaceChildren(...before));
  place.replaceChildren(form(send, field(say('whoDecides'), name), fault, submit(say('thisCounts')), back));
  name.focus();
}
