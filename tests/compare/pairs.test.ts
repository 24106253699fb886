/** Pairs of revisions, each with the list that a careful reviewer would write of what is another thing for the crew. */
import { expect, test } from 'vitest';
import { compareCards } from '../../server/api.ts';
import { openFiles } from '../support/check.ts';

const plant = `
item inlet  : valve "the inlet valve" normally closed
item drain  : valve "the drain valve" normally closed
item pump   : pump  "the pump"        normally stopped { duty running at most 5 min, then rest 2 min }
gauge pressure "the pressure" in bar { reads 0 to 10 by 0.1  limit work 2 bar to 4 bar }
hazard jet "a jet of water" while pump running { warning "Water under pressure cuts." }
`;
const card = `use "plant.card"
card flush "Flush the line" {
  number "F-1"  revision "A" on 2026-10-02  crew hand "Hand", guard "Guard"  tools "Hose", "Bucket"
  stage "Prepare" {
    step by guard "Close the road with barriers."
    step by hand set inlet open
    step by hand read pressure in work else stop "Call the plant."
  }
  stage "Flush" {
    warning jet
    step by hand takes 1 min to 2 min set drain open
    step by hand run pump running for 3 min
    step by hand wait 60 s
  }
  stage "Put back" {
    step by hand set drain closed
    step by hand set inlet closed
    step by guard "Take the barriers away."
    sign hand "Line flushed"
  }
}`;

type Edit = readonly [from: string | RegExp, to: string];

interface Pair {
  readonly what: string;
  /** Made in both revisions. */
  readonly both?: readonly Edit[];
  readonly edits: readonly Edit[];
  readonly list: readonly string[];
}

