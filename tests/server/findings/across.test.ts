/** What is found across the cards of a folder. */
import { describe, expect, it, test } from 'vitest';
import { openFiles } from '../../support/check.ts';

const plant = `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve" normally closed
item vent  : valve "the vent valve"  normally closed
item spare : valve "the spare valve" normally closed
`;

const card = (number: number, body: string, use = 'plant.card') => `use "${use}"
card card-${number} "Card ${number}" {
  number "${number}" revision "A" crew mechanic "Mechanic"
${body}
}`;

const drains = 'step set drain open\nstep set drain closed';
const vents = 'step set vent open\nstep set vent closed';

function told(files: Readonly<Record<string, string>>, asked = Object.keys(files)) {
  const all = openFiles(files).check(asked).findings;
  const across = all.filter(({ code }) => ['name.unused-item', 'state.not-left'].includes(code));
  return across.map(({ place, message }) => `${place.file}: ${message}`);
}

const spareIsIdle =
  'plant.card: Nothing names the spare valve. Looked at: “Card 1” and “Card 2”. Take it out, or use it.';

describe('an item that no card of the folder uses', () => {
  const files = { 'plant.card': plant, 'a.card': card(1, drains), 'b.card': card(2, vents) };

  it('is told with the cards that were looked at', () => {
    expect(told(files)).toEqual([spareIsIdle]);
  });

  test.each<[string, Readonly<Record<string, string>>]>([
    [
      'a rule of the equipment names it',
      { 'plant.card': `${plant}rule r "R" { before drain open require spare closed because "B." }` },
    ],
    ['a card names its kind', { 'a.card': card(1, `${drains}\nstep check every valve closed`) }],
    ['a card beside it does not parse', { 'a.card': card(1, `${drains}\nstep set spar`) }],
    ['no card of the folder uses its file', { 'a.card': card(1, 'step "Look."', 'std:kinds'), 'b.card': plant }],
  ])('is none where %s', (_, more) => {
    expect(told({ ...files, ...more }, Object.keys(files))).toEqual([]);
  });

  it('is none where its file lies outside of the folder, and other folders may use it', () => {
    expect(told(files, ['a.card', 'b.card'])).toEqual([]);
  });

  it('names the first cards of many', () => {
    const many = Array.from(
      { length: 6 },
      (_, index) => [`c${index}.card`, card(index, `${drains}\n${vents}`)] as const,
    );
    const [finding] = told({ 'plant.card': plant, ...Object.fromEntries(many) });
    expect(finding).toContain('Looked at: “Card 0”, “Card 1”, “Card 2” and 3 more cards.');
  });
});

describe('a state that a card assumes and no card leaves', () => {
  const assumes = 'assume drain open because "Card 1 left it so."\nstep check drain open\nstep set drain closed';
  const leaves = 'leaves drain open because "Card 2 goes on."\nstep set drain open';
  const named = `${plant}rule r "R" { before vent open require spare closed because "B." }`;
  const files = { 'plant.card': named, 'a.card': card(1, drains), 'b.card': card(2, `${assumes}\n${vents}`) };

  it('is told with the cards that were looked at', () => {
    expect(told(files)).toEqual([
      'b.card: No card leaves the drain valve open, as is assumed here. Looked at: “Card 1” and “Card 2”. Say “leaves drain open” in the card that does, or correct this.',
    ]);
  });

  test.each<[string, Readonly<Record<string, string>>]>([
    ['a card leaves it so', { 'a.card': card(1, leaves) }],
    ['it has no normal state, and a card sets it so', { 'plant.card': named.replaceAll(' normally closed', '') }],
    ['it moves by itself', { 'plant.card': named.replace('"the drain valve"', '"the drain valve" may open') }],
    ['another card does this one', { 'c.card': `use "b.card"\n${card(3, 'step set drain open\ndo card-2')}` }],
    ['no other card knows the item', { 'a.card': card(1, 'step "Look."', 'std:kinds') }],
  ])('is none where %s', (_, more) => {
    expect(told({ ...files, ...more })).toEqual([]);
  });

  it('is accepted with a reason', () => {
    const accepted = card(2, `${assumes.replace('step', 'accept state.not-left because "The owner does it."\nstep')}`);
    expect(told({ ...files, 'b.card': accepted })).toEqual([]);
  });
});

test('files that lead back to themselves are named as a “use” line writes them', () => {
  const texts = {
    'file:///work/a.card': 'use "parts/b.card"\n',
    'file:///work/parts/b.card': 'use "c.card"\n',
    'file:///work/parts/c.card': 'use "../a.card"\n',
  };
  const { findings } = openFiles(texts).check(Object.keys(texts));
  expect(findings.map(({ place, message }) => [place.file, message.replace(/\. Take .*/, '')])).toEqual([
    ['file:///work/a.card', '“parts/b.card” leads back to this file (parts/b.card, parts/c.card, a.card)'],
    ['file:///work/parts/b.card', '“c.card” leads back to this file (c.card, ../a.card, b.card)'],
    ['file:///work/parts/c.card', '“../a.card” leads back to this file (../a.card, b.card, c.card)'],
  ]);
});
