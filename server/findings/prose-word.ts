import type { Settings, WritingProfile } from '../../shared/settings.ts';
import { capital } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { replace } from './support/edits.ts';
import { allSeen, inSentences, type Seen, seenAt } from './support/prose.ts';
import { anyOf, withoutCondition } from './support/sentences.ts';
import { DOE, STE } from './support/sources.ts';

/** Verbs of an order that a profile has another word for. */
const verbs: Readonly<Record<WritingProfile, Readonly<Record<string, string>>>> = {
  general: {},
  'ASD-STE100': {
    check: 'make sure',
    ensure: 'make sure',
    follow: 'obey',
    oil: 'lubricate',
    verify: 'make sure',
  },
  'DOE-STD-1029-92': { ensure: 'verify', 'make sure': 'verify', 'see that': 'verify' },
};
/** Begins another meaning, for which the word is right. */
const otherwise: Readonly<Record<string, RegExp>> = { oil: /^\s+(?!(?:the|all|both|each|every|it|them)\b)/i };

export const proseWord: FindingSort = {
  code: 'prose.word',
  level: 'hint',
  reads: ['words'],
  title: 'A word is not among those that are approved',
  help: {
    what: 'A sentence uses a word of the setting notApprovedWords, or of the file that wordList names; or a step begins with a verb for which the setting writingProfile has another. With the verbs of the energy department, “check” moves nothing. The words of approvedWords, and those that the file lists as used, are right whatever the profile says.',
    why: 'Where one thing has two words, the reader looks for the difference; where one word has two meanings, each reader takes one of them.',
    whatToDo:
      'Write the word that stands in the message. A word that your shop uses goes into approvedWords, or into the file.',
  },
  sources: [
    STE('9.3: one word for one meaning, “make sure” for verify and ensure', 'from memory'),
    DOE('section 4: verify puts right what is not so, check moves nothing'),
  ],
  examples: [
    {
      bad: `card look "Look" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Utilize a lamp."
  //    ^^^^^^^ prose.word
}`,
      good: `card look "Look" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Use a lamp."
}`,
    },
  ],
  inTexts: inSentences({
    see: (settings) => {
      const own = byWord(settings.notApprovedWords);
      const any = anyOf(Object.keys(settings.notApprovedWords));
      const profile = profileVerbs(settings, own);
      return (sentence): Said[] => [
        ...allSeen(any, sentence).map((seen) => ({ ...seen, instead: own.get(plain(seen.words)) ?? '' })),
        ...verbIn(sentence, profile),
        ...movedIn(sentence, profile),
      ];
    },
    tell: ({ words, instead, asOrder }, { of, place }) => {
      if (asOrder && of !== 'step') return undefined;
      if (instead === undefined)
        return { message: '“Check” looks and moves nothing. Write “verify”, or make a step of what is moved.' };
      const whole = place.end - place.start === words.length;
      const written = /^\p{Lu}/u.test(words) ? capital(instead) : instead;
      return {
        message: `“${words}” is not an approved word here. Write “${written}”.`,
        fixes: whole ? [{ title: `Write “${written}”`, edits: [replace(place, written)] }] : [],
      };
    },
  }),
};

interface Said extends Seen {
  /** Absent of what moves something behind “check”, for which there is no other word. */
  readonly instead?: string;
  /** It is said as an order: only a step gives one. */
  readonly asOrder?: true;
}

type Words = ReadonlyMap<string, string>;

function verbIn(sentence: string, { verbs: profile, any }: ProfileVerbs): Said[] {
  const { text: main, from } = withoutCondition(sentence);
  const [words] = any?.exec(main) ?? [];
  if (words === undefined) return [];
  const after = main.slice(words.length);
  if (otherwise[plain(words)]?.test(after)) return [];
  return [{ from, words, instead: worded(profile.get(plain(words)) ?? '', after), asOrder: true }];
}

/** `Check for cracks` looks; `Check that it is shut` makes sure; `Check the oil level` does a check of it. */
function worded(instead: string, after: string): string {
  if (instead !== 'make sure' || /^\s+(?:that|if|whether)\b/i.test(after)) return instead;
  if (/^\s+for\b/i.test(after)) return 'look';
  return /^\s+(?:the|all|each|both|an?)\s+(?:\p{L}+\s+){1,4}(?:is|are)\b/iu.test(after)
    ? 'make sure that'
    : 'do a check of';
}

function movedIn(sentence: string, { moving }: ProfileVerbs): Said[] {
  const { text: main, from } = withoutCondition(sentence);
  const moved = /^check\b/i.test(main) ? moving?.exec(main) : undefined;
  return seenAt(moved, from).map((seen) => ({ ...seen, asOrder: true }));
}

/** The verbs of a profile that a shop has no word of its own for. */
interface ProfileVerbs {
  readonly verbs: Words;
  readonly any: RegExp | undefined;
  /** Behind “check …”, what moves something, where “check” moves nothing. */
  readonly moving: RegExp | undefined;
}

function profileVerbs({ approvedWords, writingProfile, actionVerbs }: Settings, own: Words): ProfileVerbs {
  const approved = new Set(approvedWords.map((word) => word.toLowerCase()));
  const profile = byWord(verbs[writingProfile]);
  const usual = [...profile.keys()].filter((word) => !approved.has(word) && !own.has(word));
  const moves = actionVerbs.filter((verb) => !/^(?:inspect|measure|read|record)$/u.test(verb));
  const moving = writingProfile === 'DOE-STD-1029-92' ? anyOf(moves, '\\b(?:and|then|or)\\s+', 'iu') : undefined;
  return { verbs: profile, any: anyOf(usual, '^', 'iu'), moving };
}

const plain = (word: string): string => word.toLowerCase().replaceAll(/\s+/gu, ' ');

function byWord(words: Readonly<Record<string, string>>): Words {
  return new Map(Object.entries(words).map(([word, instead]) => [plain(word), instead]));
}
