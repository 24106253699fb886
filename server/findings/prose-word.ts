import type { Settings, WritingProfile } from '../../shared/settings.ts';
import { capital } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { replace } from './support/edits.ts';
import { sentencesToRead } from './support/prose.ts';
import { anyOf, type Sentence, within, withoutCondition } from './support/sentences.ts';
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
  *inFile({ file, parsed, settings }) {
    for (const { sentence, of } of sentencesToRead(parsed)) {
      for (const { from, word, instead } of wordsIn(sentence, of === 'step', settings)) {
        const place = { file, ...within(sentence, from, word.length) };
        const whole = place.end - place.start === word.length;
        const written = /^\p{Lu}/u.test(word) ? capital(instead) : instead;
        yield {
          place,
          message: `“${word}” is not an approved word here. Write “${written}”.`,
          fixes: whole ? [{ title: `Write “${written}”`, edits: [replace(place, written)] }] : [],
        };
      }
      if (settings.writingProfile === 'DOE-STD-1029-92' && of === 'step') {
        const moved = movedByCheck(sentence, settings);
        if (moved)
          yield {
            place: { file, ...within(sentence, moved.index, moved[0].length) },
            message: '“Check” looks and moves nothing. Write “verify”, or make a step of what is moved.',
          };
      }
    }
  },
};

interface Said {
  readonly from: number;
  readonly word: string;
  readonly instead: string;
}

function* wordsIn({ text }: Sentence, isStep: boolean, settings: Settings): Iterable<Said> {
  const { own, any } = ownWords(settings.notApprovedWords);
  for (const { 0: word, index } of text.matchAll(any)) yield { from: index, word, instead: own.get(plain(word)) ?? '' };
  if (!isStep) return;
  const { verbs: profile, any: anyVerb } = profileVerbs(settings);
  const { text: main, from } = withoutCondition(text);
  const first = anyVerb?.exec(main);
  if (!first) return;
  const after = main.slice(first[0].length);
  if (otherwise[plain(first[0])]?.test(after)) return;
  yield { from, word: first[0], instead: worded(profile.get(plain(first[0])) ?? '', after) };
}

/** `Check for cracks` looks; `Check that it is shut` makes sure; `Check the oil level` does a check of it. */
function worded(instead: string, after: string): string {
  if (instead !== 'make sure' || /^\s+(?:that|if|whether)\b/i.test(after)) return instead;
  if (/^\s+for\b/i.test(after)) return 'look';
  return /^\s+(?:the|all|each|both|an?)\s+(?:\p{L}+\s+){1,4}(?:is|are)\b/iu.test(after)
    ? 'make sure that'
    : 'do a check of';
}

function movedByCheck({ text }: Sentence, settings: Settings): RegExpExecArray | undefined {
  const { text: main, from } = withoutCondition(text);
  const moved = /^check\b/i.test(main) ? profileVerbs(settings).moving?.exec(main) : undefined;
  return moved ? Object.assign(moved, { index: moved.index + from }) : undefined;
}

/** The verbs of a profile that a shop has no word of its own for. */
interface ProfileVerbs {
  readonly verbs: ReadonlyMap<string, string>;
  readonly any: RegExp | undefined;
  /** Behind “check …”, what moves something. */
  readonly moving: RegExp | undefined;
}

const profilesMade = new WeakMap<Settings, ProfileVerbs>();

function profileVerbs(settings: Settings): ProfileVerbs {
  const ready = profilesMade.get(settings) ?? profileVerbsOf(settings);
  profilesMade.set(settings, ready);
  return ready;
}

function profileVerbsOf({ approvedWords, notApprovedWords, writingProfile, actionVerbs }: Settings): ProfileVerbs {
  const approved = new Set(approvedWords.map((word) => word.toLowerCase()));
  const { own } = ownWords(notApprovedWords);
  const profile = byWord(verbs[writingProfile]);
  const usual = [...profile.keys()].filter((word) => !approved.has(word) && !own.has(word));
  const moving = actionVerbs.filter((verb) => !/^(?:inspect|measure|read|record)$/u.test(verb));
  return { verbs: profile, any: anyOf(usual, '^', 'iu'), moving: anyOf(moving, '\\b(?:and|then|or)\\s+', 'iu') };
}

interface OwnWords {
  readonly own: ReadonlyMap<string, string>;
  readonly any: RegExp;
}

/** A list of thousands of words is made ready once, and not for each sentence. */
const madeReady = new WeakMap<Settings['notApprovedWords'], OwnWords>();

function ownWords(words: Settings['notApprovedWords']): OwnWords {
  const ready = madeReady.get(words) ?? { own: byWord(words), any: anyOf(Object.keys(words)) ?? /(?!)/gu };
  madeReady.set(words, ready);
  return ready;
}

const plain = (word: string): string => word.toLowerCase().replaceAll(/\s+/gu, ' ');

function byWord(words: Readonly<Record<string, string>>): ReadonlyMap<string, string> {
  return new Map(Object.entries(words).map(([word, instead]) => [plain(word), instead]));
}
