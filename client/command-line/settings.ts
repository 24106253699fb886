/** The settings of a folder: those of the `cardwright.json` in it, or in the nearest folder above that has one. */
import { dirname, join, resolve } from 'node:path';
import { type SettingsOf, settingsProblems } from '../../server/api.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { defaultSettings, type Settings } from '../../shared/settings.ts';
import { readSettingsText } from '../../shared/settings-reading.ts';
import { withWordList } from '../../shared/word-list.ts';
import { lookedAt, readText } from './files.ts';
import { CannotRun, type Surroundings } from './surroundings.ts';

export const settingsFile = 'cardwright.json';

/** Reads each settings file once, and says what in it cannot be used. */
export function settingsFrom({ folder, complain }: Pick<Surroundings, 'folder' | 'complain'>): SettingsOf {
  const known = new Map<string, Settings>();
  const ofFolder = (at: string): Settings => getOrInsert(known, at, () => settingsAt(at));
  const settingsAt = (at: string): Settings => {
    const path = join(at, settingsFile);
    if (lookedAt(path)) return readFile(path, complain);
    const above = dirname(at);
    return above === at ? defaultSettings : ofFolder(above);
  };
  return (file) => ofFolder(dirname(resolve(folder, file)));
}

function readFile(path: string, complain: Surroundings['complain']): Settings {
  const text = readText(path, '');
  if (typeof text !== 'string') throw new CannotRun(`${path} ${text.problem}`);
  const read = readSettingsText(text);
  if (read.noJson !== undefined) throw new CannotRun(`${path} is no JSON: ${read.noJson}`);
  const textAt = (file: string) => {
    const words = readText(file, dirname(path));
    return typeof words === 'string' ? words : undefined;
  };
  for (const { message } of settingsProblems(read, textAt)) complain(`${path}: ${message}\n`);
  return { ...defaultSettings, ...withWordList(read.given, defaultSettings, textAt) };
}
