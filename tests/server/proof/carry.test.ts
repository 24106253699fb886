/** A proof that is carried over to the next version of its card says what a new one would. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, test } from 'vitest';
import { all } from '../../../grammar/navigate.ts';
import { parse } from '../../../grammar/parse.ts';
import { carrier } from '../../../server/proof/carry.ts';
import { prove } from '../../../server/proof/prove.ts';
import type { Card, Step } from '../../../shared/card.ts';
import { isExact } from '../../../shared/exact.ts';
import { finish } from '../../../shared/parts.ts';
import { defaultSettings } from '../../../shared/settings.ts';
import { samples } from '../../fuzz/texts.ts';
import { mainFile, openFiles, openText } from '../../support/check.ts';
import { saidOf } from '../../support/said-of.ts';

const files = Object.fromEntries(samples.map(({ file, text }) => [file, text]));

/** With a letter more in the first text of every third step, and a comment before all. */
function retold(text: string): string {
  const steps = all(parse(text).file, 'step').flatMap(({ parts }) => parts.find((part) => part.type === 'text') ?? []);
  const at = steps.filter((_, index) => index % 3 === 0).map(({ start }) => start + 1);
  return `/* Seen once more. */\n${at.reduceRight((now, offset) => `${now.slice(0, offset)}x${now.slice(offset)}`, text)}`;
}

test.each(samples.map(({ file }) => file))('each proof of %s is carried over to other words', (file) => {
  const before = openFiles(files).workspace.snapshot(file)?.bound.cards ?? [];
  const now = openFiles({ ...files, [file]: retold(files[file] ?? '') }).workspace.snapshot(file)?.bound.cards ?? [];
  for (const [index, card] of now.entries()) {
    const carried = carrier(before[index] as Card, card)?.(prove(before[index] as Card, defaultSettings));
    expect(carried && saidOf(carried, card)).toEqual(saidOf(prove(card, defaultSettings), card));
  }
});

const machine = `
kind valve { closed "Close {}", open "Open {}" }
item vent : valve "the vent" normally closed
gauge oil "oil pressure" in bar { limit most at most 5 bar }
card wash "Wash" {
  number "1" revision "A" crew fitter "Fitter"
  step "Look around."
  step set vent open
  step read oil in most
}`;

test.each([
  ['Look around.', 'Look about.', true],
  ['  step set', '\n  // Slowly.\n  step set', true],
  ['most 5 bar', 'most 6 bar', false],
  ['most 5 bar', 'most 500 kPa', false],
  ['"the vent"', '"the valve"', false],
  ['vent open\n', 'vent closed\n', false],
  ['step "Look around."', 'step "Look around." takes 1 min', false],
  ['step "Look around."', '', false],
  ['number "1"', 'number "2"', false],
])('“%s” written as “%s”: the proof is kept: %s', (from, to, kept) => {
  const [before, now] = [machine, machine.replace(from, to)].map((text) => cardOf(text));
  expect(carrier(before as Card, now as Card) !== undefined).toBe(kept);
});

function cardOf(text: string): Card | undefined {
  return openText(text).workspace.snapshot(mainFile)?.bound.cards[0];
}

test('what items may be at a step is known where a blank between two words is gone', () => {
  const [before, now] = [machine, machine.replace('."\n  step set', '."step set')].map(
    (text) => cardOf(text) as Card,
  ) as [Card, Card];
  const carried = carrier(before, now)?.(prove(before, defaultSettings));
  const step = now.body[2] as Step;
  expect(carried && finish(carried.statesAt(step.place, now.equipment.items))).toEqual(
    finish(prove(now, defaultSettings).statesAt(step.place, now.equipment.items)),
  );
});

test('the text that a card does several times is carried over to where it stands now', () => {
  const drill = `kind valve { closed, open } item vent : valve normally closed rule r "R" { before vent open require vent open }
procedure drill () { step "Look around." step if-it-is-wet: { set vent open set vent closed } step "Look about." }
card wash "Wash" { do drill step set vent open do drill step set vent closed }`;
  const [before, now] = [drill, retold(drill)].map((text) => cardOf(text) as Card) as [Card, Card];
  const carried = carrier(before, now)?.(prove(before, defaultSettings));
  expect(carried?.rules.flatMap(({ calls = [] }) => calls)).toHaveLength(1);
  expect(carried?.rules[0]?.rule).toBe(now.equipment.rules[0]);
  expect(carried && saidOf(carried, now)).toEqual(saidOf(prove(now, defaultSettings), now));
});

test('times are carried over as the exact numbers that they are', () => {
  const timed = `kind motor { off, running } item m : motor normally off { duty running at most 10 s, then rest 60 s }
rule warm "Warm" { before m off require m running for at least 1 min }
card wash "Wash" { step "Look around." { set m running wait 5 s set m off } }`;
  const [before, now] = [timed, retold(timed)].map((text) => cardOf(text) as Card) as [Card, Card];
  const carried = carrier(before, now)?.(prove(before, defaultSettings));
  const wanted = carried?.rules.flatMap(({ unmet }) => unmet.flatMap((one) => (one.type === 'time' ? one.wanted : [])));
  expect(wanted?.map((time) => isExact(time) && time.equals(60))).toEqual([true]);
  expect(carried && saidOf(carried, now)).toEqual(saidOf(prove(now, defaultSettings), now));
});

test('a letter in a text has nothing explored anew', () => {
  const { workspace, check } = openText(machine);
  check([mainFile]);
  const first = workspace.snapshot(mainFile);
  workspace.setText(mainFile, machine.replace('around', 'about'));
  const next = workspace.snapshot(mainFile);
  const facts = [first, next].map((one) => one?.proof(one.bound.cards[0] as Card, defaultSettings));
  const read = next?.bound.cards[0]?.body[2] as Step;
  expect(facts[1]?.branches[0]?.statement).toBe(read.actions[0]);
  expect(facts[1]?.time.least).toBe(facts[0]?.time.least);
});

test('however often a card is changed, no version before the last two is held on to', async () => {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  const { workspace } = openText(machine);
  const versions = [5, 6, 7, 8, 9, 10].map((most) => {
    workspace.setText(mainFile, machine.replace('most 5 bar', `most ${most} bar`));
    const [card] = workspace.snapshot(mainFile)?.bound.cards ?? [];
    workspace.snapshot(mainFile)?.proof(card as Card, defaultSettings);
    return new WeakRef(card as Card);
  });
  // What a weak reference was just made of, or looked up in, is kept for as long as the present task runs; one collection may leave something.
  const held = () => {
    collect();
    return versions.slice(0, -2).filter((version) => version.deref()).length;
  };
  await expect.poll(held).toBe(0);
});
