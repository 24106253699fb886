/** What is asked before the first step: for which work on which machine, and who does it. Then it stands at the top and on each printed page. */
import type { Job } from '../../../shared/job.ts';
import type { Desk } from '../desk.ts';
import { choice, element, faultLine, field, form, submit, textInput } from '../dom.ts';
import { sharedName } from '../people.ts';
import { headLabels, headRows, machineField, numbered } from '../record.ts';
import type { Walk } from '../state.ts';
import { isName } from '../texts.ts';
import { peopleOf, type Speech } from '../words.ts';

type Head = NonNullable<Walk['head']>;

/** `before` is what was entered and taken back. */
export function showHead(desk: Desk, before: Head | undefined, place: HTMLElement): void {
  const { job, walk, speech } = desk;
  place.replaceChildren(walk.head ? filled(job, walk.head, speech) : headForm(desk, before));
  printHead(job, walk.head, speech);
  // The table of the crew has a row for each role.
  document.querySelectorAll('.crew td.fill').forEach((cell, index) => {
    cell.textContent = walk.head?.names[index] ?? '';
  });
}

function headForm({ job, speech, signal, add }: Desk, before: Head | undefined): HTMLElement {
  const values = job.head.map((_, index) => textInput({ value: before?.values[index] ?? '' }));
  const names = peopleOf(job, speech).map((_, index) =>
    textInput({ autocomplete: 'name', value: before?.names[index] ?? '' }),
  );
  const machine = job.variants.map(({ values: own }, index) =>
    choice(['–', ...own], (before?.machine[index] ?? -1) + 1),
  );
  const texts = (inputs: readonly HTMLInputElement[]) => inputs.map(({ value }) => value.trim());
  const fault = faultLine();
  let asked: string | undefined;
  const send = () => {
    const unit = values[machineField];
    const empty =
      unit?.value.trim() === ''
        ? unit
        : (machine.find(({ value }) => value === '0') ?? names.find(({ value }) => !isName(value)));
    const chosen = machine.map(({ value }) => Number(value) - 1);
    if (empty !== undefined) {
      fault.textContent = speech.say('headMissing');
      empty.focus();
      return;
    }
    const name = sharedName(texts(names));
    if (name === undefined || name === asked)
      add({ type: 'head', values: texts(values), names: texts(names), machine: chosen });
    else fault.textContent = speech.say('onePerson', { name, button: speech.say('headDone') });
    asked = name;
  };
  signal.prepare();
  return form(
    send,
    element('p', {}, speech.say('headMeaning')),
    ...headLabels(job, speech).map((text, index) => field(text, values[index] as HTMLInputElement)),
    ...job.variants.map(({ label }, index) => field(label, machine[index] as HTMLSelectElement)),
    ...peopleOf(job, speech).map((text, index) => field(text, names[index] as HTMLInputElement)),
    fault,
    submit(speech.say('headDone')),
  );
}

function filled(job: Job, head: Head, speech: Speech): HTMLElement {
  const rows = headRows(job, head, speech).map(([text, value]) =>
    element('div', {}, element('dt', {}, text), element('dd', { dir: 'auto' }, value || '–')),
  );
  return element('dl', { class: 'record-fields' }, ...rows);
}

/** Puts what was entered in place of the blanks in the margins of each sheet. */
function printHead(job: Job, head: Head | undefined, { labelled }: Speech): void {
  const sheet = new CSSStyleSheet();
  if (head) {
    const number = numbered(job).flatMap((index) => job.variants[index]?.values[head.machine[index] ?? -1] ?? []);
    const values = head.values.map((value, index) => [value, ...(index === machineField ? number : [])].join(', '));
    const line = job.head.map((text, index) => labelled(text, values[index] || '–')).join('   ');
    // What was entered may be longer than the blanks were.
    sheet.replaceSync(
      `@page { @top-left { content: ${cssString(`${job.running}\n${line}`)}; white-space: pre-wrap; width: 76%; } }`,
    );
  }
  document.adoptedStyleSheets = [sheet];
}

/** As characters by their number, so that nothing in a text can end the string. */
function cssString(text: string): string {
  return `"${[...text].map((character) => `\\${(character.codePointAt(0) ?? 0).toString(16)} `).join('')}"`;
}
