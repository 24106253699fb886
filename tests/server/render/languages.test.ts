/** A card in another language than English says no word of English, whatever it says and of whatever. */
import type { Nodes } from 'hast';
import { fromHtml } from 'hast-util-from-html';
import { describe, expect, test } from 'vitest';
import { all } from '../../../grammar/navigate.ts';
import { parse } from '../../../grammar/parse.ts';
import { type Comparable, sinceOf } from '../../../server/compare/compare.ts';
import { contextOf } from '../../../server/render/context.ts';
import type { RenderInput } from '../../../server/render/input.ts';
import { compileJob } from '../../../server/render/job/compile.ts';
import { english } from '../../../server/render/language/english.ts';
import { fixedWords } from '../../../server/render/language/fixed-words.ts';
import { french } from '../../../server/render/language/french.ts';
import { german } from '../../../server/render/language/german.ts';
import { seenKinds, setKinds } from '../../../server/render/language/kinds.ts';
import { typesetText } from '../../../server/render/language/typeset.ts';
import type { FixedWords } from '../../../server/render/language/words.ts';
import { renderCard } from '../../../server/render/render.ts';
import { renderInput } from '../../../server/render-input.ts';
import kinds from '../../../server/rulebooks/kinds.card';
import { defaultSettings } from '../../../shared/settings.ts';
import { mainFile, openText } from '../../support/check.ts';
import { found, textIn } from '../../support/html.ts';

/** All of a writer's own words have these letters, which no language has. */
const own = /zq/;

const equipment = `variant zqserie 1 to 9
variant zqbauart zqalt, zqneu
item zqventil : valve "zqventil" at "zqort" normally closed
item zqablass : valve "zqablass" at "zqort" normally closed
item zqpumpe : pump "zqpumpe" normally stopped needs zqstrom while running
item zqschalter : switch "zqschalter" normally off
item zqleuchte : lamp "zqleuchte"
item zqanlasser : starter "zqanlasser" normally off {
  duty cranking at most 30 s, then rest 60 s
  duty cranking at most 3 times, then rest 30 min
  duty cranking at most 4 times in 1 h
}
kind zqart { zqein "Zqmache {}", zqaus }
item zqding : zqart "zqding" normally zqaus
gauge zqdruck "zqdruck" in bar at "zqort" { reads 0 to 10 by 0.2 limit zqleer 2 bar to 3 bar }
gauge zqdrehzahl "zqdrehzahl" in %
gauge zqgrenze "zqgrenze" in bar {
  limit zqplan by zqdrehzahl { below 10 %: at most 2 bar, at least 10 %: at most 3.5 bar }
}
gauge zqdifferenz "zqdifferenz" in bar = zqdruck - zqgrenze
supply zqstrom "zqstrom" { source zqnetz link zqnetz -> zqpumpe when zqschalter on }
hazard zqhitze "zqhitze" while zqpumpe running { danger "Zqheiss." protect zqventil closed }
rule zqregel "Zqregel" { before zqpumpe running require zqventil open for at least 5 min because "Zqgrund." }
`;

