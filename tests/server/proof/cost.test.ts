/** What a question costs: the places explored in very small cards, each to the place. What changes nothing for a question costs nothing. */
import { expect, test } from 'vitest';
import { card, kinds, proofOf } from './prove.ts';

const items = ['drain', 'lid'].map((name) => `item ${name} : valve "the ${name}" normally closed`).join('\n');
const machine = [kinds, items, 'item cap : valve "the cap"', 'gauge oil "oil" in psi'].join('\n');

function explored(declared: string, body: string): number {
  return proofOf([machine, declared, card(body)].join('\n')).proof.explored;
}

const rule = 'rule shut "Shut" { before drain open require lid closed }';
const opens = 'step { set drain open set drain closed }';
const starter = (name: string, duty = '') => `item ${name} : starter "the ${name}" normally off { ${duty} }`;
const duty = 'duty cranking at most 60 s, then rest 240 s';
const mud = 'gauge mud "mud" in psi { moved by drain }';
const heat = (level: string) => `hazard heat "heat" while drain open { ${level} warning "Hot." }`;

test.each([
  ['nothing', '', 'step "Look."', 2],
  ['an item', '', opens, 5],
  ['a rule', rule, opens, 7],
  ['steps that say nothing to it', rule, `step "Look." step wait 1 s ${opens} step "Look." step wait 1 s`, 11],
  ['a branch on a question that comes together', rule, `if "A?" { step wait 1 s } else { step "Look." } ${opens}`, 10],
  ['a branch on a question that does not', rule, `if "A?" { ${opens} }`, 9],
  [
    'a branch on a gauge that is open both ways',
    rule,
    `if oil above 5 psi { step set lid open step set lid closed } ${opens}`,
    18,
  ],
  [
    'a branch on an item that is open both ways',
    rule,
    `if cap open { step set lid open step set lid closed } ${opens}`,
    18,
  ],
  [
    'a branch that always goes one way',
    `${rule} item tip : valve "the tip" normally closed`,
    `if tip open { step "Look." } ${opens}`,
    9,
  ],
  ['a branch that decides', rule, `if "A?" { step set lid open } if lid closed { ${opens} } step set lid closed`, 34],
  ['two checks of the same things', rule, `step check cap open or lid open step check lid open or cap open`, 8],
  ['a check behind all that is asked', rule, `step set cap open ${opens} step check lid closed or cap open`, 16],
  ['a counted loop', rule, `repeat 3 times { step wait 1 s } ${opens}`, 9],
  ['a counted loop in which it matters', rule, `repeat 3 times { ${opens} }`, 24],
  [
    'counted rounds that are left and begun anew',
    rule,
    `step a: wait 1 s repeat 3 times { ${opens} if "Again?" { go to a } }`,
    33,
  ],
  ['a loop that nothing counts', rule, `step again: wait 1 s ${opens} if "Again?" { go to again }`, 11],
  ['two lanes', rule, `together { by one { step wait 1 s step wait 2 s } by two { ${opens} } }`, 11],
  [
    'two lanes that both matter',
    rule,
    `together { by one { step set lid open step set lid closed } by two { ${opens} } }`,
    18,
  ],
  [
    'lanes in a lane',
    rule,
    `together { by one { together { by one { step wait 1 s } by three { step wait 2 s } } } by two { ${opens} } }`,
    13,
  ],
  [
    'a lane that jumps back',
    rule,
    `together { by one { step again: wait 1 s if "Again?" { go to again } } by two { ${opens} } }`,
    19,
  ],
  [
    'a trigger that may be so at the start',
    'rule r "R" { while cap open require lid closed }',
    'step set lid open step set lid closed',
    8,
  ],
  [
    'a trigger by a reading',
    'rule r "R" { while oil above 5 psi require lid closed }',
    'step { read oil above 5 psi set lid open set lid closed }',
    11,
  ],
  [
    'a stop',
    'rule r "R" { at stop require lid closed }',
    'step check "A?" step set lid open step check "B?" step set lid closed',
    17,
  ],
  ['a duty', starter('motor', duty), 'step run motor cranking for 5 s', 5],
  [
    'a duty of an item that is left alone',
    `${starter('motor', duty)} ${starter('pump')}`,
    'step run pump cranking for 5 s',
    2,
  ],
  [
    'a duty among moments and moves without time',
    starter('motor', duty),
    `step wait 1 s ${opens} step run motor cranking for 5 s`,
    10,
  ],
  [
    'looks at a gauge that is open both ways, each time',
    `${mud} ${rule}`,
    `if mud above 5 psi { step set lid open } step set lid closed step wait 1 s ${opens} if mud above 5 psi { step set lid open } step set lid closed ${opens}`,
    38,
  ],
  [
    'moments that do not move a gauge',
    `${mud} rule r "R" { before drain open require mud above 5 psi }`,
    `step read mud above 5 psi step wait 1 s step wait 2 s step wait 3 s ${opens}`,
    15,
  ],
  [
    'lanes of the same length as each other',
    rule,
    'together { by one { step set lid open step wait 1 s step set lid closed } by two { step wait 1 s step wait 2 s } by three { step set drain open step set drain closed } }',
    48,
  ],
  [
    'noise in lanes',
    heat('level 90 dBA'),
    'warning heat together { by one { step set drain open step wait 1 s step set drain closed } by two { step wait 5 s } }',
    50,
  ],
  [
    'a run between two others',
    `${starter('motor')} rule r "R" { before drain open require motor off }`,
    `step run motor cranking for 1 s ${opens} step run motor cranking for 1 s if "A?" { ${opens} }`,
    20,
  ],
  [
    'a lamp',
    'item lamp-1 : lamp "the lamp" rule r "R" { before drain open require lamp-1 dark }',
    `step check lamp-1 dark step "Look." ${opens}`,
    14,
  ],
  ['a keep', rule, `stage "A" { keep lid closed else finish step wait 1 s ${opens} step "Look." }`, 20],
  [
    'a card that is done',
    `${rule} card other "Other" { number "T-2" revision "A" crew one "One" assume lid closed step wait 1 s }`,
    `do other ${opens} do other`,
    13,
  ],
  [
    'how long something has been so',
    'rule r "R" { before drain open require lid closed for at least 9 s }',
    `step wait 10 s step "Look." ${opens}`,
    12,
  ],
  [
    'a supply',
    `${starter('pump')} supply power "power" { source lid when lid open link lid -> pump when cap open } rule r "R" { before drain open require power reaches pump }`,
    `step { set lid open check cap open set drain open set drain closed set lid closed }`,
    15,
  ],
  [
    'a watched run beside a lane',
    rule,
    `together { by one { step { run lid open for 5 s { watch oil stays above 5 psi } } } by two { step { set drain open set drain closed } } }`,
    38,
  ],
  [
    'a run until something is so, beside a lane',
    rule,
    `together { by one { step { run lid open until cap open within 5 s } } by two { step { set drain open set drain closed } } }`,
    36,
  ],
  [
    'a wait until something is so, beside a lane',
    rule,
    `if "A?" { step set lid open } together { by one { step { wait until lid open within 5 s set lid open set lid closed } } by two { step { set drain open set drain closed } } }`,
    78,
  ],
  [
    'counted rounds beside a lane',
    rule,
    `together { by one { repeat 2 times { step set lid open step set lid closed } } by two { ${opens} } }`,
    48,
  ],
  [
    'what is made so where it is not, beside a lane',
    rule,
    `together { by one { step { ensure lid open set lid closed } } by two { step { set drain open set drain closed } } }`,
    35,
  ],
  [
    'a round that changes nothing',
    rule,
    `repeat 3 times { step "Look." } step again: "Look." if "Again?" { go to again } ${opens} if "Again?" { go to again }`,
    15,
  ],
  [
    'a question of time that something else answers',
    'rule r "R" { before drain open require cap closed for at most 9 s }',
    `step { wait 1 s check lid closed or cap closed for at least 9 s } step wait 1 s ${opens}`,
    18,
  ],
  [
    'what is made so where it is not, beside a lane that moves it too',
    rule,
    `together { by one { step { ensure lid open } } by two { step { set lid open set lid closed set drain open set drain closed } } }`,
    54,
  ],
  [
    'a loop that is entered in its middle and left from its beginning',
    rule,
    `go to mid step a: "A." if "D?" { go to out } step mid: "B." if "C?" { go to a } step out: "O." ${opens}`,
    13,
  ],
  [
    'a wait until something is so that another lane brings about',
    rule,
    `together { by one { step { wait until lid closed within 5 s } } by two { step { set lid open set lid closed set drain open set drain closed } } }`,
    64,
  ],
  [
    'a branch that no path comes to',
    rule,
    `step set cap open go to on if cap open { step set lid open step set lid closed } step on: set drain open step set drain closed step set cap closed`,
    14,
  ],
  [
    'how long two things have been so, of which one runs',
    'kind tap { shut, wide, half } item tap-1 : tap "the tap" rule r "R" { before drain open require tap-1 shut for at least 9 s and lid open for at least 9 s }',
    `step run tap-1 shut for 1 s step wait 10 s ${opens}`,
    20,
  ],
  [
    'two checks of the same gauges',
    `gauge mud "mud" in psi ${rule}`,
    `step check oil above 5 psi or mud above 5 psi step check mud above 5 psi or oil above 5 psi`,
    11,
  ],
  ['a run before a stop', rule, 'step run cap open for 1 s step set cap open stop "Call."', 6],
  [
    'a reading of which two parts are joined',
    'rule r "R" { before drain open require oil below 5 psi }',
    `step { check oil below 5 psi or oil above 9 psi } ${opens}`,
    12,
  ],
  [
    'what an item was before a run that is over',
    'item tap : valve "the tap" normally closed rule r "R" { before drain open require tap closed }',
    `if "A?" { step set tap open } step run tap open for 1 s step set tap closed step run tap open for 1 s ${opens}`,
    32,
  ],
  [
    'what was seen before time passed',
    'item lamp-1 : lamp "the lamp"',
    `if lamp-1 lit { step "Look." } step wait 1 s if lamp-1 lit { ${opens} }`,
    14,
  ],
  [
    'a rule over as many items as are asked of together',
    `${['a', 'b', 'c', 'd'].map((name) => `item ${name} : valve "${name}" normally closed`).join(' ')} rule r "R" { before drain open require a closed and b closed and c closed and d closed }`,
    `step set a open step set b open step set b closed step set a closed ${opens}`,
    21,
  ],
  [
    'what a card that is done assumes anyway',
    `${rule} card part "Part" { number "P" revision "A" crew one "One" assume lid closed step "Look." }`,
    `if "A?" { step set lid open step check "Well?" step "Look." } do part ${opens} step set lid closed`,
    27,
  ],
  ['a hazard', heat(''), `warning heat ${opens}`, 8],
  ['a hazard with a level of noise', heat('level 90 dBA'), `warning heat ${opens}`, 20],
] as const)('%s', (_, declared, body, places) => {
  expect(explored(declared, body)).toBe(places);
});
