/** The samples as they lie in the folder, opened as the command line opens them. */
import { readdirSync, readFileSync } from 'node:fs';
import { type Api, openWorkspace } from '../../server/api.ts';
import { type MarkedText, readMarks } from '../support/marks.ts';

export const folder = 'samples';
export const worlds = ['merganser', 'heron-dyke'] as const;
export const faulty = 'with-faults';

export function cardsIn(name: string): string[] {
  return readdirSync(`${folder}/${name}`)
    .filter((file) => file.endsWith('.card'))
    .sort();
}

export function textOf(file: string): string {
  return readFileSync(file, 'utf8');
}

/** Samples with some of their texts changed. */
export function openSamples(changed: Readonly<Record<string, string>> = {}): Api {
  const readText = (file: string) => changed[file] ?? (file.startsWith(`${folder}/`) ? textOf(file) : undefined);
  return openWorkspace({ readText });
}

export function told(findings: readonly { code: string; place: { file: string }; message: string }[]): string[] {
  return findings.map(({ place, code, message }) => `${place.file}: ${code} ${message}`);
}

/**
 * Marks in samples obey the formatter, which puts a comment at the indentation of its line: there, carets right after the slashes
 * stand for the first word of the line, which they cannot stand under.
 */
export function readSampleMarks(text: string): MarkedText {
  const lines = text.split('\n');
  const marked = readMarks(text);
  const marks = marked.marks.map((mark) => {
    const indent = lines[mark.line]?.search(/\S/) ?? 0;
    return mark.column === indent + 2 ? { ...mark, column: indent } : mark;
  });
  return { ...marked, marks };
}

export function withoutMarks(text: string): string {
  return text.replace(/^\s*\/\/\s*\^.*\n/gm, '');
}
