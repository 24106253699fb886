/** A look with what is done where it fails, said in the sentence behind it: `… It must be below 5 bar. If it is not, wait 5 minutes.` */
import { capital } from '../../../shared/text.ts';
import { sortsOf } from '../../prose/english.ts';
import type { Said } from '../../prose/recognise.ts';

const greater = '(?:higher|more|greater|above|over)';
const less = '(?:lower|less|below|under)';
const about = '(?:(?:it|they|the (?:reading|value|pressure|temperature)) (?:is|are) )?';
/** How a sentence begins that speaks of the look before it having failed, and which looks it can speak of. */
const failures: readonly (readonly [RegExp, RegExp])[] = [
  [/^(?:if|when) (?:(?:it|they|this|that) (?:is|are|does|do|has) )?not,\s*/i, /./u],
  [new RegExp(`^(?:if|when) ${about}${greater},\\s*`, 'iu'), /\b(?:at most|below|to|exactly)\b/u],
  [new RegExp(`^(?:if|when) ${about}${less},\\s*`, 'iu'), /\b(?:at least|above|to|exactly)\b/u],
  [new RegExp(`^(?:if|when) ${about}outside(?: this| it)?,\\s*`, 'iu'), /\bto\b/u],
];

/** It is asked again without saying so. */
const again = /^(?:read|check|look|measure|try|repeat)\b.*\b(?:again|once more)$/i;
const ends = /^(?:stop(?: here| there| work| the (?:job|work))?|do not (?:go on|continue))$/i;

/**
 * @param head of the steps that are done then, such as `step by fitter`.
 * @returns the look as an action with its `else`; undefined where the sentence speaks of something else, or says what is not understood.
 */
export function withElse(look: Said, sentence: string, done: readonly Said[], head: string): string | undefined {
  const [action] = look.actions;
  if ((look.sort !== 'read' && look.sort !== 'look') || look.conditional !== false || action === undefined)
    return undefined;
  const lead = failures.find(([words, asked]) => words.test(sentence) && asked.test(action))?.[0].exec(sentence)?.[0];
  if (lead === undefined) return undefined;
  const steps = clausesOf(sentence, lead.length).map((clause) => stepOf(clause, done, head));
  return steps.includes(undefined) ? undefined : `${action} else { ${steps.filter((step) => step !== '').join(' ')} }`;
}

interface Clause {
  readonly at: number;
  readonly text: string;
}

function clausesOf(sentence: string, from: number): Clause[] {
  const clauses: Clause[] = [];
  let at = from;
  for (const link of sentence.slice(from).matchAll(/,?\s+(?:and|then)(?: then)?\s+|,\s+|;\s+|[.!]?$/gu)) {
    const end = from + link.index;
    if (end > at) clauses.push({ at, text: sentence.slice(at, end) });
    at = end + link[0].length;
  }
  return clauses;
}

/** A clause as a step, or nothing where the look is asked again anyhow; undefined where it is no order. */
function stepOf({ at, text }: Clause, done: readonly Said[], head: string): string | undefined {
  if (again.test(text)) return '';
  const words = `"${capital(text)}."`;
  if (ends.test(text)) return `stop ${words}`;
  const said = done.find((one) => one.at === at);
  if (said?.actions.length === 1)
    return said.more ? `${head} ${words} ${said.actions[0]}` : `${head} ${said.actions[0]}`;
  return said === undefined && sortsOf(capital(text)).get(0)?.root !== undefined ? `${head} ${words}` : undefined;
}
