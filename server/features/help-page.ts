/** The help of a finding as a page of Markdown. */
import type { FindingSort } from '../findings/finding.ts';
import { sourceWords } from '../findings/support/help.ts';
import { list, paragraphs } from './markdown.ts';

export function helpMarkdown({ code, level, title, help, sources, examples }: FindingSort): string {
  return paragraphs(
    `# ${title}`,
    `\`${code}\`, ${level}`,
    help.what,
    `## Why it matters`,
    help.why,
    `## What to do`,
    help.whatToDo,
    sources.length > 0 && `## Published sources\n\n${list(sources.map(sourceWords))}`,
    ...examples.map(({ bad, good }) => paragraphs('## With the finding', fenced(bad), '## Mended', fenced(good))),
  );
}

function fenced(text: string): string {
  return `\`\`\`cardwright\n${text.trim()}\n\`\`\``;
}
