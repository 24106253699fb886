/** The page of a rulebook, made from its own text: for `explain`, for the editor, and for the list in README.md. */

import { all } from '../../grammar/navigate.ts';
import { parse } from '../../grammar/parse.ts';
import type { Rule } from '../../grammar/syntax.ts';
import { capital } from '../../shared/text.ts';
import { type Rulebook, withSlip } from './rulebook.ts';
import { allRulebooks } from './rulebooks.ts';

/** The page of `std:NAME`, or of one rule (`std:NAME/RULE`), as Markdown; undefined where there is none. */
export function rulebookPage(wanted: string): string | undefined {
  const [name, ruleName] = wanted.split('/');
  const rulebook = allRulebooks.find((one) => one.name === name);
  if (rulebook === undefined) return undefined;
  if (ruleName === undefined) return `# ${rulebook.name}\n\n${wholeOf(rulebook)}`;
  const rule = rulesOf(rulebook).find((one) => one.name?.text === ruleName);
  if (rule === undefined) return undefined;
  const kept = rulebook.good ? `\n\n## A card that keeps it\n\n${fenced(rulebook.good)}` : '';
  return `# ${titleOf(rule)}\n\n${sectionOf(rule, rulebook)}\n\nIt comes with \`use "${rulebook.name}"\`.${kept}\n`;
}

/** All that are shipped, as Markdown. */
export function rulebooksReference(): string {
  return `# Rulebooks

Made from the files in this folder by \`npm run generate\`. A card or an equipment file takes one in with \`use\`; a shop
writes its own in the same way. Each “-” below is a line taken out of the good card, each “+” one put in: with that
change the rule is broken, and no other.

${allRulebooks.map((rulebook) => `## ${rulebook.name}\n\n${wholeOf(rulebook, '###')}`).join('\n')}`;
}

function wholeOf(rulebook: Rulebook, heading = '##'): string {
  const { about, findings = [], good, text } = rulebook;
  const rules = rulesOf(rulebook).map((rule) => `${heading} ${titleOf(rule)}\n\n${sectionOf(rule, rulebook)}`);
  const codes = findings.map((code) => `\`${code}\``).join(', ');
  return `${[
    about,
    ...(codes ? [`What rules cannot say is found by ${codes}.`] : []),
    ...rules,
    ...(good ? [`${heading} A card that keeps them all\n\n${fenced(good)}`] : []),
    ...(parse(text).file.declarations.length > 0 ? [`${heading} The text\n\n${fenced(text)}`] : []),
  ].join('\n\n')}\n`;
}

function rulesOf({ text }: Rulebook): readonly Rule[] {
  return all(parse(text).file, 'rule');
}

/** In a rule for each item of a kind, the name in the title stands for any of them. */
function titleOf({ title, each }: Rule): string {
  const kind = each?.kind?.text.replaceAll('-', ' ');
  const words = (title?.value ?? '').replaceAll(/\{[^}]*\}/g, `the ${kind}`);
  return capital(words);
}

function sectionOf({ name, because, sources }: Rule, { good = '', slips = {} }: Rulebook): string {
  const slip = slips[name?.text ?? ''] ?? [];
  const published = sources.map(({ value }) => value).join('; ') || 'common practice, no published source';
  return [
    `\`${name?.text}\`. ${because.map(({ value }) => value).join(' ')}`,
    `**Source**: ${published}.`,
    ...(slip.length > 0 ? [`Broken by:\n\n${fenced(changes(good, withSlip(good, slip)), 'diff')}`] : []),
  ].join('\n\n');
}

/** The lines that only one of two texts has, each with its neighbours, in the order of the text. */
function changes(good: string, bad: string): string {
  const rows = compared(good.split('\n'), bad.split('\n'));
  const isNear = (at: number) => [at - 1, at, at + 1].some((one) => (rows[one] ?? ' ').charAt(0) !== ' ');
  return rows.filter((_, at) => isNear(at)).join('\n');
}

/** Both texts in one, by a longest common subsequence: `  ` before a line of both, `- ` and `+ ` before those of one. */
function compared(before: readonly string[], after: readonly string[]): readonly string[] {
  const common = before.map(() => after.map(() => 0));
  const at = (left: number, right: number) => common[left]?.[right] ?? 0;
  for (let left = before.length - 1; left >= 0; left--) {
    for (let right = after.length - 1; right >= 0; right--) {
      const same = before[left] === after[right];
      const most = same ? at(left + 1, right + 1) + 1 : Math.max(at(left + 1, right), at(left, right + 1));
      (common[left] as number[])[right] = most;
    }
  }
  const rows: string[] = [];
  let [left, right] = [0, 0];
  while (left < before.length || right < after.length) {
    const [old, young] = [before[left], after[right]];
    if (old !== undefined && old === young) {
      rows.push(`  ${old.trim()}`);
      left++;
      right++;
    } else if (old !== undefined && (young === undefined || at(left + 1, right) >= at(left, right + 1))) {
      rows.push(`- ${old.trim()}`);
      left++;
    } else {
      rows.push(`+ ${young?.trim()}`);
      right++;
    }
  }
  return rows;
}

function fenced(text: string, language = 'cardwright'): string {
  return `\`\`\`${language}\n${text.trimEnd()}\n\`\`\``;
}
