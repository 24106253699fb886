/**
 * The settings, once. The editor's settings page (`contributes.configuration` in package.json), the schema of `cardwright.json`
 * and the defaults of server and command line are all made from this table.
 */
import type { Level } from './finding.ts';

export type HintSort = 'second unit' | 'time since start' | 'rest to spare';

export type Levels = Readonly<Record<string, Level | 'off'>>;

/** What a record asks for, in the words of whoever uses it. */
export interface OwnRecord {
  readonly title?: string;
  /** What a signature means, or by which rule the entries are made. */
  readonly meaning?: string;
  /** Filled in at the end. */
  readonly fields?: readonly string[];
  /** Who signs. */
  readonly signatures?: readonly string[];
}

/** How loud a whole working day may be, and by how much louder each half of it. */
export const noiseCriteria = {
  '90 dBA, 5 dB': '29 CFR 1910.95: 8 h at 90 dBA, and half the time for each 5 dB more',
  '85 dBA, 3 dB': 'NIOSH: 8 h at 85 dBA, and half the time for each 3 dB more',
  '87 dBA, 3 dB': 'Canada (National Joint Council): 8 h at 87 dBA, and a tenth of the time for each 10 dB more',
} as const;

export type NoiseCriterion = keyof typeof noiseCriteria;

/** Where published rules for sentences disagree, whose words are taken. */
export const writingProfiles = {
  general: 'Any verb: only what the rules agree on',
  'ASD-STE100': 'Controlled English of the aerospace trade: “make sure”, not “check”, “verify” or “ensure”',
  'DOE-STD-1029-92':
    'The energy department: “verify” where the reader may put right what is not so, “check” where nothing is moved',
} as const;

export type WritingProfile = keyof typeof writingProfiles;

export const recordNames = ['neutral', '14 CFR 43.9'] as const;

export interface Settings {
  /** The system in which the second value of a quantity is shown. */
  readonly secondUnits: 'metric' | 'us' | 'none';
  /** The sheet that an exported card is laid out for. */
  readonly paper: 'A4' | 'Letter' | 'printer';
  /** How closely an exported card is printed. */
  readonly print: 'full' | 'compact';
  /** Other levels than a finding's own, by its code or by the family before the point. */
  readonly levels: Levels;
  /** The record of the work at the end of a card: one that has a name, or an own one. */
  readonly record: (typeof recordNames)[number] | OwnRecord;
  /** Who must have signed a card before it is released. */
  readonly signOff: 'on paper' | 'three people';
  /** Folders outside of the workspace that cards may use files and figures from. */
  readonly useFolders: readonly string[];
  /** The most findings that are shown for one file. */
  readonly maximumFindings: number;
  /** The most states that one question may explore before paths are blended. */
  readonly stateBound: number;
  /** By which criterion the noise dose of a role is measured. */
  readonly noiseCriterion: NoiseCriterion;
  /** The most words of a sentence that tells somebody what to do. */
  readonly longestSentence: number;
  /** By whose words sentences are written. */
  readonly writingProfile: WritingProfile;
  /** Words that the shop uses although the profile does not; a name of several words counts as one. */
  readonly approvedWords: readonly string[];
  /** Words that the shop does not use, each with what is written instead. */
  readonly notApprovedWords: Readonly<Record<string, string>>;
  /** A file with more of both, by its path; it ends in `.words`. Empty for none. */
  readonly wordList: string;
  /** What an editor shows between the words. */
  readonly hints: readonly HintSort[];
  /** Words that leave open how much, how long or when. */
  readonly vagueWords: readonly string[];
  /** Verbs that operate equipment: they belong in a step, one a sentence, and not in an admonition. */
  readonly actionVerbs: readonly string[];
}

/** What a setting may be; enough for the table, and for a JSON schema made from it. */
export type Shape =
  | { readonly type: 'choice'; readonly values: Readonly<Record<string, string>> }
  | { readonly type: 'whole number'; readonly minimum: number; readonly maximum: number }
  | { readonly type: 'words' }
  /** Words, each with another for it. */
  | { readonly type: 'words instead' }
  /** The path of a file of this sort, or nothing. */
  | { readonly type: 'file'; readonly ending: string }
  /** Any of these, each at most once. */
  | { readonly type: 'some of'; readonly values: Readonly<Record<string, string>> }
  | { readonly type: 'levels' }
  | { readonly type: 'record' };

interface Row<Value> {
  readonly default: Value;
  readonly help: string;
  readonly shape: Shape;
  /** It can take findings away, or cost time: a folder that is not trusted does not set it. */
  readonly onlyTrusted?: true;
}

type Table = { readonly [Key in keyof Settings]: Row<Settings[Key]> };

export const levels = ['error', 'warning', 'hint', 'off'] as const;

