/** Slips in declarations and in the head of a card. */
import { capital } from '../../shared/text.ts';
import { type Slip, slip } from './slip.ts';

const aLabel = 'What the crew reads stands between quotation marks.';
const aDate = 'A date is written with the year first, then month and day.';
const anItem = 'An item is written “item”, its name, a colon and its kind, then what the crew calls it.';
const aHazard = 'A hazard is written “hazard”, its name, its label, “while” and a condition, then its text in braces.';

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

function date(year = '', month = '', day = ''): string | undefined {
  const two = (number: number): string => String(number).padStart(2, '0');
  const isOne = Number(month) >= 1 && Number(month) <= 12 && Number(day) >= 1 && Number(day) <= 31;
  return isOne ? `${year}-${two(Number(month))}-${two(Number(day))}` : undefined;
}

function monthNumber(name = ''): string {
  return String(months.indexOf(name.slice(0, 3).toLowerCase()) + 1);
}

function label(words = ''): string {
  return `"${words.trim()}"`;
}

function nameFor(text = ''): string {
  return text
    .replace(/"/g, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^[\d-]+|-+$/g, '');
}

const month =
  'jan\\p{L}*|feb\\p{L}*|mar\\p{L}*|apr\\p{L}*|may|june?|july?|aug\\p{L}*|sept?\\p{L}*|oct\\p{L}*|nov\\p{L}*|dec\\p{L}*';

export const declarationSlips: readonly Slip[] = [
  // Dates.
  slip('\\b(\\d{4})-(\\d\\d)-(\\d\\d)\\b', aDate, ([, year, day, month]) => date(year, month, day)),
  slip('\\b(\\d{1,2})[/.](\\d{1,2})[/.](\\d{4})\\b', aDate, ([, day, month, year]) => date(year, month, day)),
  slip('\\b(\\d{1,2})[/.](\\d{1,2})[/.](\\d{4})\\b', aDate, ([, month, day, year]) => date(year, month, day)),
  slip('\\b(\\d{4})[/.](\\d{1,2})[/.](\\d{1,2})\\b', aDate, ([, year, month, day]) => date(year, month, day)),
  slip(`\\b(\\d{1,2})\\.? (${month})\\.? (\\d{4})\\b`, aDate, ([, day, name, year]) =>
    date(year, monthNumber(name), day),
  ),
  slip(`\\b(${month})\\.? (\\d{1,2}),? (\\d{4})\\b`, aDate, ([, name, day, year]) =>
    date(year, monthNumber(name), day),
  ),
  slip('(revision TEXT) *, *(?=\\d{4})', 'The date follows “on”.', '$1 on '),
  slip('(revision TEXT) (?=\\d{4})', 'The date follows “on”.', '$1 on '),
  slip('revision (on \\d{4}-\\d\\d-\\d\\d) (TEXT)', 'The revision stands before its date.', 'revision $2 $1'),

  // The head of a card.
  slip(
    'START(number|revision|purpose|language|applies|crew|tools|materials|references|assume|leaves) *: *',
    'No colon stands behind the word.',
    ([, word]) => `${word?.toLowerCase()} `,
  ),
  slip(
    '\\b(number|revision|purpose|language) (?!on\\b)([\\p{L}\\p{N}][^\\n"{}]*?)(?= on \\d| (?:number|revision|purpose|language|crew)\\b| *(?:\\r?\\n|$|[{}]))',
    aLabel,
    ([, word, text]) => `${word} ${label(text)}`,
  ),
  slip(
    'START(?:prepared|checked|approved)(?: by)?END',
    'Nobody is named here. Where it is left out, paper has a blank for the name and the date.',
    '',
  ),
  slip('\\b(crew NAME) (NAME)(?= *(?:\\r?\\n|$|,))', aLabel, ([, crew, text]) => `${crew} ${label(text)}`),
  slip(
    '\\bcrew (TEXT), *(TEXT)',
    'Each role has a name of its own before what the crew calls it.',
    ([, one, other]) => `crew ${nameFor(one)} ${one}, ${nameFor(other)} ${other}`,
  ),
  slip(
    '\\bcrew (TEXT)',
    'Each role has a name of its own before what the crew calls it.',
    ([, one]) => `crew ${nameFor(one)} ${one}`,
  ),
  slip(
    '\\b(tools|materials|references) (WORDS)END',
    aLabel,
    ([, word, texts]) => `${word} ${(texts ?? '').split(',').map(label).join(', ')}`,
  ),
  slip('\\b(card|procedure|rule) (TEXT) (NAME)(?= *[({\\n])', 'The name stands before the title.', '$1 $3 $2'),
  slip(
    '\\bcard (NAME) (WORDS) *(?=\\{|END)',
    'A title stands between quotation marks.',
    ([, name, title]) => `card ${name} ${label(title)} `,
  ),
  slip(
    '\\bstage (NAME) *(?=\\{)',
    'A stage has a title between quotation marks.',
    ([, name = '']) => `stage ${name} "${capital(name)}" `,
  ),
  slip('\\bstage (WORDS) *(?=\\{)', 'A title stands between quotation marks.', ([, title]) => `stage ${label(title)} `),
  slip(
    '\\bcard (TEXT)',
    'A card has a name before its title; the title is what is printed.',
    ([, title]) => `card ${nameFor(title)} ${title}`,
  ),
  slip(
    '(TEXT) *(?:\\(|begin) *(\\r?\\n[^(){}]*?\\r?\\n *)(?:\\)|end) *(?=\\r?\\n|$)',
    'What belongs to it stands between braces.',
    '$1 {$2}',
  ),
  slip('(?<=TEXT) *(?:\\(|begin|:)END', 'What belongs to it stands between braces.', ' {'),
  slip('START(?:\\)|end)END', 'What belongs to it stands between braces.', '}'),

  // Items and gauges.
  slip('(OPENTEXT)', 'A text is closed by a second quotation mark.', ([, open]) => {
    const [, words, rest] =
      /^"(.*?[^\s]) +((?:normally|at "|needs|may|while|when|in) ?.*|[{,].*)$/.exec(open ?? '') ?? [];
    return words && `"${words}" ${rest}`;
  }),
  slip('\\bitems\\b', 'The word is “item”, also for several.', 'item'),
  slip('\\bitem (TEXT) (NAME) *: *(NAME)', anItem, 'item $2 : $3 $1'),
  slip('\\bitem (NAME) *= *(NAME)', 'A colon stands between an item and its kind.', 'item $1 : $2'),
  slip(
    '\\bitem (NAME) (?!at\\b|normally\\b|may\\b|needs\\b)(NAME) (?=")',
    'A colon stands between an item and its kind.',
    'item $1 : $2 ',
  ),
  slip('\\bitem (NAME) (NAME) *: *(?=NAME)', 'A name is one word; its parts are joined by hyphens.', 'item $1-$2 : '),
  slip(
    '\\bitem (NAME) *: *(?:NAME )?(?:gauge|meter|indicator) (TEXT) in ',
    'What shows a value is a “gauge”, with its unit.',
    'gauge $1 $2 in ',
  ),
  slip(
    '\\bitem (NAME) *: *(?:NAME )?gauge (TEXT) (?:normally|reads|between|from)? *(NUM) (?:to|and) (NUM) (UNIT)END',
    'What shows a value is a “gauge”, with its unit; what it must show is a limit with a name.',
    'gauge $1 $2 in $5 { limit normal $3 $5 to $4 $5 }',
  ),
  slip('(\\bitem NAME *: *NAME) (normally NAME) (TEXT)', 'What the crew calls it stands behind the kind.', '$1 $3 $2'),
  slip(
    '(\\bitem NAME *: *NAME) (?!at\\b|normally\\b|may\\b|needs\\b|reduces\\b)(WORDS)(?= (?:normally|at|needs|may)\\b|END)',
    aLabel,
    ([, item, words]) => `${item} ${label(words)}`,
  ),
  slip(
    '(\\bitem NAME *: *NAME(?: TEXT)?) (normally NAME)END',
    'The words of the language are in small letters.',
    ([, item, state]) => `${item} ${state?.toLowerCase()}`,
  ),
  slip(
    '(\\bitem NAME *: *NAME(?: TEXT)?) (?:is|are|usually|default) (NAME)',
    'The state in which a card finds it follows “normally”.',
    '$1 normally $2',
  ),
  slip(
    'START(?!item|gauge|kind|card|rule|hazard|supply|use|variant|procedure|stage|step|danger|warning|caution|note)(NAME) (NAME) (TEXT) (?=normally|at\\b|needs\\b)',
    anItem,
    'item $2 : $1 $3 ',
  ),

  slip(
    '(?<=\\bgauge NAME TEXT in UNIT )=[^\\n{}]*',
    'A gauge is worked out from two others: “= LEFT - RIGHT” or “= LEFT + RIGHT”. For more, let the crew work it out and read it in.',
  ),
  slip(
    '\\bprocedure (NAME) (?=")',
    'Parentheses stand behind the name of a procedure: empty, or with what it is done with.',
    'procedure $1() ',
  ),

  slip(
    '\\bkind (NAME) *[:(=] *(NAME(?: *, *NAME)+) *[)]?END',
    'The states of a kind stand between braces.',
    'kind $1 { $2 }',
  ),
  slip(
    '(\\bgauge NAME TEXT in UNIT) ((?:reads|limit) [^\\n{}]*?) *END',
    'What a gauge reads, and its limits, stand between braces.',
    '$1 { $2 }',
  ),
  slip(
    'START(?:use|include|import) ([\\p{L}\\p{N}][^\\s"{}]*)END',
    'The name of a file stands between quotation marks.',
    'use "$1"',
  ),
  slip('START(?:include|import|using) (?=")', 'The word is “use”.', 'use '),

  // Hazards and rules.
  slip(
    '(\\brule NAME TEXT \\{\\s*)(?:if|when|whenever) (?=[^{}]*\\brequire\\b)',
    'A rule asks “while” something is so, or “before” it becomes so.',
    '$1while ',
  ),
  slip('(\\bhazard NAME) (WORDS) while\\b', aLabel, ([, hazard, words]) => `${hazard} ${label(words)} while`),
  slip('(\\bhazard NAME TEXT) when\\b', 'A hazard is there “while” something is so.', '$1 while'),
  slip('\\bhazard (TEXT) (?=while|when)', aHazard, ([, text]) => `hazard ${nameFor(text)} ${text} `),
  slip('START(?:danger|warning|caution) (NAME TEXT while)\\b', aHazard, 'hazard $1'),
  slip(
    '(\\bhazard NAME TEXT) *(\\{[^{}]*\\}) *(while [^\\n{}]*)END',
    'The condition stands before the brace.',
    '$1 $3 $2',
  ),
  slip(
    '(\\bhazard NAME TEXT while [^\\n{}"]*?) ((?:danger|warning|caution|note) TEXT) *(?:\\n|$)',
    'The text of a hazard stands in braces.',
    '$1 { $2 }\n',
  ),
  slip(
    'START(?:rule|never|always)\\b(?=[^\\n{}]*(?:\\n|$))',
    'A rule is written: rule NAME "TITLE" { while CONDITION require CONDITION because "REASON" }.',
  ),
  slip('START([^\\n"{}]*)END', 'Words and names are in small letters.', ([line = '']) =>
    line === line.toUpperCase() && /\p{L}{2}.*\s/u.test(line) ? line.toLowerCase() : undefined,
  ),
];
