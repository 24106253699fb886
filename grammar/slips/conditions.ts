/** Slips in conditions, bounds, branches and loops. */
import { actingWords, contextualActingWords } from '../words.ts';
import { quoted, type Slip, slip } from './slip.ts';

const acting = [...actingWords, ...contextualActingWords].join('|');

const aRange = 'A range is written with “to”, the lower value first.';
const anElse =
  'What is done when a check fails follows “else”: steps in braces, “go to” and a name, “stop” and a text, or “finish”.';

const range = (from = '', unit = '', to = '', unitTo = ''): string => {
  const [low, high] = Number(from) <= Number(to) ? [from, to] : [to, from];
  const ends = unit !== '' && unitTo !== '' ? [unit, unitTo] : ['', unitTo || unit];
  const [lowUnit, highUnit] = Number(from) <= Number(to) ? ends : [ends[0] && ends[1], ends[0] || ends[1]];
  return `${low}${lowUnit ? ` ${lowUnit}` : ''} to ${high}${highUnit ? ` ${highUnit}` : ''}`;
};

/** The unit of a gauge that is declared in the same text. */
function unitOf(gauge: string, text: string): string | undefined {
  return new RegExp(`\\bgauge\\s+${gauge}\\s+(?:"[^"\\n]*"\\s+)?in\\s+([^\\s{}"]+)`, 'u').exec(text)?.[1];
}

/** A condition with its bounds in words. */
function inWords(condition: string): string {
  return condition
    .replace(/\s*(?:>=|≥)\s*/g, ' at least ')
    .replace(/\s*(?:<=|≤)\s*/g, ' at most ')
    .replace(/\s*>\s*/g, ' above ')
    .replace(/\s*<\s*/g, ' below ')
    .replace(/\s*==?\s*/g, ' ');
}

