/** Checks cards that stand in a test. One function for a hundred tests. */
import { expect } from 'vitest';
import { type Api, openWorkspace } from '../../server/api.ts';
import type { Finding } from '../../shared/finding.ts';
import { defaultSettings, type Settings } from '../../shared/settings.ts';
import { compareWithMarks, readMarks } from './marks.ts';

export interface CheckOptions {
  /** Other files beside the text, by their paths. */
  readonly files?: Readonly<Record<string, string>>;
  readonly settings?: Partial<Settings>;
  /** Looks at these findings only: codes, or families such as `safety`. */
  readonly only?: readonly string[];
}

/** The path under which the text of a test is checked. */
export const mainFile = 'main.card';

export function openText(text: string, { files = {}, settings = {} }: CheckOptions = {}): Api {
  return openFiles({ ...files, [mainFile]: text }, settings);
}

export function openFiles(texts: Readonly<Record<string, string>>, settings: Partial<Settings> = {}): Api {
  const all = { ...defaultSettings, ...settings };
  return openWorkspace({ readText: (file) => texts[file] }, () => all);
}

/** The findings of a text; marks in it are left alone. */
export function findingsOf(marked: string, options: CheckOptions = {}): readonly Finding[] {
  const { text } = readMarks(marked);
  const { findings } = openText(text, options).check([mainFile]);
  const { only } = options;
  return only
    ? findings.filter(({ code }) => only.some((one) => code === one || code.startsWith(`${one}.`)))
    : findings;
}

/** Expects exactly the findings that are marked in the text, in the files beside it none. */
export function check(marked: string, options: CheckOptions = {}): readonly Finding[] {
  const findings = findingsOf(marked, options);
  const here = findings.filter((finding) => finding.place.file === mainFile);
  const elsewhere = findings.filter((finding) => finding.place.file !== mainFile);
  const { missed, unexpected } = compareWithMarks(readMarks(marked), here);
  const beside = elsewhere.map(({ place, code, message }) => `${place.file}: ${code} ${message}`);
  expect({ missed, unexpected: [...unexpected, ...beside] }).toEqual({ missed: [], unexpected: [] });
  return findings;
}