const statements = `  assume zqablass open because "Zqgrund."
  leaves zqding zqein because "Zqgrund."
  note "Zqnotiz." caution "Zqvorsicht." warning "Zqwarnung." danger zqhitze
  stage zqeins "Zqeins" {
    step zqnochmal: by zqmann by zqfrau takes 2 min to 5 min see "Zqbuch" "Zqtext." {
      set zqventil closed, zqablass closed
      ensure zqpumpe stopped
      check "Zqfrage?" else go to zqzwei
      check zqventil closed
      read zqdruck
      sign zqmann "Zqfertig"
    }
    step by zqmann { read zqdruck in zqleer else stop "Zqhalt." read zqdruck at least 2 bar else finish }
    step by zqmann { read zqdruck at most 2 bar read zqdruck above 2 bar read zqdruck below 2 bar read zqdruck exactly 2 bar }
    step by zqmann { read zqdruck exactly 2 bar +/- 0.1 bar read zqgrenze in zqplan read zqdifferenz }
    step by zqmann inspected by zqfrau { bring zqdruck 2 bar to 3 bar within 5 min else go to zqnochmal bring zqgrenze in zqplan within 5 min }
    step by zqmann run zqanlasser cranking for 20 s to 25 s {
      watch zqdrehzahl reaches at least 12 % within 10 s else stop "Zqhalt."
      watch zqdruck stays below 8 bar
      watch zqdruck reaches at least 12 bar within 3 s
    }
    step by zqmann run zqpumpe running until zqdruck at least 2 bar within 1 min else finish
    step by zqmann { wait 60 s wait at least 5 min wait until zqleuchte off within 10 min wait until zqleuchte on }
    step by zqmann { record "Zqnummer" record "Zqwert" in degC record "Zqmass" in mm 0.2 mm to 0.4 mm }
    step by zqmann record "Zqspiel" in mm 0.2 mm to 0.4 mm, "Zqmoment" in N.m at "zqvorn", "zqhinten"
    step by zqmann record part "Zqring"
    step by zqmann { tighten "zqschrauben" to 25 N.m +/- 2 N.m in "zqstern" tighten "zqschrauben" to 20 N.m to 25 N.m tighten zqventil to at least 20 N.m }
    step by zqmann only zqbauart zqalt takes at least 1 h set zqding zqein
    step by zqmann set zqding zqaus
    step by zqmann { set zqpumpe running set zqpumpe stopped }
    sign zqfrau independent "Zqgut"
    accept safety.left-changed because "Zqgrund."
  }
  stage zqzwei "Zqzwei" only zqserie 3 to 5 {
    if zqdruck above 2 bar { step by zqmann "Zqtext." } else if "Zqfrage?" { step by zqmann "Zqtext." } else { go to zqdrei }
    if zqventil open for at least 5 min and (zqablass closed or not zqpumpe running) { step by zqmann "Zqtext." }
    if not zqventil open for at least 5 min { step by zqmann "Zqtext." }
    if any valve open { step by zqmann "Zqtext." }
    if every valve closed { step by zqmann "Zqtext." }
    if not any valve open { step by zqmann "Zqtext." }
    if not every valve open { step by zqmann "Zqtext." }
    if any zqart zqein or every zqart zqaus { step by zqmann "Zqtext." }
    if not any zqart zqein or not every zqart zqaus { step by zqmann "Zqtext." }
    if zqventil open and zqablass open { step by zqmann "Zqtext." }
    if zqstrom reaches zqpumpe or not zqdruck in zqleer { step by zqmann "Zqtext." }
    if not zqstrom reaches zqpumpe { step by zqmann "Zqtext." }
    repeat 2 times { step by zqmann "Zqtext." }
    repeat at most 5 times until zqdruck in zqleer { step by zqmann takes 1 min "Zqtext." } else stop "Zqhalt."
    repeat at most 1 times until "Zqfrage?" { step by zqmann "Zqtext." }
    for each v in zqventil, zqablass { step by zqmann set v closed }
    for each zqgang in 10, 18 N.m { step by zqmann tighten "zqschrauben" to zqgang }
    choose { "zqeines" { step by zqmann "Zqtext." } or "zqanderes" { step by zqmann "Zqtext." } }
    together { by zqmann { step "Zqtext." } by zqfrau { step "Zqtext." } }
    keep zqdruck below 3 bar else go to zqdrei
    step by zqmann "Zqtext."
    do zqandere
  }
  stage zqdrei "Zqdrei" { step by zqmann "Zqtext." }
  stage "Zqhalten" when stopped { step by zqmann set zqpumpe stopped }`;

function everyConstruct(tag: string): string {
  const head = (name: string) => `card ${name} "Zqkarte" {
  number "ZQ" revision "ZQ" on 2026-05-04 prepared by "Zqfrau" on 2026-05-04 checked by "Zqmann" language "${tag}" crew zqmann "Zqmann" qualified "Zqschein", zqfrau "Zqfrau"`;
  return `${equipment}
${head('zqkarte')}
  purpose "Zqzweck." applies zqserie 3 to 7
  tools "Zqschlüssel" calibrated parts "Zqring" number "ZQ-1" quantity 4 batch expires materials "Zqfett" references "Zqbuch"
${statements}
}
${head('zqandere')} step by zqmann "Zqtext." }`;
}

