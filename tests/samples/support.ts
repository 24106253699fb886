/** The samples as they lie in the folder, opened as the command line opens them. */
import { readdirSync, readFileSync } from 'node:fs';
import { type Api, openWorkspace } from '../../server/api.ts';

export const folder = 'samples';
export const worlds = ['merganser', 'heron-dyke', 'bakery'] as const;
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

/** Without its marks, and with one blank wherever the layout has several between words, so that mends need not follow the columns. */
export function plain(text: string): string {
  return text.replace(/^\s*\/\/\s*\^.*\n/gm, '').replace(/(?<=\S) +(?=\S)/g, ' ');
}
