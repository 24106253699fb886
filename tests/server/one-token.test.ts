/** Where one token reads otherwise, a snapshot goes on with what was worked out, and says what a new one would. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { all } from '../../grammar/navigate.ts';
import { parse } from '../../grammar/parse.ts';
import type { Text } from '../../grammar/syntax.ts';
import type { Api } from '../../server/api.ts';
import { allFindings } from '../../server/findings/all.ts';
import { proseWord } from '../../server/findings/prose-word.ts';
import { FoundSoFar } from '../../server/found-so-far.ts';
import type { Proof } from '../../server/proof/facts.ts';
import type { Card, Do, Step } from '../../shared/card.ts';
import type { Finding } from '../../shared/finding.ts';
import { defaultSettings } from '../../shared/settings.ts';
import { structureOf } from '../../shared/structure.ts';
import { samples } from '../fuzz/texts.ts';
import { printRecipe } from '../oracle/print-card.ts';
import { callsRecipe, cardRecipe, lanesRecipe } from '../oracle/recipe.ts';
import { mainFile, openFiles, openText } from '../support/check.ts';
import { readMarks } from '../support/marks.ts';
import { saidOf } from '../support/said-of.ts';

const files = Object.fromEntries(samples.map(({ file, text }) => [file, text]));

/** In how many rounds a sample is typed into, and compared with one opened anew after each. */
const rounds = 2;

/** What is typed, and a stretch of the text by which it finds its place. */
interface Typing {
  readonly at: string;
  readonly becomes: string;
}

/** A letter in each text and each comment. */
function letters(text: string): Typing[] {
  const { file, comments } = parse(text);
  return [...all(file, 'text'), ...comments].flatMap(({ start, end }) => {
    const words = text.slice(start + 3, end - 3);
    return words.length > 0 ? [{ at: words, becomes: `${words.slice(0, 1)}x${words.slice(1)}` }] : [];
  });
}

/** In each number one more in the last digit, a digit more, or one less: by turns. */
function digits(text: string): Typing[] {
  return all(parse(text).file, 'number').map(({ start, end }, index) => {
    const before = text.slice(Math.max(start - 12, 0), end - 1);
    const last = text.charAt(end - 1);
    const written = [`${(Number(last) + 1) % 10}`, `${last}5`, end - start > 1 ? '' : `${last}0`][index % 3];
    return { at: text.slice(Math.max(start - 12, 0), end), becomes: `${before}${written}` };
  });
}

const typings = { letters, digits };

/** Types into a text that is open; where the stretch stands there once. */
function type({ workspace, check }: Api, file: string, { at, becomes }: Typing): void {
  const [before, after, ...others] = workspace.textOf(file).split(at);
  if (before === undefined || after === undefined || others.length > 0) return;
  workspace.setText(file, `${before}${becomes}${after}`);
  check([file]);
}

describe.each(Object.entries(typings))('with other %s', (_, typing) => {
  test.each(samples.map(({ file }) => file))('%s says what it would if it were opened anew', (file) => {
    const kept = openFiles(files);
    kept.check([file]);
    for (let round = 0; round < rounds; round++) {
      const some = typing(kept.workspace.textOf(file)).filter((_, index) => index % rounds === round);
      for (const one of some) type(kept, file, one);
      expect(told(kept, file)).toEqual(told(openFiles({ ...files, [file]: kept.workspace.textOf(file) }), file));
    }
  });

  test.each(examples())('%s is found where it would be in a text opened anew', (_, example) => {
    const kept = openText(example);
    kept.check([mainFile]);
    for (const one of typing(example)) type(kept, mainFile, one);
    expect(told(kept, mainFile)).toEqual(told(openText(kept.workspace.textOf(mainFile)), mainFile));
  });
});

const seed = Number(process.env.SEED ?? 20261129);
const randomCards = [
  ...fc.sample(cardRecipe, { numRuns: 24, seed }),
  ...fc.sample(lanesRecipe, { numRuns: 8, seed }),
  ...fc.sample(callsRecipe, { numRuns: 8, seed }),
].map((recipe, index) => [`random card ${index} of seed ${seed}`, printRecipe(recipe)] as const);