/** Items of every shipped kind, each set to and looked at in every state. */
function everyKind(tag: string): string {
  const kinds = [...Object.entries(setKinds), ...Object.entries(seenKinds)];
  const items = kinds.map(([kind], index) => `item zq${index} : ${kind} "zqding" `);
  const steps = kinds.flatMap(([kind, states], index) => [
    ...(kind in setKinds ? states.map((state) => `step set zq${index} ${state}`) : []),
    ...states.map((state) => `step check zq${index} ${state}`),
    `step check any ${kind} ${states[0]}`,
    `step check every ${kind} ${states[0]}`,
    `step check not any ${kind} ${states[0]}`,
  ]);
  return `${items.join('\n')}
card zqkarte "Zqkarte" { number "ZQ" revision "ZQ" language "${tag}" crew zqmann "Zqmann"
${steps.join('\n')} }`;
}

function inputOf(text: string): RenderInput {
  const { workspace } = openText(text);
  const snapshot = workspace.snapshot(mainFile);
  const [card] = snapshot?.bound.cards ?? [];
  if (!snapshot || !card) throw new Error('There is no card.');
  expect(
    snapshot.parsed.problems.map(({ message, span }) => `${message} ${text.slice(span.start, span.end + 40)}`),
  ).toEqual([]);
  expect(snapshot.bound.problems.filter(({ type }) => type !== 'unused')).toEqual([]);
  const settings = { ...defaultSettings, record: '14 CFR 43.9' as const };
  const input = renderInput(
    { workspace, snapshot, card, findings: [], accepted: [], settings },
    { workCopy: 'void 0;' },
  );
  return {
    ...input,
    accepted: [{ code: 'zq', finding: 'Zqfund.', because: 'Zqgrund.', where: card.place, acceptance: card.place }],
  };
}

/** Of whatever there is to change, something else. */
const replacements: readonly (readonly [string, string])[] = [
  ['zqleer 2 bar to 3 bar', 'zqleer 2.2 bar to 3 bar source "Zqbuch"'],
  ['reads 0 to 10 by 0.2 limit zqleer 2 bar to 3 bar', 'reads 0 to 10 by 0.2 limit zqleer 2.5 bar to 4 bar'],
  ['at most 2 bar, at least 10 %', 'at most 1 bar, at least 10 %'],
  ['exactly 2 bar +/- 0.1 bar', 'exactly 2 bar +/- 0.3 bar'],
  ['in zqleer else stop "Zqhalt."', 'in zqleer else finish'],
  ['else stop "Zqhalt." read', 'else go to zqdrei read'],
  ['danger "Zqheiss." protect', 'warning "Zqheiss." source "Zqbuch" protect'],
  ['require zqventil open for at least 5 min because', 'require zqventil closed source "Zqbuch" because'],
  ['duty cranking at most 30 s', 'duty cranking at most 20 s'],
  ['normally closed', 'normally open'],
  ['for 20 s to 25 s', 'for 10 s to 15 s'],
  ['wait 60 s', 'wait 90 s'],
  ['within 10 min', 'within 12 min'],
  ['caution "Zqvorsicht."', 'danger "Zqvorsicht."'],
  ['note "Zqnotiz." caution "Zqvorsicht."', 'caution "Zqvorsicht." note "Zqnotiz." source "Zqbuch"'],
  ['takes 2 min to 5 min see "Zqbuch"', 'takes 1 min to 2 min see "Zqblatt" source "Zqbuch"'],
  ['only zqbauart zqalt takes', 'only zqbauart zqneu takes'],
  ['repeat 2 times', 'repeat 3 times'],
  ['if zqdruck above 2 bar', 'if zqdruck above 4 bar'],
  ['stage "Zqhalten" when stopped', 'stage "Zqhalten zq" when stopped'],
  ['step by zqmann inspected', 'step by zqfrau inspected'],
  ['"zqeines"', '"zqeines zq"'],
];

function changesOf(old: readonly Comparable[], now: readonly Comparable[]): readonly string[] {
  const [first] = now;
  return (first && sinceOf(first, old, now)?.changes.map(({ text }) => text)) ?? [];
}

/** What stands in braces is filled in. */
const wordsIn = (text: string) =>
  text
    .replaceAll(/\{\w+\}/g, '')
    .toLowerCase()
    .match(/\p{L}[\p{L}\p{M}]*/gu) ?? [];

