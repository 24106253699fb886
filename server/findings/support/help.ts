/** The help of a finding, made from its file: for `explain`, for the editor, and for the reference in README.md. */
import type { FindingSort, Source } from '../finding.ts';

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
    ...examples.flatMap(({ bad, good }) => [`With the finding\n${indented(bad)}`, `Mended\n${indented(good)}`]),
  ];
  return `${parts.join('\n\n')}\n`;
}

export function sourceWords({ title, status }: Source): string {
  return status === 'from memory' ? `${title} (from memory: compare with the original)` : title;
}

function indented(text: string): string {
  return text.replace(/^(?=.)/gm, '  ');
}

/** The reference of all findings, as Markdown. */
export function reference(sorts: readonly FindingSort[]): string {
  const rows = sorts.map(({ code, level, title }) => `| [${code}](#${anchor(code)}) | ${level} | ${title} |`);
  return [
    '# Findings',
    'Made from the files in this folder by `npm run generate`. To change a page, change the file of that finding.',
    ['| code | level | |', '|---|---|---|', ...rows].join('\n'),
    ...sorts.map(section),
    '',
  ].join('\n\n');
}

function section({ code, level, title, help, sources, examples }: FindingSort): string {
  return [
    `## ${code}`,
    `*${level}*: ${title}.`,
    `${help.what} ${help.why}`,
    `**What to do**: ${help.whatToDo}`,
    ...(sources.length > 0 ? [`Published sources: ${sources.map(sourceWords).join('; ')}.`] : []),
    ...examples.flatMap(({ bad, good }) => ['With the finding:', fenced(bad), 'Mended:', fenced(good)]),
  ].join('\n\n');
}

/** As the usual renderers of Markdown make it from a heading. */
function anchor(heading: string): string {
  return heading.toLowerCase().replaceAll('.', '');
}

function fenced(text: string): string {
  return `\`\`\`cardwright\n${text}\n\`\`\``;
}
