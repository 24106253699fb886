/** Takes a sentence out of the text of a step and says it as an action, in the order in which it was written. */
import type * as syntax from '../../../grammar/syntax.ts';
import type { TextEdit } from '../../../shared/finding.ts';
import { capital, type Place } from '../../../shared/text.ts';

export interface Saying {
  readonly actions: readonly string[];
  /** The sentence. */
  readonly place: Place;
  /** The end of the sentence, where that asks for something else. */
  readonly rest?: string | undefined;
  /** The sentence says more than the actions: it stays as their text. */
  readonly keeps: boolean;
}

export function asSteps(
  { actions, place: sentence, rest, keeps }: Saying,
  step: syntax.Step,
  text: syntax.Text,
  source: string,
): TextEdit[] {
  const place = { file: sentence.file, start: text.start, end: text.end };
  const before = unquoted(source.slice(text.start + 1, keeps ? sentence.end : sentence.start));
  const after = [rest && capital(rest), unquoted(source.slice(sentence.end, text.end - 1))].filter(Boolean).join(' ');
  const first = before === '' ? '' : `"${before}" `;
  const said = actions.join('   ');
  const action = actions.length > 1 && !step.braces ? `{ ${said} }` : said;
  // What is said after it becomes a step of its own: a text is read before the actions of its step.
  if (after !== '') {
    const line = source.slice(source.lastIndexOf('\n', step.start) + 1, step.start);
    const between = line.trim() === '' ? `${/\r?\n/.exec(source)?.[0] ?? '\n'}${line}` : ' ';
    const block = actions.length > 1 ? `{ ${said} }` : said;
    return [{ place, newText: `${first}${block}${between}${headOf(step)} "${after}"` }];
  }
  const done = step.actions[0];
  const last = step.parts.at(-1) ?? text;
  if (done === undefined && last === text) return [{ place, newText: `${first}${action}` }];
  const cut = { place: first === '' ? withBlank(place, source) : place, newText: first.trimEnd() };
  if (done === undefined) return [cut, insertion(place, last.end, ` ${action}`)];
  if (step.braces) return [cut, insertion(place, step.braces.start + 1, ` ${said} `)];
  return [
    cut,
    insertion(place, done.start, `{ ${said} `),
    insertion(place, step.actions.at(-1)?.end ?? done.end, ' }'),
  ];
}

export function headOf({ parts }: syntax.Step): string {
  const roles = parts.flatMap((part) => (part.type === 'by' && part.role ? [`by ${part.role.text}`] : []));
  return ['step', ...roles].join(' ');
}

/** The strings of a text in several as one. */
function unquoted(text: string): string {
  return text
    .replace(/(?<!\\)"\s*"/gu, ' ')
    .replace(/(?<!\\)"\s*$/u, '')
    .replace(/^\s*"/u, '')
    .trim();
}

function withBlank(place: Place, source: string): Place {
  const blank = /^[ \t]*/.exec(source.slice(place.end))?.[0].length ?? 0;
  return { ...place, end: place.end + blank };
}

function insertion({ file }: Place, at: number, newText: string): TextEdit {
  return { place: { file, start: at, end: at }, newText };
}
