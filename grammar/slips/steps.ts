/** Slips in steps and other statements. */
import { capital } from '../../shared/text.ts';
import { actingWords, contextualActingWords } from '../words.ts';
import { quoted, type Slip, slip } from './slip.ts';

/** The usual states behind the verbs of plain English. */
const stateOfVerb: Readonly<Record<string, string>> = {
  close: 'closed',
  shut: 'closed',
  start: 'running',
  stop: 'stopped',
  remove: 'removed',
  fit: 'fitted',
  install: 'fitted',
  pull: 'pulled',
  connect: 'connected',
  lock: 'locked',
  press: 'pressed',
  release: 'released',
};

const verbs = ['open', ...Object.keys(stateOfVerb)].join('|');
const acting = [...actingWords, ...contextualActingWords].join('|');
const aChange = 'A change of state is written “set”, the item’s name, and its new state.';
const aSentence =
  'A sentence for the crew stands between quotation marks. What the proof is to follow is written “set ITEM STATE”, with names and states as they are declared.';
const noNumber = 'Steps have no number or bullet: the card numbers them.';
const aLabel = 'The name by which a step is gone to stands behind “step”, with a colon.';
const wordsAfter =
  'What the crew is to read for an action stands before it; what they do after it is a step of its own.';
/** An action inside the braces of a step; the first group is what stands before them. */
const inBraces = `\\b(?=(?:${acting})\\b)(?<=(step BY)\\{[^{}]*?)((?:${acting}) REST) (TEXT)`;
const aNote = 'A note stands before the step that it is about, not in it.';

/** Not what begins as an action does: there something else is wrong. */
const sentenceOf = (words = ''): string | undefined =>
  new RegExp(
    `\\b(?:set|ensure|check) [\\p{L}\\p{N}-]+ [\\p{L}\\p{N}-]+$|^(?:(?:${acting})\\b(?! (?:the|that|all|whether|for|each|every)\\b)|by|takes|see|only|if)\\b`,
    'iu',
  ).test(words)
    ? undefined
    : quoted(words);

/** What is not to be done is read before it can happen. */
const isRestraint = (words = ''): boolean => /^"(?:do not|don't|never|keep|only)\b/i.test(words);

