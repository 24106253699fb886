/** How statements, declarations and parts are written, as snippets: `$1` is the first place to fill in. */
// biome-ignore-all lint/suspicious/noTemplateCurlyInString: snippets name their places so.

import type { fieldWords, HeadWord, levelWords } from '../../../grammar/words.ts';

type FieldWord = (typeof fieldWords)[number];
type Level = (typeof levelWords)[number];

export interface Snippet {
  /** The word of the language that it begins with, or those. */
  readonly word: string;
  /** Where there are several for one word. */
  readonly label?: string;
  readonly text: string;
  readonly help: string;
}

const today = '${CURRENT_YEAR}-${CURRENT_MONTH}-${CURRENT_DATE}';

/** The rules of the grammar in which a sentence begins: several words share some. */
type SentenceRule =
  | Exclude<HeadWord, FieldWord | Level | 'ensure' | 'go' | 'stop' | 'finish' | 'for'>
  | 'admonition'
  | 'flow'
  | 'forEach';

/** By the rule of the grammar that they are written in. */
const snippets = {
  set: [
    { word: 'set', text: 'set $0', help: 'Put an item in a state' },
    { word: 'ensure', text: 'ensure $0', help: 'Look, and put it in the state where it is not' },
  ],
  check: [
    { word: 'check', text: 'check $0', help: 'Look that something is so; otherwise stop or go elsewhere' },
    {
      word: 'check',
      label: 'check … else',
      text: 'check ${1:"Is it dry?"} else {\n  $0\n}',
      help: 'Look that something is so; where it is not, do this and look again',
    },
  ],
  read: [{ word: 'read', text: 'read $0', help: 'Read a gauge, against a limit' }],
  bring: [{ word: 'bring', text: 'bring $0', help: 'Bring a gauge within a limit' }],
  run: [
    { word: 'run', text: 'run ${1:an-item} ${2:on} for ${3:30 s}', help: 'Enter a state, let the time pass, leave it' },
  ],
  wait: [{ word: 'wait', text: 'wait ${1:60 s}', help: 'Let time pass' }],
  tighten: [
    {
      word: 'tighten',
      text: 'tighten ${1:"the cover bolts"} to ${2:25 N.m +/- 2 N.m}',
      help: 'A torque, with its tolerance and pattern',
    },
  ],
  record: [{ word: 'record', text: 'record "$1"', help: 'A blank to fill in' }],
  step: [
    { word: 'step', text: 'step ', help: 'Something to do' },
    { word: 'step', label: 'step …', text: 'step by ${1:role} {\n  $0\n}', help: 'A step with several actions' },
  ],
  admonition: [
    { word: 'danger', text: 'danger ', help: 'Before something that kills or maims' },
    { word: 'warning', text: 'warning ', help: 'Before something that can injure' },
    { word: 'caution', text: 'caution ', help: 'Before something that can do damage' },
    { word: 'note', text: 'note "$0"', help: 'Something to know' },
  ],
  if: [
    { word: 'if', text: 'if ${1:an-item on} {\n  $0\n}', help: 'Do this only where something is so' },
    {
      word: 'if',
      label: 'if … else',
      text: 'if ${1:an-item on} {\n  $2\n} else {\n  $0\n}',
      help: 'One way or the other',
    },
  ],
  repeat: [
    { word: 'repeat', text: 'repeat ${1:2} times {\n  $0\n}', help: 'Do this several times' },
    {
      word: 'repeat',
      label: 'repeat … until',
      text: 'repeat at most ${1:3} times until ${2:an-item on} {\n  $0\n} else stop "$3"',
      help: 'Do this until something is so',
    },
  ],
  together: [
    {
      word: 'together',
      text: 'together {\n  by ${1:role} {\n    $2\n  }\n  by ${3:role} {\n    $0\n  }\n}',
      help: 'Several people at once',
    },
  ],
  choose: [
    {
      word: 'choose',
      text: 'choose {\n  "${1:one way}" {\n    $2\n  }\n  or "${3:another}" {\n    $0\n  }\n}',
      help: 'Any one of several ways',
    },
    { word: 'or', text: 'or "$1" {\n  $0\n}', help: 'Another way' },
  ],
  forEach: [
    { word: 'for each', text: 'for each ${1:this-one} in ${2:a-kind} {\n  $0\n}', help: 'Do this for each item' },
  ],
  keep: [{ word: 'keep', text: 'keep $0', help: 'Something that must stay so to the end of the stage' }],
  do: [{ word: 'do', text: 'do $0', help: 'A procedure, or another card' }],
  sign: [{ word: 'sign', text: 'sign $0', help: 'A signature' }],
  flow: [
    { word: 'go to', text: 'go to $0', help: 'Go on at a step or stage' },
    { word: 'stop', text: 'stop "$0"', help: 'Stop the job here' },
    { word: 'finish', text: 'finish', help: 'The job is done here' },
  ],
  figure: [{ word: 'figure', text: 'figure "$1" "$0"', help: 'A picture' }],
  accept: [
    { word: 'accept', text: 'accept $1 because "$2" by "$0"', help: 'Accept a finding here, with a reason and a name' },
  ],
  textField: [
    { word: 'number', text: 'number "$0"', help: 'The number of the card' },
    { word: 'purpose', text: 'purpose "$0"', help: 'What the job is for' },
    { word: 'language', text: 'language "${1:en}"', help: 'The language of the fixed words on the card: en, de or fr' },
  ],
  revision: [
    {
      word: 'revision',
      text: `revision "\${1:A}" on ${today}`,
      help: 'Revision and its date',
    },
  ],
  signOff: (['prepared', 'checked', 'approved'] as const).map((word) => ({
    word,
    text: `${word} by "$0" on ${today}`,
    help: `Who ${word} the card, and when`,
  })),
  applies: [{ word: 'applies', text: 'applies $0', help: 'The machines it is for' }],
  crew: [{ word: 'crew', text: 'crew ${1:mechanic} "${2:Mechanic}"', help: 'Who does it' }],
  listField: [
    { word: 'tools', text: 'tools "$0"', help: 'What is needed' },
    { word: 'materials', text: 'materials "$0"', help: 'What is used up' },
    { word: 'references', text: 'references "$0"', help: 'What to read' },
  ],
  stateField: [
    { word: 'assume', text: 'assume ${1:an-item} ${2:on} because "$0"', help: 'A state that the card starts with' },
    {
      word: 'leaves',
      text: 'leaves ${1:an-item} ${2:on} because "$0"',
      help: 'A state that the card ends with on purpose',
    },
  ],
  stage: [
    { word: 'stage', text: 'stage "$1" {\n  $0\n}', help: 'A part of the job' },
    {
      word: 'stage',
      label: 'stage … when stopped',
      text: 'stage "${1:Make safe}" when stopped {\n  $0\n}',
      help: 'What to do whenever the job is stopped',
    },
  ],
  use: [{ word: 'use', text: 'use "$0"', help: 'Take in another file' }],
  kind: [
    {
      word: 'kind',
      text: 'kind ${1:name} { ${2:off} "Switch off {}", ${3:on} "Switch on {}" }',
      help: 'A sort of item, with its states and how they are ordered',
    },
  ],
  item: [
    {
      word: 'item',
      text: 'item ${1:name} : ${2:a-kind} "${3:the thing}" at "${4:place}" normally $0',
      help: 'One thing of the machine',
    },
  ],
  gauge: [
    {
      word: 'gauge',
      text: 'gauge ${1:name} "${2:what it shows}" in ${3:V} {\n  reads ${4:0} to ${5:100} by ${6:1}\n  limit ${7:normal} $0\n}',
      help: 'Something that is read',
    },
  ],
  supply: [
    {
      word: 'supply',
      text: 'supply ${1:name} "${2:what flows}" {\n  source ${3:from}\n  link ${3:from} -> ${4:to} when $0\n}',
      help: 'What feeds what',
    },
  ],
  hazard: [
    {
      word: 'hazard',
      text: 'hazard ${1:name} "${2:what}" while ${3:an-item on} {\n  warning "$0"\n}',
      help: 'Something that can hurt',
    },
  ],
  rule: [
    {
      word: 'rule',
      text: 'rule ${1:name} "${2:What must be so}" {\n  before ${3:an-item on}\n  require ${4:an-item on}\n  because "$0"\n}',
      help: 'Something that must hold on every path',
    },
    { word: 'require', text: 'require $0', help: 'What must be so' },
    { word: 'because', text: 'because "$0"', help: 'Why' },
    { word: 'source', text: 'source "$0"', help: 'Where it is published' },
  ],
  variant: [{ word: 'variant', text: 'variant ${1:unit} ${2:1} to ${3:4}', help: 'What tells machines apart' }],
  procedure: [
    {
      word: 'procedure',
      text: 'procedure ${1:name}(${2:an-item}: ${3:a-kind}) "${4:What it does}" {\n  $0\n}',
      help: 'Steps that several cards share',
    },
  ],
  card: [
    {
      word: 'card',
      text: 'card ${1:name} "${2:What it does}" {\n  number   "$3"\n  revision "A" on ${CURRENT_YEAR}-${CURRENT_MONTH}-${CURRENT_DATE}\n  crew     ${4:mechanic} "${5:Mechanic}"\n\n  stage "${6:First}" {\n    step $0\n  }\n}',
      help: 'A task card',
    },
  ],
  watch: [
    {
      word: 'watch',
      text: 'watch ${1:a-gauge} reaches ${2:at least 10 %} within ${3:10 s} else stop "$0"',
      help: 'Look at a gauge while it runs',
    },
  ],
  lane: [{ word: 'by', text: 'by ${1:role} {\n  $0\n}', help: 'What one of them does' }],
  itemPart: [
    { word: 'duty', text: 'duty ${1:state} at most ${2:30 s}, then rest ${3:60 s}', help: 'How long and how often' },
  ],
  reads: [{ word: 'reads', text: 'reads ${1:0} to ${2:100} by ${3:1}', help: 'Its scale and marks' }],
  limit: [
    { word: 'limit', text: 'limit ${1:normal} $0', help: 'A named limit' },
    { word: 'source', text: 'source "$0"', help: 'Where in the approved data it comes from' },
  ],
  moved: [{ word: 'moved by', text: 'moved by $0', help: 'The only items whose actions change it' }],
  source: [{ word: 'source', text: 'source $0', help: 'Where it comes from' }],
  link: [{ word: 'link', text: 'link ${1:from} -> ${2:to} when $0', help: 'What passes it on' }],
  hazardBody: [
    { word: 'level', text: 'level ${1:95} dBA', help: 'The sound level' },
    { word: 'danger', text: 'danger "$0"', help: 'It kills or maims' },
    { word: 'warning', text: 'warning "$0"', help: 'It can injure' },
    { word: 'caution', text: 'caution "$0"', help: 'It can do damage' },
    { word: 'protect', text: 'protect $0', help: 'What keeps it off' },
  ],
  trigger: [
    { word: 'before', text: 'before $0', help: 'Asked at each action that makes this so' },
    { word: 'while', text: 'while $0', help: 'Asked as long as this is so' },
    { word: 'at end', text: 'at end', help: 'Asked where the card finishes' },
    { word: 'at stop', text: 'at stop', help: 'Asked where the card stops' },
  ],
} satisfies Readonly<Record<SentenceRule, readonly Snippet[]>> & Readonly<Record<string, readonly Snippet[]>>;

