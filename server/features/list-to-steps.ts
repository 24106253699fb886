/**
 * A list that was written elsewhere, as steps of our own: each sentence is kept as a text. What could be an action is then found
 * (prose.unsaid-action), and its mend says it so, one sentence at a time.
 */
import { all, innermost, pathAt } from '../../grammar/navigate.ts';
import type { Role } from '../../shared/card.ts';
import { asText } from '../findings/support/edits.ts';
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
  const named = namedFirst(entry, crew);
  const by = (named ? [named.role.name] : roles).map((role) => ` by ${role}`).join('');
  return `step${by} ${asText(named?.sentence ?? entry)}`;
}

/** Who is named before a sentence, by name, by label or by the first letters of either, where only one role is meant. */
function namedFirst(entry: string, crew: readonly Member[]): { role: Member; sentence: string } | undefined {
  const found =
    /^(?:\((?<inside>[\p{L}][\p{L}\p{N} .-]*)\):?|(?<before>\p{L}[\p{L}\p{N} -]*):)\s+(?<sentence>.+)$/su.exec(entry);
  const { inside, before, sentence = '' } = found?.groups ?? {};
  const who = (inside ?? before ?? '').replace(/\.$/u, '');
  const meant = crew.filter(({ name, label }) => [name, label].some((one) => isCalled(one, who)));
  return found && meant.length === 1 ? { role: meant[0] as Member, sentence } : undefined;
}

/** Letters alone are capitals: `(a)` counts the entries of a list. */
function isCalled(name: string, who: string): boolean {
  const letters = name.split(/[\s-]+/u).map((word) => word.charAt(0).toUpperCase());
  return who.toLowerCase() === name.toLowerCase() || who === letters[0] || who === letters.join('');
}
