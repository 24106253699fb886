/** The language on one page: a card with its equipment in which each sort of sentence stands once, with remarks. */
import text from './page.card';

export const languageSample = text;

/** The page that `explain language` shows. Its parts are what stands below each `// ---- heading`. */
export function languagePage(): string {
  const parts = text.split(/^\/\/ ---- (.*)\n/mu).slice(1);
  const sections = parts.flatMap((part, index) =>
    index % 2 === 0 ? [] : [`## ${parts[index - 1]}\n\n\`\`\`cardwright\n${part.trim()}\n\`\`\`\n`],
  );
  return ['# The language on one page\n', ...sections].join('\n');
}