export const stepSlips: readonly Slip[] = [
  slip('\\b(set|ensure) (NAME) *(?::?=|->) *(?=NAME)', 'No sign stands between an item and its state.', '$1 $2 '),
  slip(
    '\\bby (NAME)(?:,| and| or| /) ?(?:by )?(NAME)(?= (?:"|set\\b|check\\b|takes\\b|read\\b|\\{))',
    'Each of several people has a “by” of their own.',
    'by $1 by $2',
  ),
  slip(
    `(START(?:step )?)(BY)((?:${acting}) NAME NAME),? (?:and )?then ((?:${acting}) NAME NAME)END`,
    'Several actions of one step stand in braces.',
    '$1$2{ $3   $4 }',
  ),
  slip(
    '(\\bwait until [^\\n{}]*?),? (?:for )?(?:at most|max(?:imum)?\\.?|not longer than|up to) (?=NUM)',
    'How long is waited at most follows “within”.',
    '$1 within ',
  ),
  slip('(\\btakes [^\\n{}":]*?) *: *(?=")', 'No colon stands before the text.', '$1 '),
  slip('START(stop|finish|sign) *: *', 'No colon stands behind the word.', ([, word = '']) => `${word.toLowerCase()} `),
  slip(
    '\\b(check|ensure|make sure) that (NAME) (?:(?:is|are) )?(?=NAME)',
    'What must be so is an item and its state.',
    ([, word = '', item = '']) => `${word.toLowerCase() === 'check' ? 'check' : 'ensure'} ${item} `,
  ),
  slip('\\b(record TEXT),? (UNIT)END', 'The unit follows “in”.', '$1 in $2'),
  slip(', *(?=else\\b)', 'No comma stands before “else”.', ' '),
  slip(
    '\\brecord (NAME)END',
    'What a gauge shows, or what is worked out from two others, is read. What is recorded has a text.',
    'read $1',
  ),
  slip(
    '\\bwait until (TEXT)(?: within NUM UNIT)?',
    'A wait ends when a condition holds. What the crew is to see is asked, or repeated until it is so.',
    'check $1',
  ),

  // Words to the reader.
  slip(
    'START(danger|warning|caution|note)\\b *[:!-] *(WORDS)END',
    'What the crew is to read stands between quotation marks, without a colon.',
    ([, level, words]) => `${level?.toLowerCase()} ${quoted(words ?? '')}`,
  ),
  slip(
    'START(danger|warning|caution|note) *[:!] *(?=")',
    'No colon stands before the text.',
    ([, level]) => `${level?.toLowerCase()} `,
  ),
  slip('START(?:info|information|hint|tip|attention|remark) *:? *(?=")', 'Such a text is a “note”.', 'note '),
  slip(
    'START(danger|warning|caution|note)s (NAME), *(NAME)END',
    'Each hazard has an admonition of its own.',
    ([, level, one, other]) => `${level?.toLowerCase()} ${one}   ${level?.toLowerCase()} ${other}`,
  ),
  slip('START(step BY(?:TEXT )?)\\{\\s*(note TEXT)\\s*', aNote, '$2   $1{ '),
  slip(`START(step BY[^\\n{}]*?) *\\{\\s*(note TEXT)\\s*\\}`, aNote, '$2   $1'),

  // Numbers, bullets and signs at the ends of lines.
  slip('START(?:[-*•·–]|\\d+[.)]) *(?=step\\b)', noNumber, ''),
  slip(
    `START[-*•·–] *(${acting})\\b`,
    `${noNumber} Each begins with “step”.`,
    ([, verb]) => `step ${verb?.toLowerCase()}`,
  ),
  slip('(?<=START)step *: *', 'No colon stands behind “step”.', 'step '),
  slip('(?<=START)step \\d+[.:)]? *(?=\\S)', noNumber, 'step '),
  slip('(?<=\\S) *;END', 'Lines end without a semicolon.', ''),
  slip('(?<=[\\p{L}\\p{N}])\\.END', 'Only sentences between quotation marks end with a full stop.', ''),
  slip("'([^'\\n]*)'", 'A text stands between double quotation marks.', ([, words]) => `"${words}"`),
  slip(
    '(TEXT)([^\\s"][^"\\n]*[^\\s"]|[^\\s"])(TEXT)',
    'A quotation mark within a text ends it: write single marks there.',
    ([, before, words, after]) => `${before?.slice(0, -1)}'${words}'${after?.slice(1)}`,
  ),
  slip('START#+ *(?=[^\\n]*)', 'A remark for the writer begins with “//”.', '// '),

  slip('(OPENTEXT) *\\r?\\n *([^\\n"]+)"', 'A text stands on one line; a longer one is written as several.', '$1 $2"'),

  // The name of a step.
  slip(`START(?!(?:${acting}|step|by)\\b)(NAME) *: *step\\b`, aLabel, 'step $1:'),
  slip(
    `(?<=START)step (?!(?:${acting}|by|takes|see|only)\\b)(NAME) (?=by [\\p{L}\\p{N}-]+ |TEXT)`,
    aLabel,
    'step $1: ',
  ),
  slip('(step )(by [\\p{L}\\p{N}-]+ )(NAME) *: *', aLabel, '$1$3: $2'),
  slip('START(?:label|mark|anchor) (NAME) *:? *\\r?\\n *step\\b', aLabel, 'step $1:'),

  // Steps in plain English.
  slip(`(step BY)(${acting}) (NAME) to (NAME)END`, 'No “to” stands before the state.', '$1$2 $3 $4'),
  slip(
    '(step BY)(?:switch|turn|put|move) (?:the )?(NAME) (?:to )?(on|off)END',
    aChange,
    ([, step, item, state]) => `${step}set ${item} ${state?.toLowerCase()}`,
  ),
  slip(
    '(step BY)(?:switch|turn) (on|off) (?:the )?(NAME)END',
    aChange,
    ([, step, state, item]) => `${step}set ${item} ${state?.toLowerCase()}`,
  ),
  slip(`(step BY)(${verbs}) (NAME)END`, aChange, ([, step, verb, item]) => {
    const plain = (verb ?? '').toLowerCase();
    return `${step}set ${item} ${stateOfVerb[plain] ?? plain}`;
  }),
  slip(
    '(step BY)(NAME) set (NAME)END',
    'The verb stands first: “set”, the item’s name, and its new state.',
    '$1set $2 $3',
  ),
  slip(`(step BY)(?!(?:${acting})\\b)(NAME) (NAME)END`, aChange, '$1set $2 $3'),
  slip(
    `(step )(NAME) (?:shall|should|must|to|will) (?=(?:${acting})\\b)`,
    'Who does a step is said with “by”.',
    '$1by $2 ',
  ),
  slip(`(step )(NAME) *: *(?=(?:${acting})\\b)`, 'Who does a step is said with “by”.', '$1by $2 '),
  slip(
    '(step BY)(?:verify|confirm|make sure|see that|test) (?=NAME)',
    'Looking at something is written “check”.',
    '$1check ',
  ),
  slip('(step BY)(?:measure|note|log) (?=NAME)', 'Looking at a gauge is written “read”.', '$1read '),
  slip('(step BY)for (NUM *UNIT) (run NAME NAME)END', 'The time stands last.', '$1$3 for $2'),
  slip('(?<=\\bwait )for (?=\\d)', '“wait” is followed by the time.', ''),
  slip(`(step BY)((?:${acting}) REST) (TEXT)END`, wordsAfter, ([, step, action, words]) =>
    isRestraint(words) ? `${step}${words} ${action}` : `${step}${action}\n  ${step}${words}`,
  ),
  slip(`${inBraces}\\s*\\}`, wordsAfter, '$2 }\n  $1$3'),
  slip(`${inBraces}\\s*(?=\\p{L})`, wordsAfter, '$2 }\n  $1$3\n  $1{ '),
  slip(
    `(step BY)((?:${acting}) [^\\n"(){}]*?) *\\((WORDS)\\)END`,
    'How something is done is said in a text, before the action.',
    ([, step, action, words]) => `${step}${quoted(words ?? '')} ${action}`,
  ),
  slip(
    `(step BY)((?:${acting}) REST),? (?:and )?then ((?:${acting}) REST)END`,
    'Actions follow one another without a word between; several of one step stand in braces.',
    '$1{ $2   $3 }',
  ),
  slip(`, *(?:and |then )*(?=(?:${acting})\\b)`, 'Actions follow one another without a comma.', '   '),
  slip(`steps(?= *\\{)`, 'The word is “step”, also before several actions.', 'step'),
  slip(
    '(step BY)if (WORDS), *(WORDS)END',
    'A condition stands before the step, and what is then done in braces.',
    ([, , asked, words]) => `if "${capital(asked ?? '')}?" { step ${quoted(words ?? '')} }`,
  ),
  slip('START(step BY)(WORDS)END', aSentence, ([, step, words]) => {
    const said = sentenceOf(words);
    return said && `${step}${said}`;
  }),
  slip(
    `START(?:signature|signed|sign-?off|sign off) *:? *(?:by )?(?:the )?(NAME) *[_.]*END`,
    'A line for a signature is written “sign” and the role.',
    'sign $1',
  ),
  slip(
    '\\b(?:goto|jump to|skip to|return to|back to) (?:the )?(?:(?:step|stage) )?(?!(?:step|stage)\\b)(NAME)',
    'A jump is written “go to” and the name of a stage or step.',
    'go to $1',
  ),
  slip(
    '\\b(?:go ?to|jump to|skip to|return to|back to) (?:step|stage)? *\\d+',
    'A jump leads to a stage or step that has a name, not to a number: give it one (step again: …) and write “go to again”.',
  ),
];