export const settingsTable: Table = {
  secondUnits: {
    default: 'metric',
    help: 'The system of units in which each limit is shown a second time, in the editor and on the card. It is rounded so that it is never the looser one.',
    shape: {
      type: 'choice',
      values: {
        metric: 'kPa, degC, N.m, L and the like',
        us: 'psi, degF, lbf.ft, gal and the like',
        none: 'Show only what the card says',
      },
    },
  },
  paper: {
    default: 'printer',
    help: 'The sheet that an exported card is laid out for.',
    shape: {
      type: 'choice',
      values: { A4: '210 by 297 mm', Letter: '8.5 by 11 in', printer: 'What the printer holds' },
    },
  },
  print: {
    default: 'full',
    help: 'How closely an exported card is printed.',
    shape: {
      type: 'choice',
      values: {
        full: 'Large enough to be read at arm’s length, with pictures and tables',
        compact:
          'Small and in two columns, without pictures of the machine and the way, and without the table of checks',
      },
    },
  },
  levels: {
    default: {},
    help: 'Other levels for findings, by code (`duty.takes`) or by family (`prose`). `off` leaves a finding out. What does not parse stays an error.',
    shape: { type: 'levels' },
    onlyTrusted: true,
  },
  record: {
    default: 'neutral',
    help: 'The record of the work at the end of a card: `neutral` (what was done, date, name, signature), `14 CFR 43.9`, or an own one with `title`, `meaning`, `fields` to fill in and `signatures` (who signs). A card that uses `std:record` has that of 14 CFR 43.9 instead of the neutral one.',
    shape: { type: 'record' },
  },
  signOff: {
    default: 'on paper',
    help: 'Who must have signed a card before it is released.',
    shape: {
      type: 'choice',
      values: {
        'on paper': 'Whoever the card does not name signs on paper',
        'three people': 'The card says who prepared, who checked and who approved it, and when: three different people',
      },
    },
  },
  useFolders: {
    default: [],
    help: 'Folders outside of the workspace from which cards may `use` files and show figures. A path that is not absolute begins at the folder of the `cardwright.json`, or at the first folder of the workspace.',
    shape: { type: 'words' },
    onlyTrusted: true,
  },
  maximumFindings: {
    default: 500,
    help: 'The most findings that are shown for one file. Errors are kept before warnings, and warnings before hints.',
    shape: { type: 'whole number', minimum: 1, maximum: 100_000 },
    onlyTrusted: true,
  },
  stateBound: {
    default: 50_000,
    help: 'How many states of the machine are explored for one question before paths are blended. Blended paths miss nothing, but may raise a false alarm; the finding then says so.',
    shape: { type: 'whole number', minimum: 100, maximum: 10_000_000 },
    onlyTrusted: true,
  },
  noiseCriterion: {
    default: '90 dBA, 5 dB',
    help: 'The criterion by which the noise dose of a role is measured.',
    shape: { type: 'choice', values: noiseCriteria },
    onlyTrusted: true,
  },
  longestSentence: {
    default: 20,
    help: 'The most words of a sentence in a step or an admonition.',
    shape: { type: 'whole number', minimum: 5, maximum: 200 },
    onlyTrusted: true,
  },
  writingProfile: {
    default: 'general',
    help: 'By whose verbs steps are written, where the published rules disagree.',
    shape: { type: 'choice', values: writingProfiles },
    onlyTrusted: true,
  },
  approvedWords: {
    default: [],
    help: 'Words that are used although the writing profile has others for them, and names of things in several words (`landing gear`), each of which counts as one word in a cluster of nouns.',
    shape: { type: 'words' },
    onlyTrusted: true,
  },
  notApprovedWords: {
    default: { 'in order to': 'to', 'prior to': 'before', utilise: 'use', utilize: 'use' },
    help: 'Words that are not used, each with what is written instead: `{ "utilize": "use" }`.',
    shape: { type: 'words instead' },
    onlyTrusted: true,
  },
  wordList: {
    default: '',
    help: 'A file with the words of the shop (`bakery.words`), beside those of `approvedWords` and `notApprovedWords`. Each line is a word or name that is used, or `utilize -> use`: one that is not, and what is written instead. A line that begins with `#` is for people. A path that is not absolute begins at the folder of the `cardwright.json`, or at the first folder of the workspace.',
    shape: { type: 'file', ending: '.words' },
    onlyTrusted: true,
  },
  hints: {
    default: ['second unit', 'time since start', 'rest to spare'],
    help: 'What the editor shows between the words. The time since the start is from the least to the most over all paths; the rest to spare is how much longer than asked an item has rested in the worst case.',
    shape: {
      type: 'some of',
      values: {
        'second unit': 'Each written limit in the other system of units',
        'time since start': 'When each step begins',
        'rest to spare': 'How much rest there is before a run beyond what its duty asks for',
      },
    },
  },
  vagueWords: {
    default: [
      'adequate',
      'adequately',
      'approximately',
      'appropriate',
      'appropriately',
      'as applicable',
      'as necessary',
      'as needed',
      'as required',
      'correctly',
      'frequently',
      'if necessary',
      'if needed',
      'if required',
      'in a timely manner',
      'periodically',
      'proper',
      'properly',
      'reasonable',
      'reasonably',
      'regularly',
      'sufficient',
      'sufficiently',
      'suitable',
      'when necessary',
    ],
    help: 'Words that leave open how much, how long or when. A step that uses one gets a hint.',
    shape: { type: 'words' },
    onlyTrusted: true,
  },
  actionVerbs: {
    default: [
      'add',
      'adjust',
      'apply',
      'attach',
      'bleed',
      'charge',
      'clean',
      'close',
      'connect',
      'cut',
      'disconnect',
      'drain',
      'engage',
      'fill',
      'fit',
      'flush',
      'inspect',
      'install',
      'isolate',
      'lift',
      'lock',
      'loosen',
      'lower',
      'lubricate',
      'measure',
      'open',
      'press',
      'pull',
      'push',
      'raise',
      'read',
      'record',
      'release',
      'remove',
      'replace',
      'reset',
      'rinse',
      'rotate',
      'select',
      'set',
      'start',
      'stop',
      'switch',
      'tag',
      'tighten',
      'torque',
      'turn',
      'unlock',
      'wipe',
    ],
    help: 'Verbs that operate equipment. A sentence of a step has one of them, and an admonition has none.',
    shape: { type: 'words' },
    onlyTrusted: true,
  },
};

export const settingKeys = Object.keys(settingsTable) as (keyof Settings)[];

export const defaultSettings: Settings = Object.fromEntries(
  settingKeys.map((key) => [key, settingsTable[key].default]),
) as unknown as Settings;