const pairs: readonly Pair[] = [
  {
    what: 'another layout, comments, and another order of what is only listed',
    edits: [
      ['tools "Hose", "Bucket"', '\n\n  tools "Bucket", "Hose" // both'],
      ['crew hand "Hand", guard "Guard"', 'crew guard "Guard", hand "Hand"'],
      [/^item inlet(.*)\nitem drain(.*)$/m, 'item drain$2\n/* first */ item inlet$1'],
    ],
    list: [],
  },
  { what: 'another name for what is called the same on the card', edits: [[/inlet(?! valve)/g, 'feed']], list: [] },
  {
    what: 'the time that is allowed for what is waited for, with or without another condition',
    both: [['wait 60 s', 'wait until pressure below 1 bar within 30 s else stop "Call the plant."']],
    edits: [['within 30 s', 'within 50 s']],
    list: ['Step 6, time allowed: 50 s. It was 30 s.'],
  },
  {
    what: 'the time that is allowed, and what is waited for',
    both: [['wait 60 s', 'wait until pressure below 1 bar within 30 s else stop "Call the plant."']],
    edits: [['below 1 bar within 30 s', 'below 2 bar within 50 s']],
    list: [
      'Step 6 is reworded: Wait up to 50 s until the pressure is below 2 bar. It was: Wait up to 30 s until the pressure is below 1 bar.',
      'Step 6, time allowed: 50 s. It was 30 s.',
    ],
  },
  {
    what: 'a step more',
    edits: [['    step by hand run', '    step by guard "Warn the neighbours."\n    step by hand run']],
    list: ['Step 5 is new: Warn the neighbours.'],
  },
  {
    what: 'a step less',
    edits: [['    step by hand wait 60 s\n', '']],
    list: ['Step 6 of the old card is gone: Wait 1 min.'],
  },
  {
    what: 'a step in another place',
    edits: [
      ['    step by guard "Close the road with barriers."\n', ''],
      ['"Call the plant."\n', '"Call the plant."\n    step by guard "Close the road with barriers."\n'],
    ],
    list: ['Step 3 was step 1: Close the road with barriers.'],
  },
  {
    what: 'other words for a step',
    edits: [['with barriers', 'with two barriers']],
    list: ['Step 1 is reworded: Close the road with two barriers. It was: Close the road with barriers.'],
  },
  {
    what: 'a limit of the equipment, tightened',
    edits: [['2 bar to 4 bar', '2.5 bar to 4 bar']],
    list: ['The limit work of the pressure is tighter: 2.5 to 4 bar. It was 2 to 4 bar. Step 3 relies on it.'],
  },
  {
    what: 'a limit of the equipment that no step asks for, though one reads its gauge',
    both: [['limit work', 'limit rest below 1 bar  limit work']],
    edits: [['below 1 bar', 'below 0.5 bar']],
    list: ['The limit rest of the pressure is tighter: below 0.5 bar. It was below 1 bar.'],
  },
  {
    what: 'a limit in another unit, and of the same size',
    both: [['in work', 'at least 2.5 bar']],
    edits: [['at least 2.5 bar', 'at least 250 kPa']],
    list: [],
  },
  {
    what: 'a limit in a step, loosened in another unit',
    both: [['in work', '2.5 bar to 3 bar']],
    edits: [['2.5 bar to 3 bar', '250 kPa to 350 kPa']],
    list: ['Step 3: the limit of the pressure is looser: 2.5 to 3.5 bar. It was 2.5 to 3 bar.'],
  },
  {
    what: 'a limit that lies elsewhere',
    both: [['in work', '2.5 bar to 3 bar']],
    edits: [['2.5 bar to 3 bar', '2.8 bar to 3.5 bar']],
    list: ['Step 3: the limit of the pressure is another: 2.8 to 3.5 bar. It was 2.5 to 3 bar.'],
  },
  {
    what: 'a longer run',
    edits: [['for 3 min', 'for 4 min']],
    list: ['Step 5 lasts 4 min. It was 3 min.'],
  },
  {
    what: 'more time for the work of hands',
    edits: [['takes 1 min to 2 min', 'takes 2 min to 3 min']],
    list: ['Step 4 takes 2 to 3 min. It was 1 to 2 min.'],
  },
  {
    what: 'a step that now names its source',
    edits: [['takes 1 min to 2 min', 'takes 1 min to 2 min source "Manual 12-3, 4.b"']],
    list: ['Step 4 comes from “Manual 12-3, 4.b”. It was no source.'],
  },
  {
    what: 'the sources of a limit, a hazard, a rule and an admonition, and nothing else of them',
    both: [
      ['2 bar to 4 bar }', '2 bar to 4 bar source "Manual 7, rev 3" }'],
      [/$(?![\s\S])/, '\nrule fed "The pump is fed" { while pump running require inlet open source "Norm 5" }'],
      ['    warning jet', '    note "The water is brown." source "Manual 9"\n    warning jet'],
    ],
    edits: [
      ['Manual 7, rev 3', 'Manual 7, rev 4'],
      ['cuts." }', 'cuts." source "Manual 8" }'],
      ['"Norm 5"', '"Norm 6"'],
      [' source "Manual 9"', ''],
    ],
    list: [
      'A note “The water is brown.” comes from no source. It was “Manual 9”.',
      'The limit work of the pressure comes from “Manual 7, rev 4”. It was “Manual 7, rev 3”.',
      'The rule “The pump is fed” comes from “Norm 6”. It was “Norm 5”.',
      'The hazard “a jet of water” comes from “Manual 8”. It was no source.',
    ],
  },
  {
    what: 'the other state, and what that breaks',
    edits: [['set inlet closed', 'set inlet open']],
    list: [
      'Step 8: Open the inlet valve. It was: Close the inlet valve.',
      'New error, safety.left-changed',
      'New hint, state.no-change',
    ],
  },
  {
    what: 'another role',
    edits: [['step by hand set inlet open', 'step by guard set inlet open']],
    list: ['Step 2 is by Guard. It was by Hand.'],
  },
  {
    what: 'a warning less',
    edits: [['    warning jet\n', '']],
    list: ['A warning is gone: Water under pressure cuts.', 'New error, safety.warning-missing'],
  },
  {
    what: 'another signal word',
    both: [['    warning jet\n', '    warning jet\n    caution "The floor is wet."\n']],
    edits: [['caution "The floor', 'warning "The floor']],
    list: ['A caution is now a warning: The floor is wet.'],
  },
  {
    what: 'a warning that comes later',
    edits: [
      ['    warning jet\n', ''],
      ['set drain open\n', 'set drain open\n    warning jet\n'],
    ],
    list: ['A warning has moved, to before step 5: Water under pressure cuts.'],
  },
  {
    what: 'an error that is mended',
    both: [['    step by hand set inlet closed\n', '']],
    edits: [
      ['    step by hand set drain closed\n', '    step by hand set drain closed\n    step by hand set inlet closed\n'],
    ],
    list: ['Step 8 is new: Close the inlet valve.', 'No longer found: safety.left-changed'],
  },
  {
    what: 'another way on from a failed reading',
    edits: [['else stop "Call the plant."', 'else go to "Put back"']],
    list: ['Step 3, if it fails: go to “Put back”. It was: stop, “Call the plant.”'],
  },
  {
    what: 'a branch that was none',
    edits: [['step by hand wait 60 s', 'if "Is the water brown?" { step by hand wait 60 s }']],
    list: ['A branch is new, for step 6: if “Is the water brown?”'],
  },
  {
    what: 'one more way to choose',
    both: [
      ['step by hand wait 60 s', 'choose { "Short" { step by hand wait 60 s } or "Long" { step by hand wait 3 min } }'],
    ],
    edits: [
      [
        '"Short" { step by hand wait 60 s } or "Long" { step by hand wait 3 min }',
        '"Long" { step by hand wait 3 min } or "Night" { step by hand wait 8 h } or "Short" { step by hand wait 60 s }',
      ],
    ],
    list: ['A way to choose is new, for step 7: Night', 'Step 7 is new: Wait 8 h.'],
  },
  {
    what: 'lanes in another order',
    both: [['step by hand wait 60 s', 'together { by hand { step wait 60 s } by guard { step "Watch the hose." } }']],
    edits: [
      [
        'by hand { step wait 60 s } by guard { step "Watch the hose." }',
        'by guard { step "Watch the hose." } by hand { step wait 60 s }',
      ],
    ],
    list: [],
  },
  {
    what: 'two steps as rounds',
    edits: [
      [
        /step by hand set drain closed\n.*set inlet closed/,
        'for each tap in drain, inlet { step by hand set tap closed }',
      ],
    ],
    list: [],
  },
  {
    what: 'a rule more, which the card keeps',
    edits: [[/$(?![\s\S])/, '\nrule open-first "Open the drain first" { before pump running require drain open }']],
    list: ['The rule “Open the drain first” is new.'],
  },
  {
    what: 'a shorter time that the pump may run, which the card does not keep',
    edits: [['at most 5 min', 'at most 2 min']],
    list: [
      'The pump: Never longer than 2 min, then rest 2 min. It was: Never longer than 5 min, then rest 2 min. Step 5 relies on it.',
      'New error, duty.too-long',
    ],
  },
  {
    what: 'what is at hand, who is there, and what is assumed',
    edits: [
      ['"Bucket"', '"Large bucket", "Key"'],
      ['guard "Guard"', 'guard "Guard" qualified "Flagman"'],
    ],
    list: [
      'Crew: “Guard, Flagman” is new, “Guard” is gone.',
      'Tools: “Large bucket”, “Key” are new, “Bucket” is gone.',
    ],
  },
  {
    what: 'another stage and several things at once',
    edits: [
      ['stage "Flush"', 'stage "Flush well"'],
      ['for 3 min', 'for 5 min'],
      ['    step by guard "Take the barriers away."\n', ''],
    ],
    list: [
      'The stage “Flush” is now “Flush well”.',
      'Step 5 lasts 5 min. It was 3 min.',
      'Step 9 of the old card is gone: Take the barriers away.',
    ],
  },
];

const applied = (text: string, edits: readonly Edit[]) =>
  edits.reduce((all, [from, to]) => all.replace(from, to), text);
const separator = '\n//----\n';

/** An edit is made where it fits, in the card or in its equipment. */
function filesOf(edits: readonly Edit[]) {
  const [cardText = '', plantText = ''] = applied(`${card}${separator}${plant}`, edits).split(separator);
  return { 'flush.card': cardText, 'plant.card': plantText };
}

const cardsOf = (edits: readonly Edit[]) => openFiles(filesOf(edits)).comparable('flush.card');

test.each(pairs)('$what', ({ both = [], edits, list }) => {
  const [[old], [now]] = [cardsOf(both), cardsOf([...both, ...edits])];
  if (!old || !now) throw new Error('There is no card.');
  const said = compareCards(old.input(), now.input()).map(({ text }) =>
    text.replace(/^((?:New|No longer found:)[^.]*\.[\w-]+).*$/s, '$1'),
  );
  expect(said).toEqual(list);
});
