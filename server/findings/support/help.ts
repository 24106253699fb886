/** The help of a finding, made from its file: for `explain`, for the editor, and for the reference in README.md. */

import type { Example } from '../../../shared/finding.ts';
import { hiddenShown } from '../../../shared/hidden.ts';
import type { FindingSort, Source } from '../finding.ts';

/** The two texts of an example, complete. */
export function textsOf({ given, bad, good }: Example): { readonly bad: string; readonly good: string } {
  const before = given === undefined ? '' : `${given}\n`;
  return { bad: before + bad, good: before + good };
}

/** The page that `explain CODE` prints. */
export function helpPage(sort: FindingSort): string {
  const { code, level, title, help, sources, examples } = sort;
  const parts = [
    `${code} (${level}): ${title}`,
    `What it means\n${indented(help.what)}`,
    `Why it matters\n${indented(help.why)}`,
    `What to do\n${indented(help.whatToDo)}`,
    ...(sources.length > 0
      ? [`Published sources\n${sources.map((source) => indented(sourceWords(source))).join('\n')}`]
      : []),
    ...examples.flatMap(({ given, bad, good }) => [
      ...(given === undefined ? [] : [`Given\n${indented(given)}`]),
      `With the finding\n${indented(hiddenShown(bad))}`,
      `Mended\n${indented(good)}`,
    ]),
  ];
  return `${parts.join('\n\n')}\n`;
}

function sourceWords({ title, status }: Source): string {
  return status === 'from memory' ? `${title} (from memory: compare with the original)` : title;
}

function indented(text: string): string {
  return text.replace(/^(?=.)/gm, '  ');
}

/** The same page as Markdown. */
export function helpMarkdown(sort: FindingSort): string {
  return `# ${sort.title}\n\n\`${sort.code}\`, ${sort.level}\n\n${sectionOf(sort)}\n`;
}

/** The reference of all findings, as Markdown. */
export function reference(sorts: readonly FindingSort[]): string {
  const rows = sorts.map(({ code, level, title }) => `| [${code}](#${anchor(code)}) | ${level} | ${title} |`);
  return [
    '# Findings',
    'Made from the files in this folder by `npm run generate`. To change a page, change the file of that finding.',
    ['| code | level | |', '|---|---|---|', ...rows].join('\n'),
    ...sorts.map((sort) => `## ${sort.code}\n\n*${sort.level}*: ${sort.title}.\n\n${sectionOf(sort)}`),
    '',
  ].join('\n\n');
}

function sectionOf({ help, sources, examples }: FindingSort): string {
  return [
    help.what,
    `**Why it matters**: ${help.why}`,
    `**What to do**: ${help.whatToDo}`,
    ...(sources.length > 0 ? [`**Published sources**: ${sources.map(sourceWords).join('; ')}.`] : []),
    ...examples.flatMap(({ given, bad, good }) => [
      ...(given === undefined ? [] : ['Given:', fenced(given)]),
      'With the finding:',
      fenced(hiddenShown(bad)),
      'Mended:',
      fenced(good),
    ]),
  ].join('\n\n');
}

/** As the usual renderers of Markdown make it from a heading. */
function anchor(heading: string): string {
  return heading.toLowerCase().replaceAll('.', '');
}

function fenced(text: string): string {
  return `\`\`\`cardwright\n${text}\n\`\`\``;
}
