/** What cannot be used of a settings file, told as the command line tells it. */
import type { Finding } from '../shared/finding.ts';
import { type ReadSettings, readSettingsText, type SettingsProblem } from '../shared/settings-reading.ts';
import type { Place } from '../shared/text.ts';
import { type TextAt, wordListProblems } from '../shared/word-list.ts';
import { resolveUse } from './binding/files.ts';
import { settingsUnusable } from './findings/settings-unusable.ts';
import { levelProblems } from './levels.ts';

/** What cannot be used of settings that could be read. */
export function settingsProblems(read: ReadSettings, textAt: TextAt): readonly SettingsProblem[] {
  return [...read.problems, ...levelProblems(read.given), ...wordListProblems(read, textAt)];
}

export function settingsFindings(file: string, text: string, textOf: TextAt): Finding[] {
  const read = readSettingsText(text);
  const { noJson } = read;
  const problems = settingsProblems(read, (path) => textOf(resolveUse(file, path)));
  const told = noJson === undefined ? problems : [{ key: undefined, message: `This file is no JSON: ${noJson}` }];
  return told.map(({ key, message }) => finding({ file, ...spanOf(key, text) }, message));
}

/** Settings that are there and of which nobody knows what they say. */
export function unreadableSettings(file: string): Finding[] {
  const why = 'It is no file, it lies outside of this folder, or it is too large.';
  return [finding({ file, start: 0, end: 0 }, `This file cannot be read, and the defaults are used. ${why}`)];
}

function finding(place: Place, message: string): Finding {
  const { code, level } = settingsUnusable;
  return { code, level, place, message, path: [], fixes: [] };
}

/** Where a setting or a code is written; the whole text where it is about all of them, or the name is written in another way. */
function spanOf(key: string | undefined, text: string): { start: number; end: number } {
  const written = key === undefined ? undefined : JSON.stringify(key);
  const start = written === undefined ? -1 : text.indexOf(written);
  return written === undefined || start < 0 ? { start: 0, end: text.length } : { start, end: start + written.length };
}
