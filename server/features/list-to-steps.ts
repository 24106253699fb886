/**
 * A list that was written elsewhere, as steps of our own: each sentence is kept as a text. What could be an action is then found
 * (prose.unsaid-action), and its mend says it so, one sentence at a time.
 */

import { all, innermost, pathAt } from '../../grammar/navigate.ts';
import type { Role } from '../../shared/card.ts';
import { lazily } from '../../shared/lazily.ts';
import { lowered } from '../../shared/text.ts';
import { asText } from '../findings/support/edits.ts';
import { orderOf, sortsOf } from '../prose/english.ts';
import type { Snapshot } from '../snapshot.ts';
import { cardAt } from './steps.ts';

const marker =
  /^\s*(?:(?:\d+(?:\.\d+)*|[a-zA-Z]|[ivx]+)[.)]|\((?:\d{1,3}|[a-z]|[ivx]+)\)|\d+(?:\.\d+)+|[-*•–▪◦☐□]|\[[ xX]?\])\s+/u;
const admonition = /^(danger|warning|caution|note)\s*[:.–-]\s*/i;

/**
 * @param roles names of the roles that do the steps for which the list names nobody else.
 * @param crew who may be named before a sentence: `(M) Look.`, `Mechanic: Look.`
 * @returns statements, one a line; empty where the list holds no sentence.
 */
export function stepsFromList(list: string, roles: readonly string[] = [], crew: readonly Member[] = []): string {
  return entriesOf(list)
    .map((entry) => statementOf(entry, roles, crew))
    .join('\n');
}

type Member = Pick<Role, 'name' | 'label'>;

/** The roles of the card round an offset. */
export function crewAt(snapshot: Snapshot, offset: number): readonly Member[] {
  return cardAt(snapshot, offset)?.crew ?? [];
}

/** Who does the step above an offset. In a lane with no step above none is named: all steps there are by its role. */
export function rolesAbove({ parsed }: Snapshot, offset: number): string[] {
  const path = pathAt(parsed.file, offset);
  const around = innermost(path, 'lane', 'card', 'procedure');
  const above = around && all(around, 'step').findLast(({ end }) => end <= offset);
  return (above?.parts ?? []).flatMap((part) => (part.type === 'by' && part.role ? [part.role.text] : []));
}

/** The sentences of a list. In a list with markers, a line without one goes on with the entry above it. */
function entriesOf(list: string): string[] {
  const lines = list.split(/\r\n|\n|\r/);
  const marked = lines.some((line) => marker.test(line));
  const entries: string[] = [];
  let open = false;
  for (const line of lines) {
    const text = line.replace(marker, '').trim();
    const goesOn = open && marked && !marker.test(line) && !admonition.test(text);
    if (goesOn && text) entries.push(`${entries.pop()} ${text}`);
    else if (text) entries.push(text);
    open = text !== '';
  }
  return entries;
}

function statementOf(entry: string, roles: readonly string[], crew: readonly Member[]): string {
  const level = admonition.exec(entry)?.[1]?.toLowerCase();
  if (level) return `${level} ${asText(entry.replace(admonition, ''))}`;
  return toldOf(entry, crew)
    .map(({ role, text }) => {
      const by = (role ? [role.name] : roles).map((name) => ` by ${name}`).join('');
      return `step${by} ${asText(text)}`;
    })
    .join('\n');
}

interface Told {
  readonly role: Member | undefined;
  readonly text: string;
}

const segmenter = lazily(() => new Intl.Segmenter('en', { granularity: 'sentence' }));

/** What an entry tells somebody to do. A sentence that says what another one does begins a step of its own. */
function toldOf(entry: string, crew: readonly Member[]): Told[] {
  const named = namedFirst(entry, crew);
  const told: Told[] = [{ role: named?.role, text: '' }];
  for (const { segment } of segmenter().segment(named?.text ?? entry)) {
    const before = told.at(-1) as Told;
    const doing = doneBy(segment, crew) ?? goingOn(segment, before);
    const text = doing?.text ?? segment;
    if (doing && before.text !== '' && doing.role !== before.role) told.push({ role: doing.role, text });
    else told[told.length - 1] = { role: doing?.role ?? before.role, text: before.text + text };
  }
  return told.map(({ role, text }) => ({ role, text: text.trim() }));
}

/** `(M) Look.`, `Mechanic: Look.`: by name, by label or by the first letters of either, where only one role is meant. */
function namedFirst(entry: string, crew: readonly Member[]): Told | undefined {
  const found = /^(?:\((?<inside>\p{L}[\p{L}\p{N} .-]*)\):?|(?<before>\p{L}[\p{L}\p{N} -]*):)\s+(?<text>.+)$/su.exec(
    entry,
  )?.groups;
  const role = found && memberCalled((found.inside ?? found.before ?? '').replace(/\.$/u, ''), crew);
  return role && { role, text: found.text ?? '' };
}

/** `M opens the valve.`, `The mechanic opens the valve.` */
function doneBy(sentence: string, crew: readonly Member[]): Told | undefined {
  const words = sentence.split(' ');
  for (const count of [1, 2, 3]) {
    const who = words.slice(0, count).join(' ').replace(/^the /i, '');
    const role = memberCalled(who, crew);
    const text = role && orderOf(words.slice(count).join(' '));
    if (text !== undefined) return { role, text };
  }
  return undefined;
}

/** `Removes the pin.`, after a sentence that says who does it. */
function goingOn(sentence: string, { role, text }: Told): Told | undefined {
  const isVerb = sortsOf(sentence).get(0)?.root !== undefined;
  const order = role && text !== '' && isVerb ? orderOf(lowered(sentence)) : undefined;
  return order === undefined ? undefined : { role, text: order };
}

function memberCalled(who: string, crew: readonly Member[]): Member | undefined {
  const meant = crew.filter(({ name, label }) => [name, label].some((one) => isCalled(one, who)));
  return meant.length === 1 ? meant[0] : undefined;
}

/** Letters alone are capitals: `(a)` counts the entries of a list. */
function isCalled(name: string, who: string): boolean {
  const letters = name.split(/[\s-]+/u).map((word) => word.charAt(0).toUpperCase());
  return who.toLowerCase() === name.toLowerCase() || who === letters[0] || who === letters.join('');
}
