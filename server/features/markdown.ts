/** Words of a card in Markdown: never taken for marks, links or HTML. */
import { hiddenShown } from '../../shared/hidden.ts';

export function plain(text: string): string {
  return hiddenShown(text)
    .replace(/[\\`*_{}[\]()<>#+\-.!|~$&:@]/g, '\\$&')
    .replace(/\s+/g, ' ');
}

export function bold(text: string): string {
  return `**${plain(text)}**`;
}

export function list(entries: readonly string[]): string {
  return entries.map((entry) => `- ${entry}`).join('\n');
}

/** Parts with an empty line between; those that say nothing are left out. */
export function paragraphs(...parts: readonly (string | undefined | false)[]): string {
  return parts.filter(Boolean).join('\n\n');
}

/** A picture that needs no file; `words` stand for it where pictures are not shown. */
export function picture(svg: string, words: string): string {
  return `![${plain(words)}](data:image/svg+xml;utf8,${encodeURIComponent(svg).replace(/[()']/g, (c) => `%${c.charCodeAt(0).toString(16)}`)})`;
}
