/** Signatures, and those of somebody who inspects what another did. */
import type { JobLine, MoveIndex } from '../../../shared/job.ts';
import type { Desk } from '../desk.ts';
import { element, faultLine, field, form, submit, textInput } from '../dom.ts';
import type { Happening } from '../entries.ts';
import type { LineState } from '../state.ts';
import { isName, isSameName } from '../texts.ts';
import { type At, textForm } from './entries.ts';

type SignLine = Extract<JobLine, { type: 'sign' }>;

export function signControls(desk: Desk, at: At, line: SignLine, state: LineState): readonly Node[] {
  const { say } = desk.speech;
  if (state.value !== undefined) return [element('p', { class: 'verdict' }, say('signedBy', { name: state.value }))];
  if (line.independent) return [inspectionForm(desk, at)];
  const take = (name: string): Happening | undefined => {
    const isOwn = isName(name) && !inspectors(desk, at.move).some((other) => isSameName(other, name));
    return isOwn ? { type: 'sign', ...at, name } : undefined;
  };
  const fault = (name: string) => say(isName(name) ? 'sameName' : 'nameNeeded');
  return [textForm(desk, at, { label: say('name'), action: say('sign'), fault, autocomplete: 'name', take })];
}

/** Nobody inspects their own work. */
function inspectionForm(desk: Desk, at: At): HTMLFormElement {
  const { drafts, speech } = desk;
  const { say } = speech;
  const workers = namesAt(desk, at.move, false);
  const by = textInput({ value: drafts.text(at, 1) ?? workers[0] ?? '' });
  const name = textInput({ value: drafts.text(at) ?? '', class: 'wanted' });
  const fault = faultLine();
  const take = (): Happening | undefined => {
    const [own, other] = [name.value.trim(), by.value.trim()];
    const isSame = [...workers, other].some((worker) => isSameName(worker, own));
    fault.textContent = isName(own) && isName(other) ? (isSame ? say('sameName') : '') : say('nameNeeded');
    return fault.textContent === '' ? { type: 'sign', ...at, name: own, by: other } : undefined;
  };
  for (const [part, input] of [name, by].entries()) {
    input.addEventListener('input', () => {
      fault.textContent = '';
      drafts.type(at, input.value, part);
    });
  }
  drafts.offer(at, take);
  const send = () => {
    const taken = take();
    if (taken) desk.add(taken);
  };
  return form(send, field(say('workBy'), by), field(say('inspector'), name), submit(say('sign')), fault);
}

const inspectors = (desk: Desk, move: MoveIndex) => namesAt(desk, move, true);

/** Who has signed in this unit: as those who inspect, or as those who did the work. */
function namesAt({ job, walk }: Desk, move: MoveIndex, independent: boolean): readonly string[] {
  const unit = job.moves[move];
  return [...(walk.lines.get(move) ?? [])].flatMap(([index, { value }]) => {
    const line = unit?.type === 'unit' ? unit.lines[index] : undefined;
    return line?.type === 'sign' && (line.independent === true) === independent && value ? [value] : [];
  });
}