/** Each number is typed twice: a card of which more is explored would take many minutes, and show nothing more. */
const mostExplored = 20_000;

function isLarge(card: string): boolean {
  const snapshot = openText(card).workspace.snapshot(mainFile);
  return snapshot?.bound.cards.some((each) => snapshot.proof(each, defaultSettings).explored > mostExplored) ?? false;
}

test.each(randomCards)('%s is proved as one opened anew, whichever numbers become others', (_, card) => {
  if (isLarge(card)) return;
  const kept = openText(card);
  kept.check([mainFile]);
  for (const one of digits(card)) {
    type(kept, mainFile, one);
    expect(told(kept, mainFile)).toEqual(told(openText(kept.workspace.textOf(mainFile)), mainFile));
  }
});

function examples() {
  return allFindings.flatMap(({ code, examples }) =>
    examples.flatMap(({ given = '', bad }, index) => [
      [`${code} ${index}`, `${given}\n${readMarks(bad).text}`] as const,
    ]),
  );
}

function told({ check, workspace }: Api, file: string) {
  const { findings, accepted, cards } = check([file]);
  const snapshot = workspace.snapshot(file);
  const bound = snapshot?.bound;
  const proofs = bound?.cards.map((card) => toldBy(snapshot?.proof(card, defaultSettings) as Proof, card));
  return { findings, accepted, cards, proofs, bound, uses: bound?.references.uses, parsed: snapshot?.parsed };
}

/** Without how much was explored: what is known by then is not looked for again. */
function toldBy(proof: Proof, card: Card) {
  const { explored: _, ...said } = saidOf(proof, card);
  return said;
}

const machine = `
kind valve { closed, open }
item vent : valve "the vent" normally closed
gauge oil "oil pressure" in bar
gauge fuel "fuel pressure" in bar
gauge up "upstream" in psi
gauge down "downstream" in psi
gauge drop "pressure drop" in psi = up - down
rule clean "Clean" { while vent open require drop at most 10 psi }
rule dry "No fuel" { while fuel above 2 bar require vent closed }
card wash "Wash" {
  number "1" revision "A" crew fitter "Fitter"
  step "Look around." // twice
  step { set vent open }
  step { read oil at most 5 bar read fuel at most 7 bar }
  step { read up at most 50 psi read down at least 40 psi }
  step { set vent closed }
}`;

/** What of a proof is the same object after something was typed. */
function kept(from: string, to: string) {
  const { workspace, check } = openText(machine);
  check([mainFile]);
  const before = workspace.snapshot(mainFile);
  const proofBefore = before?.proof(before.bound.cards[0] as Card, defaultSettings);
  workspace.setText(mainFile, machine.replace(from, to));
  const now = workspace.snapshot(mainFile);
  const proof = now?.proof(now.bound.cards[0] as Card, defaultSettings);
  return {
    isSame: proof === proofBefore,
    hasSameFacts: proof?.facts === proofBefore?.facts,
    hasSameStructure: structureOf(now?.bound.cards[0] as Card) === structureOf(before?.bound.cards[0] as Card),
    hasSameSteps: now?.bound.cards[0]?.body[0] === before?.bound.cards[0]?.body[0],
    explored: (proof?.explored ?? 0) - (proofBefore?.explored ?? 0),
  };
}

test.each([
  ['around', 'about'],
  ['twice', 'once more'],
  ['oil at most 5', 'oil at most 6.5'],
  ['fuel at most 7', 'fuel at most 3'],
  ['fuel above 2', 'fuel above 6'],
])('“%s” written as “%s” leaves the proof as it is', (from, to) => {
  expect(kept(from, to)).toMatchObject({ isSame: true, hasSameStructure: true, hasSameSteps: true });
});

test.each([
  ['fuel at most 7', 'fuel at most 2'],
  ['fuel above 2', 'fuel above 7'],
  ['up at most 50', 'up at most 51'],
])('“%s” written as “%s” has asked again what hangs on that gauge alone', (from, to) => {
  const { explored, ...same } = kept(from, to);
  expect(same).toEqual({ isSame: false, hasSameFacts: true, hasSameStructure: true, hasSameSteps: true });
  expect(explored).toBeLessThan(20);
});

