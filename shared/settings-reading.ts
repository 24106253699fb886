/** Settings as somebody gives them, in an editor or in `cardwright.json`: what of them can be used, and why the rest cannot. */
import { levels, recordNames, type Settings, type Shape, settingsTable } from './settings.ts';

/** What cannot be used of some settings. */
export interface SettingsProblem {
  /** The setting or the code that it is about, as it is written; absent where it is about all of them. */
  readonly key?: string;
  readonly message: string;
}

/** Settings as read, and what could not be used. */
export interface ReadSettings {
  /** Those that were given and can be used. */
  readonly given: Partial<Settings>;
  readonly problems: readonly SettingsProblem[];
}

/** Reads an object with some of the settings, from `cardwright.json` or from an editor. */
export function readSettings(value: unknown): ReadSettings {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return { given: {}, problems: [{ message: 'The settings are not an object: write { "setting": value }.' }] };
  }
  const given = Object.entries(value).filter(([key]) => key !== '$schema');
  const usable = given.filter(([key, entry]) => isKey(key) && accepts(settingsTable[key].shape, entry));
  const problems = given
    .filter((entry) => !usable.includes(entry))
    .map(([key]) => ({ key, message: `${whyUnusable(key)} The default is used.` }));
  return { given: Object.fromEntries(usable), problems };
}

function whyUnusable(key: string): string {
  return isKey(key) ? `"${key}" must be ${inWords(settingsTable[key].shape)}.` : `There is no setting "${key}".`;
}

/** Reads the text of a `cardwright.json`; `noJson` says why where it is none. */
export function readSettingsText(text: string): ReadSettings & { readonly noJson?: string } {
  try {
    return readSettings(JSON.parse(text));
  } catch (error) {
    const { message } = error as Error;
    return { given: {}, problems: [], noJson: message };
  }
}

/** Those that a folder which is not trusted may set. */
export function harmless(given: Partial<Settings>): Partial<Settings> {
  return Object.fromEntries(Object.entries(given).filter(([key]) => isKey(key) && !settingsTable[key].onlyTrusted));
}

function isKey(key: string): key is keyof Settings {
  return Object.hasOwn(settingsTable, key);
}

function accepts(shape: Shape, value: unknown): boolean {
  switch (shape.type) {
    case 'choice':
      return typeof value === 'string' && Object.hasOwn(shape.values, value);
    case 'whole number':
      return Number.isInteger(value) && (value as number) >= shape.minimum && (value as number) <= shape.maximum;
    case 'words':
      return Array.isArray(value) && value.every((word) => typeof word === 'string');
    case 'words instead':
      return (
        typeof value === 'object' &&
        value !== null &&
        !Array.isArray(value) &&
        Object.values(value).every((word) => typeof word === 'string')
      );
    case 'file':
      return typeof value === 'string' && (value === '' || value.endsWith(shape.ending));
    case 'some of':
      return (
        Array.isArray(value) &&
        new Set(value).size === value.length &&
        value.every((entry) => Object.hasOwn(shape.values, entry))
      );
    case 'levels':
      return (
        typeof value === 'object' &&
        value !== null &&
        Object.values(value).every((level) => (levels as readonly unknown[]).includes(level))
      );
    case 'record':
      return (recordNames as readonly unknown[]).includes(value) || isOwnRecord(value);
  }
}

function isOwnRecord(value: unknown): boolean {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
  return Object.entries(value).every(([key, entry]) =>
    key === 'title' || key === 'meaning'
      ? typeof entry === 'string'
      : (key === 'fields' || key === 'signatures') && accepts({ type: 'words' }, entry),
  );
}

function inWords(shape: Shape): string {
  switch (shape.type) {
    case 'choice':
      return `one of ${Object.keys(shape.values).join(', ')}`;
    case 'whole number':
      return `a whole number from ${shape.minimum} to ${shape.maximum}`;
    case 'words':
      return 'a list of words';
    case 'words instead':
      return 'an object of words, each with what is written instead';
    case 'file':
      return `the path of a file that ends in ${shape.ending}`;
    case 'some of':
      return `a list of some of ${Object.keys(shape.values).join(', ')}`;
    case 'levels':
      return `an object of codes, each with ${levels.join(', ')}`;
    case 'record':
      return `one of ${recordNames.join(', ')}, or an object with title, meaning, fields and signatures`;
  }
}

// ---------------------------------------------------------------- made from the table