const snippetsOf = new Map<string, readonly Snippet[]>(Object.entries(snippets));

/** The ways of writing what begins with this word, or these. */
export function snippetsFor(rule: string, word: string): readonly Snippet[] {
  return (snippetsOf.get(rule) ?? []).filter((snippet) => snippet.word === word);
}

/** How what stands in a text, up to here, may go on, where that is one of these words by itself: `repeat` with `2 times { … }`. */
export function snippetsAfter(before: string): readonly Snippet[] {
  const line = before.slice(before.lastIndexOf('\n') + 1);
  return all.flatMap((snippet) => {
    const rest = snippet.text.slice(snippet.word.length + 1);
    const head = new RegExp(`(?:^|[{}"]|\\belse|\\bby\\s+\\S+)\\s*${snippet.word}[ \\t]+$`, 'u');
    return /^(?!\$\d)./u.test(rest) && head.test(line) ? [{ ...snippet, label: labelOf(rest), text: rest }] : [];
  });
}

const all = [...snippetsOf.values()].flat();

/** As it will stand there, as far as its first line goes. */
function labelOf(rest: string): string {
  const [first = '', ...others] = rest
    .replace(/"\$\d"/gu, '"…"')
    .replace(/\$\{\d+:([^}]*)\}|\$\d/gu, '$1')
    .split('\n');
  return others.length > 0 ? `${first} …` : first;
}