test.each([
  ['around', 'around\\"'],
  ['around', '{vent}'],
  ['"1" revision', '"2" revision'],
  ['twice', 'twice\n'],
  ['"the vent"', '"the valve"'],
  ['5 bar', '500 kPa'],
  ['above 2 bar', 'above 2'],
])('with “%s” written as “%s” all is made anew', (from, to) => {
  expect(kept(from, to)).toMatchObject({ isSame: false, hasSameStructure: false, hasSameSteps: false });
});

test('other words leave a proof as it is that was carried over before', () => {
  const { workspace } = openText(machine);
  const proofOf = (text: string) => {
    workspace.setText(mainFile, text);
    const snapshot = workspace.snapshot(mainFile);
    return snapshot?.proof(snapshot.bound.cards[0] as Card, defaultSettings);
  };
  const longer = machine.replace('// twice', '// twice\n\n');
  proofOf(machine);
  const carriedOver = proofOf(longer);
  expect(proofOf(longer.replace('around', 'about'))).toBe(carriedOver);
});

test('a condition is asked again where another number leads other paths to it, by ways that were open before too', () => {
  const branching = `
kind valve { closed, open }
item vent, drain : valve normally closed
gauge oil "oil pressure" in bar { moved by drain }
card wash "Wash" {
  number "1" revision "A" crew fitter "Fitter"
  if oil above 8 bar { step set vent open }
  else { if oil below 1 bar { step "Wait." } else { if oil above 4 bar { step set vent open } } }
  if oil above 5 bar { if vent open { step "Look." } else { step "Listen." } }
  step ensure vent closed
}`;
  const { workspace, check } = openText(branching);
  const codes = () => check([mainFile]).findings.map(({ code }) => code);
  expect(codes()).toEqual(['flow.always-passes', 'flow.unreachable']);
  workspace.setText(mainFile, branching.replace('above 5', 'above 3'));
  expect(codes()).toEqual([]);
});

describe('what is found in one place is one thing, where a longer number has moved that along', () => {
  const head = `
kind valve { closed, open }
item x, y, z : valve normally closed
gauge heat "heat" in psi { moved by z }`;
  const asked = `
  if heat above 15 psi { step "Look." }
  if heat above 3 psi { step "Look." }
  if heat above 9.5 psi { step "Look." }`;

  test.each([
    [
      'in a procedure that sets one item after the other',
      `${head}
card a "A" {
  step set x open${asked}
  if heat above 9 psi { step set x closed step set x open }
  do p(x)
  do p(y)
  step { set x closed set y closed }
}
procedure p(v : valve) "P" { step set v open }`,
    ],
    [
      'on two machines',
      `variant unit 1 to 2${head}
card a "A" {
  applies unit 1, 2${asked}
  if heat above 9 psi { step only unit 1 { set y open } step only unit 1 { set y closed } }
  step set y open
}`,
    ],
  ])('%s', (_, text) => {
    const kept = openText(text);
    kept.check([mainFile]);
    type(kept, mainFile, { at: 'above 9 psi', becomes: 'above 10 psi' });
    expect(told(kept, mainFile)).toEqual(told(openText(kept.workspace.textOf(mainFile)), mainFile));
  });
});

test('where another number breaks a rule, the facts are others', () => {
  const low = `
kind valve { closed, open }
item vent : valve normally closed
gauge oil "oil pressure" in bar
rule low "Low" { while vent open require oil at most 5 bar }
card wash "Wash" {
  number "1" revision "A" crew fitter "Fitter"
  step read oil at most 4 bar
  step set vent open
  step set vent closed
}`;
  const { workspace } = openText(low);
  const brokenAt = (most: number) => {
    workspace.setText(mainFile, low.replace('most 4', `most ${most}`));
    const snapshot = workspace.snapshot(mainFile);
    return snapshot?.proof(snapshot.bound.cards[0] as Card, defaultSettings).rules.length;
  };
  expect([4, 3, 6, 7, 4].map(brokenAt)).toEqual([0, 0, 1, 1, 0]);
});