/** What a page shows and says. */
function textsOf(node: Nodes): string[] {
  if (node.type === 'text') return [node.value];
  if (node.type === 'element' && ['script', 'style'].includes(node.tagName)) return [];
  const said =
    node.type === 'element' ? ['alt', 'title', 'ariaLabel'].map((name) => String(node.properties[name] ?? '')) : [];
  return 'children' in node ? [...said, ...node.children.flatMap(textsOf)] : said;
}

/** The texts of the work copy's program; what only the program reads is under these names. */
const forTheProgram = ['type', 'sort', 'kind', 'language', 'form', 'op', 'sign', 'card', 'key', 'id', 'digest'];

function textsIn(data: unknown): string[] {
  if (typeof data === 'string') return [data];
  if (Array.isArray(data)) return data.flatMap(textsIn);
  if (typeof data !== 'object' || data === null) return [];
  return Object.entries(data).flatMap(([name, value]) => (forTheProgram.includes(name) ? [] : textsIn(value)));
}

// ---------------------------------------------------------------- the words that a language has

const labels = ['zq', 'der zqe Zq', 'le zq', 'la zq', 'les zq', 'l’zq', 'ozq', 'le zq et le zq'];
/** The articles of other languages that a table was tried on. */
const tried = new Set(labels.flatMap(wordsIn));
const nouns = [undefined, 'm', 'f', 'n'].map((gender) => ({ one: 'zq', many: 'zq', gender }));
const samples: unknown[][] = [
  ...labels.map((label) => [label, label, label, label]),
  ...[1, 2, 3, 4, 5, 9, 18].map((count) => [count, count, count, count]),
  ...[1, 2, 5].flatMap((count) => [
    [count, 'zq', 'zq'],
    ['zq', count],
    ['zq', 'zq', count],
  ]),
  ['zq', undefined, undefined, undefined],
  ['zq', 'zq', undefined, undefined],
  ['zq', 'zq', '-', 'zq'],
  ['zq', 'zq', true, 'zq'],
  ['zq', { label: 'zq', state: 'zq' }, 'zq', 'zq'],
  ['zq', { label: 'zqs', state: 'zq' }, 'zq', 'zq'],
  [['zq', 'zq']],
  ...nouns.map((noun) => [noun, () => 'zq']),
];

