/**
 * A list that was written elsewhere, as steps of our own: each sentence is kept as a text. What could be an action is then found
 * (prose.unsaid-action), and its mend says it so, one sentence at a time.
 */
import { all, innermost, pathAt } from '../../grammar/navigate.ts';
import { asText } from '../findings/support/edits.ts';
import type { Snapshot } from '../snapshot.ts';

const marker = /^\s*(?:(?:\d+(?:\.\d+)*|[a-zA-Z]|[ivx]+)[.)]|\(\w{1,3}\)|\d+(?:\.\d+)+|[-*•–▪◦☐□]|\[[ xX]?\])\s+/u;
const admonition = /^(danger|warning|caution|note)\s*[:.–-]\s*/i;

/**
 * @param roles names of the roles that do the steps.
 * @returns statements, one a line; empty where the list holds no sentence.
 */
export function stepsFromList(list: string, roles: readonly string[] = []): string {
  const head = ['step', ...roles.map((role) => `by ${role}`)].join(' ');
  return entriesOf(list)
    .map((entry) => statementOf(entry, head))
    .join('\n');
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

function statementOf(entry: string, head: string): string {
  const level = admonition.exec(entry)?.[1]?.toLowerCase();
  return level ? `${level} ${asText(entry.replace(admonition, ''))}` : `${head} ${asText(entry)}`;
}