test('words at the same place of another file stay as they are', () => {
  const used = `procedure drill() "Drill" {\n          step "Look at it."\n}`;
  const head = 'use "drill.card" card wash "W" { ';
  const text = `${head}${' '.repeat(used.indexOf('"Look') - head.length - 5)}step "Wipe it dry." do drill() }`;
  expect(text.indexOf('"Wipe')).toBe(used.indexOf('"Look'));
  const { workspace, check } = openFiles({ 'drill.card': used, [mainFile]: text });
  check([mainFile]);
  workspace.setText(mainFile, text.replace('Wipe', 'Wash'));
  const [wipe, drill] = workspace.snapshot(mainFile)?.bound.cards[0]?.body ?? [];
  const steps = [wipe, (drill as Do).body[0]] as Step[];
  expect(steps.map(({ texts }) => texts[0]?.text)).toEqual(['Wash it dry.', 'Look at it.']);
});

test('of the sentences only those of the text with other words are read again, as soon as somebody asks', () => {
  const [first, second] = all(parse(machine).file, 'text').slice(-2) as [Text, Text];
  const found = ({ start, end }: Text) => ({ code: proseWord.code, place: { file: mainFile, start, end } }) as Finding;
  const ask = (soFar: FoundSoFar) => {
    const looked: unknown[] = [];
    const findings = soFar.of(proseWord, 'file', defaultSettings, (texts) => {
      looked.push(texts && [...texts]);
      return [...(texts ?? [first, second])].map(found);
    });
    return { looked, findings };
  };
  const soFar = new FoundSoFar();
  expect(ask(soFar).looked).toEqual([undefined]);
  expect(ask(soFar.thatStays('bounds', []))).toEqual({
    looked: [],
    findings: [found(first), found(second)],
  });
  const typedTwice = soFar.thatStays('words', [second]).thatStays('words', [second]);
  expect(ask(typedTwice)).toEqual({ looked: [[second]], findings: [found(first), found(second)] });
  expect(ask(typedTwice).looked).toEqual([]);
});

test.each(
  allFindings.filter(({ reads }) => reads && !reads.includes('proof')).map((sort) => [sort.code, sort] as const),
)('%s does not read the proof, as it says', (_, { inCard, examples }) => {
  const unread = new Proxy({} as Proof, {
    get: () => {
      throw new Error('the proof is read');
    },
  });
  for (const { given = '', bad } of examples) {
    const { workspace } = openText(`${given}\n${readMarks(bad).text}`);
    const { textOf } = workspace;
    for (const card of workspace.snapshot(mainFile)?.bound.cards ?? [])
      expect(() => [...(inCard?.({ card, proof: unread, settings: defaultSettings, textOf }) ?? [])]).not.toThrow();
  }
});

test('nothing moves while somebody works with a snapshot', async () => {
  const { workspace, check } = openText(machine);
  check([mainFile]);
  const before = workspace.snapshot(mainFile);
  const places = before?.bound.cards[0]?.body.map(({ place }) => ({ ...place }));
  await workspace.held(async () => {
    workspace.setText(mainFile, machine.replace('around', 'all around'));
    expect(workspace.snapshot(mainFile)?.bound.cards[0]?.body[0]).not.toBe(before?.bound.cards[0]?.body[0]);
  });
  expect(before?.bound.cards[0]?.body.map(({ place }) => place)).toEqual(places);
});

test('nothing moves while a card is being proved', () => {
  const { workspace } = openText(machine);
  const before = workspace.snapshot(mainFile);
  const [card] = before?.bound.cards ?? [];
  const work = before?.proofInParts(card as Card, defaultSettings);
  work?.next();
  workspace.setText(mainFile, machine.replace('around', 'all around'));
  expect(workspace.snapshot(mainFile)?.bound.cards[0]?.body[0]).not.toBe(card?.body[0]);
});

test('what an editor was told stays as it is', () => {
  const leavesOpen = machine.replace('step { set vent closed }', '');
  const { workspace, check } = openText(leavesOpen);
  const { findings } = check([mainFile]);
  const told = JSON.stringify(findings);
  workspace.setText(mainFile, leavesOpen.replace('around', 'all around'));
  expect(check([mainFile]).findings.map(({ place }) => place.start)).not.toEqual(
    findings.map(({ place }) => place.start),
  );
  expect(JSON.stringify(findings)).toBe(told);
});