function vocabulary(table: unknown): string[] {
  if (typeof table === 'string') return /\[object|undefined|true/.test(table) ? [] : wordsIn(table);
  if (typeof table === 'function')
    return samples.flatMap((sample) => {
      try {
        return vocabulary(table(...sample));
      } catch {
        return [];
      }
    });
  return typeof table === 'object' && table !== null ? Object.values(table).flatMap(vocabulary) : [];
}

const plain = (words: readonly string[]) => new Set(words.filter((word) => !own.test(word) && word.length > 1));
const englishWords = plain([
  ...vocabulary({ ...english, tag: '' }),
  ...Object.keys({ ...setKinds, ...seenKinds }),
  ...Object.values({ ...setKinds, ...seenKinds }).flat(),
]);

/** Written the same, and said so. */
const shared: Readonly<Record<string, string>> = {
  de: 'cardwright an auto browser cfr hand in minus motor name normal person plus so starts was',
  fr: 'cardwright sources auto but cfr danger date lever licence long machine machines on page place plus qualification service signature source type',
};

const units = new Set('bar psi kpa mm n m nm ft lbf in c f s min h db dba ing'.split(' '));

describe.each<[string, FixedWords]>([
  ['de', german],
  ['fr', french],
])('a card in %s', (tag, words) => {
  const known = plain(vocabulary({ ...words, tag: '' }));

  test.each([
    ['every construct', everyConstruct],
    ['every shipped kind', everyKind],
  ])('%s has no word that is not of the language', (_, textOf) => {
    const input = inputOf(textOf(tag));
    const page = renderCard(input);
    const job = compileJob(contextOf(input)).job;
    const said = [...textsOf(fromHtml(page)), ...textsIn(job)].flatMap(wordsIn);
    const foreign = said.filter((word) => !own.test(word) && word.length > 1 && !known.has(word) && !units.has(word));
    expect([...new Set(foreign)]).toEqual([]);
    expect(said.length).toBeGreaterThan(500);
  });

  test('says what is otherwise in it in no word that is not of the language', () => {
    const whole = everyConstruct(tag);
    expect(replacements.filter(([from]) => !whole.includes(from))).toEqual([]);
    const revised = replacements.reduce((text, [from, to]) => text.replaceAll(from, to), whole);
    const bare = `card zqkarte "Zqneu" { number "ZQ" language "${tag}" crew zqmann "Zqmann" step "Zqganz." }`;
    const texts = [whole, revised, bare].map((text) => openText(text).comparable(mainFile));
    const lists = texts.flatMap((old) => texts.map((now) => changesOf(old, now)));
    expect(lists.map(({ length }) => length > replacements.length)).toEqual(
      [0, 1, 2].flatMap((old) => [0, 1, 2].map((now) => old !== now)),
    );
    const foreign = lists
      .flat()
      .flatMap(wordsIn)
      .filter((word) => !own.test(word) && word.length > 1 && !known.has(word) && !units.has(word));
    expect([...new Set(foreign)]).toEqual([]);
  });

  test('has no word of English in its table', () => {
    const cognates = new Set(shared[tag]?.split(' '));
    expect([...known].filter((word) => englishWords.has(word) && !cognates.has(word) && !tried.has(word))).toEqual([]);
  });
});

test('the table of kinds holds every shipped kind with its states, so that a language cannot leave one out', () => {
  const shipped = all(parse(kinds).file, 'kind').map(({ name, seen, states }) => [
    name?.text,
    seen,
    states.map((state) => state.name.text),
  ]);
  const tabled = [
    ...Object.entries(setKinds).map(([name, states]) => [name, false, states]),
    ...Object.entries(seenKinds).map(([name, states]) => [name, true, states]),
  ];
  expect(tabled).toEqual(shipped);
});

describe('a verb stands where it is said', () => {
  const equipment = `item pumpe : pump "die Pumpe" normally stopped
    item ablass : drain "der Ablass" normally closed
    gauge pegel "der Pegel" in m { reads 0 to 5 by 0.1 }`;
  const linesIn = (language: string, body: string) => {
    const card = `card karte "Karte" { number "K-1" revision "A" language "${language}" crew hand "Hand" ${body} }`;
    const [page] = openText(`${equipment} ${card}`).render(mainFile);
    return found(page?.html ?? '', 'sentence', 'asked', 'repeat-words').map((line) => textIn(line).trim());
  };

  test.each([
    ['step wait until pegel at least 2 m within 10 s', 'Höchstens 10 s warten, bis Pegel mindestens 2 m beträgt.'],
    ['step wait until pegel below 2 m', 'Warten, bis Pegel unter 2 m liegt.'],
    ['step wait until ablass closed', 'Warten, bis gilt: Ablass geschlossen.'],
    [
      'step run pumpe running until pegel at most 1 m within 3 min',
      'Pumpe einschalten, höchstens 3 min lang, bis Pegel höchstens 1 m beträgt.',
    ],
    ['if pegel above 2 m { step "Los." }', 'Wenn Pegel über 2 m liegt:'],
    [
      'repeat at most 3 times until "Ist es dicht?" { step "Los." } else stop',
      'Schritt 1 höchstens dreimal ausführen, bis die Antwort auf „Ist es dicht?“ ja lautet.',
    ],
  ])('in German: %s', (body, said) => {
    expect(linesIn('de', body)).toContain(said);
  });

  test('in French', () => {
    expect(linesIn('fr', 'step wait until pegel at least 2 m within 10 s')).toEqual([
      'Attendre 10 s au plus, jusqu’au moment où der Pegel est d’au moins 2 m.',
    ]);
  });
});

test.each([
  [
    'en',
    'Read it within 10 s: 24 V, −4 °C to 5 °C, 18.5 N·m, 3 times',
    'Read it within 10~s: 24~V, −4~°C to 5~°C, 18.5~N·m, 3 times',
  ],
  ['de', 'Nach 3 Läufen 30 min Pause, 50 % oder 2 bar', 'Nach 3 Läufen 30~min Pause, 50~% oder 2~bar'],
])('a number and its unit stay on one line (%s)', (tag, text, set) => {
  expect(typesetText(text, fixedWords(tag))).toBe(set.replaceAll('~', '\u00a0'));
});
