/** What a fix writes in the place of a slip. */
import { expect, test } from 'vitest';
import type { Fix } from '../../../shared/finding.ts';
import { applyFix } from '../../support/apply.ts';
import { findingsOf } from '../../support/check.ts';

const equipment = `
kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain" normally closed
gauge oil "oil pressure" in psi { reads 0 to 100 by 2   limit normal 20 psi to 80 psi   limit most at most 90 psi }
`;

function card(body: string): string {
  return `${equipment}card trial "Trial" {\n  number "T-09" revision "A" crew a "Ann", b "Ben"\n${body}\n}`;
}

/** What stands in the card once a fix is taken. */
function mended(body: string, code: string, title: string): string {
  const text = card(body);
  const fixes = findingsOf(text, { only: [code] }).flatMap((finding) => finding.fixes);
  const fix = fixes.find((one) => one.title === title);
  if (!fix) throw new Error(`No “${title}” among ${fixes.map((one) => one.title).join(' | ')}`);
  return applyFix(text, fix)
    .slice(card('').length - 2)
    .replace(/\n\}$/u, '');
}

test.each([
  [
    'two steps of a sentence with two actions, by the same role',
    'prose.several-actions',
    'Make two steps of it',
    '  step by a "Remove the bolts and install the cover. Look at it."',
    '  step by a "Remove the bolts."\n  step by a "Install the cover. Look at it."',
  ],
  [
    'the first two of three actions',
    'prose.several-actions',
    'Make two steps of it',
    '  step out: by a "Remove the bolts, clean the face and install the cover."\n  step by a "Done?" go to out',
    '  step out: by a "Remove the bolts."\n  step by a "Clean the face and install the cover."\n  step by a "Done?" go to out',
  ],
  [
    'a step of what a caution asks for',
    'prose.action-in-admonition',
    'Make a step of it, after this',
    '  caution "Water spoils the igniters. Close the hatch. It is heavy."\n  step by a "Look."',
    '  caution "Water spoils the igniters. It is heavy."\n  step "Close the hatch."\n  step by a "Look."',
  ],
  [
    'a step in the place of a note that is none',
    'prose.action-in-admonition',
    'Make a step of it',
    '  note "Close the hatch."\n  step by a "Look."',
    '  step "Close the hatch."\n  step by a "Look."',
  ],
  [
    'another inspector',
    'crew.own-inspection',
    'Let Ben inspect it',
    '  step by a inspected by a "Fit the pin."',
    '  step by a inspected by b "Fit the pin."',
  ],
  [
    'the slot of a limit, with the words of its bound',
    'limit.in-text',
    'Write the limit: at {oil.normal}',
    '  step by a "Keep the oil pressure below 85 psi."',
    '  step by a "Keep the oil pressure at {oil.normal}."',
  ],
  [
    'the slot of a limit to one side',
    'limit.in-text',
    'Write the limit: {oil.most}',
    '  step by a "Keep the oil pressure at most 85 psi."',
    '  step by a "Keep the oil pressure {oil.most}."',
  ],
  [
    'the figure of the limit',
    'limit.in-text',
    'Change to 80 psi',
    '  step by a "Keep the oil pressure below 85 psi."',
    '  step by a "Keep the oil pressure below 80 psi."',
  ],
  [
    'the second branch from where the first ends',
    'flow.overlap',
    'Change the second to: above 60 psi',
    '  if oil at most 60 psi { step by a "Open." }\n  else if oil at least 40 psi { step by a "Close." }',
    '  if oil at most 60 psi { step by a "Open." }\n  else if oil above 60 psi { step by a "Close." }',
  ],
  [
    'what a branch that always holds says, without it',
    'flow.always-passes',
    'Take the condition away',
    '  step by a check drain closed\n  if drain closed {\n    // Both.\n    step by a "Look."\n    step by a "Look again."\n  }',
    '  step by a check drain closed\n  // Both.\n  step by a "Look."\n  step by a "Look again."',
  ],
  [
    'what a check asks for, before it',
    'flow.never-passes',
    'Insert: step by a set drain open, and later: step by a set drain closed',
    '  step by a check drain open',
    '  step by a set drain open\n  step by a check drain open\n  step by a set drain closed',
  ],
  ['the label of a step away', 'name.unused', 'Take out “here”', '  step here: by a "Look."', '  step by a "Look."'],
])('%s', (_name, code, title, before, after) => {
  expect(mended(before, code, title)).toBe(after);
});

test.each([
  ['crew a "Ann", b "Ben", c "Cem"', 'crew a "Ann", b "Ben"'],
  ['crew c "Cem", a "Ann", b "Ben"', 'crew a "Ann", b "Ben"'],
])('a role that nobody takes goes with its comma: %s', (before, after) => {
  const text = `card t "T" {\n  number "1" revision "A" ${before}\n  step by a "Look."\n  step by b "Look."\n}`;
  const [finding] = findingsOf(text, { only: ['name.unused'] });
  expect(applyFix(text, finding?.fixes[0] as Fix)).toContain(`revision "A" ${after}\n`);
});

test.each([
  ['WP-09', 'WP-10'],
  ['WP-99', 'WP-100'],
  ['WASH', 'WASH-2'],
])('the number after %s that no card has is %s', (taken, next) => {
  const one = (name: string) => `card ${name} "T" { number "${taken}" revision "A" crew a "Ann" step "Look." }`;
  const [finding] = findingsOf(`${one('x')}\n${one('y')}`, { only: ['card.duplicate-number'] });
  expect(finding?.fixes.map(({ title }) => title)).toEqual([`Change to “"${next}"”`]);
});

test('an action in the middle of what a step does is not moved into a step of its own', () => {
  const text = card(
    '  step by a "Remove the bolts and install the cover." set drain open\n  step by a set drain closed',
  );
  expect(findingsOf(text, { only: ['prose.several-actions'] }).flatMap(({ fixes }) => fixes)).toEqual([]);
});