export const conditionSlips: readonly Slip[] = [
  // Else.
  slip(`\\belse\\s+(TEXT)`, anElse, 'else { step $1 }', 'else stop $1'),
  slip('\\b(?:otherwise|or else),? ', 'The word is “else”.', 'else '),
  slip(`\\b(?:else|otherwise),? ((?:${acting})\\b[^\\n{}]*)END`, anElse, 'else { step $1 }'),
  slip(
    `\\b(?:else|otherwise),? *(?:(?<=START(?:else|otherwise),? *)\\r?\\n)? *(step\\b[^\\n{}]*)END`,
    anElse,
    'else { $1 }',
  ),
  slip(
    '\\belse stop (?:and )?(WORDS)END',
    'What is to be done then stands between quotation marks.',
    ([, words]) => `else stop ${quoted(words ?? '')}`,
  ),
  slip('\\belse (?:go )?to (?=NAME)', 'A jump is written “go to” and a name.', 'else go to '),
  slip(
    '(?<=\\belse )(?:at most )?\\d+ times?(?= *\\{)',
    'The steps behind “else” are done once, and then it is asked once more. For more tries put them into a “repeat at most 3 times until … { … }”.',
  ),
  slip('(?<=[^\\s{};]),? *\\bif not,? *(?=\\{)', 'What is done when a check fails follows “else”.', ' else '),
  slip(
    'START(?:else|otherwise)\\b',
    'An “else” stands right behind the check, the reading or the block that it belongs to.',
  ),

  slip(
    '\\b(require|if|check|while|until) (NAME NAME) *, *(NAME NAME)(?: *, *(NAME NAME))?(?: *, *(NAME NAME))?(?= *(?:END|[{}]|because\\b|else\\b))',
    'Conditions are joined with “and” or “or”.',
    ([, word, ...each]) => `${word} ${each.filter((one) => one !== '').join(' and ')}`,
  ),

  // Branches and loops.
  slip(
    'START(?:if|when) ([^\\n{}]*?),? then\\s+((?:step|if|go|stop|finish|set|check|read|run|wait)\\b[^\\n{}]*)END',
    'A branch is written “if”, a condition, and in braces the steps that are then done.',
    ([, condition, done]) =>
      `if ${inWords(condition ?? '')} { ${/^(?:step|if|go|stop|finish)/i.test(done ?? '') ? done : `step ${done}`} }`,
  ),
  slip('\\bthen\\s+((?:step|if|go|stop|finish)\\b[^\\n{}]*)END', 'What is then done stands in braces.', '{ $1 }'),
  slip(`\\bthen\\s+((?:${acting})\\b[^\\n{}]*)END`, 'What is then done stands in braces, as steps.', '{ step $1 }'),
  slip(' *\\bthen\\b *(?=\\{)', 'No “then” stands before the brace.', ' '),
  slip('START(if [^\\n{}]*?[^\\s{}]),? (step\\b[^\\n{}]*)END', 'What is then done stands in braces.', '$1 { $2 }'),
  slip('\\b(?:elseif|elsif|elif)\\b', 'A further branch is written “else if”.', 'else if'),
  slip('START(?:when|whenever|in case)\\b(?=[^\\n{}]*\\{)', 'A branch begins with “if”.', 'if'),
  slip(
    'START(unless)\\b *([^\\n{}]*?[^\\s{}]) *(?=\\{)',
    'A branch begins with “if”; what must not be is put in “not ( … )”.',
    'if not ($2) ',
  ),
  slip(
    '\\bif ([^\\n{}]*?) skip to\\b',
    'What is then done stands in braces; a jump is written “go to” and the name of a stage or step.',
  ),
  slip(
    '\\brepeat until ([^\\n{}]*?),? *(?:max(?:imum)?|at most|up to)\\.? *(\\d+) *(?:times|tries|rounds|x)? *(?=\\{)',
    'A repeat says first how often at most, then until when.',
    'repeat at most $2 times until $1 ',
  ),
  slip(
    '\\brepeat until ([^\\n{}]*?) *(?=\\{)',
    'A repeat says how often at most, so that it ends: repeat at most 3 times until …',
  ),
  slip('\\brepeat (\\d+) *x? *(?=\\{)', 'The number is followed by “times”.', 'repeat $1 times '),
  slip(
    `(?:START|\\bstep )(?:do|repeat) (\\d+) times *: *((?:${acting})\\b[^\\n{}]*)END`,
    'What is repeated stands in braces, as steps.',
    ([, times, actions]) => {
      const steps = (actions ?? '').split(new RegExp(`,\\s*(?=(?:${acting})\\b)`));
      return `repeat ${times} times { ${steps.map((one) => `step ${one}`).join('   ')} }`;
    },
  ),
  // Numbers and bounds.
  slip('(?<![\\d.,-])(-?\\d+),(\\d+)(?= *[\\p{L}%°])', 'Numbers are written with a decimal point.', '$1.$2'),
  slip('(?<![\\d.,-])(-?\\d+),(\\d+)(?![\\d,])', 'Numbers are written with a decimal point.', '$1.$2'),
  slip('\\bbetween (NUM) *(UNIT)? (?:and|to) (NUM) *(UNIT)?', aRange, ([, from, unit, to, unitTo]) =>
    range(from, unit, to, unitTo),
  ),
  slip('\\bfrom (NUM) *(UNIT)? to (NUM) *(UNIT)?', aRange, ([, from, unit, to, unitTo]) =>
    range(from, unit, to, unitTo),
  ),
  slip('(?<=NAME )(\\d+(?:\\.\\d+)?) *(?:UNIT )?[-–…] *(\\d+(?:\\.\\d+)?) *(UNIT)', aRange, ([, from, to, unit]) =>
    range(from, '', to, unit),
  ),
  slip(
    '(?<=NAME )(NUM) *(UNIT) *\\+/- *(NUM)(?: *(UNIT))?',
    'A value with a tolerance is written “exactly”, with the unit at both.',
    ([, value, unit, tolerance, other]) => `exactly ${value} ${unit} +/- ${tolerance} ${other || unit}`,
  ),
  slip(
    '\\b(?:is |be |shall be |must be )?(?:not more|no more|not higher|not over|not above) *(?:than )?(?=NUM)',
    'The most that may be is written “at most”.',
    'at most ',
  ),
  slip(
    '\\b(?:is |be |shall be |must be )?(?:not less|no less|not lower|not under|not below) *(?:than )?(?=NUM)',
    'The least that may be is written “at least”.',
    'at least ',
  ),
  slip('\\b(?:is )?(?:max(?:imum)?|up to)\\b[.:]? *(?=NUM)', 'The most that may be is written “at most”.', 'at most '),
  slip('\\b(?:is )?min(?:imum)?\\b[.:]? *(?=NUM)', 'The least that may be is written “at least”.', 'at least '),
  slip('\\b(?:is )?(?:more|greater|higher|larger) than (?=NUM)', 'Values over a bound are written “above”.', 'above '),
  slip('\\b(?:is )?over (?=NUM)', 'Values over a bound are written “above”.', 'above '),
  slip('\\b(?:is )?(?:less|lower|smaller) than (?=NUM)', 'Values under a bound are written “below”.', 'below '),
  slip('\\b(?:is )?under (?=NUM)', 'Values under a bound are written “below”.', 'below '),
  slip('\\b(?:is|are) (?=(?:above|below|at least|at most|exactly)\\b)', 'No “is” stands before a bound.', ''),
  slip('\\b(?:is|are) (?=NAME)', 'No “is” stands between an item and its state.', ''),
  slip(' *(?:>=|≥|=>) *', 'Bounds are written in words: “at least”.', ' at least '),
  slip(' *(?:<=|≤|=<) *', 'Bounds are written in words: “at most”.', ' at most '),
  slip(' *(?<!-)> *', 'Bounds are written in words: “above”.', ' above '),
  slip(' *<(?!-) *', 'Bounds are written in words: “below”.', ' below '),
  slip(' *==? *', 'A condition is an item and its state, or a gauge and a bound.', ' '),
  slip(
    '(NAME) (at least|at most|above|below|exactly) (NUM)(?! *[\\p{L}%°\\d])',
    'A number has its unit with it.',
    ([, gauge = '', form, value], text) => {
      const unit = unitOf(gauge, text);
      return unit && `${gauge} ${form} ${value} ${unit}`;
    },
  ),
  slip('\\b(at least|at most|above|below) (NUM *UNIT) (NAME)', 'The gauge stands first, then its bound.', '$3 $1 $2'),

  slip(
    '\\bthe (?=NAME (?:NAME|is|are)\\b)',
    'Things are called by the names of their declarations, without “the”.',
    '',
  ),
];
