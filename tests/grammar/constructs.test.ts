/** Every construct of the language, and the tree that it gives. */
import { describe, expect, test } from 'vitest';
import { all } from '../../grammar/navigate.ts';
import { parse } from '../../grammar/parse.ts';
import type { Card } from '../../grammar/syntax.ts';
import { contextualWords, joiningWords, reservedWords } from '../../grammar/words.ts';
import { printTree } from '../support/tree.ts';

function read(text: string) {
  const { file, problems } = parse(text);
  expect(problems).toEqual([]);
  return file;
}

const declaration = (text: string) => printTree(read(text).declarations[0]);
const field = (text: string) => printTree((read(`card c "C" { ${text} }`).declarations[0] as Card).fields[0]);
const inBody = (text: string) => printTree((read(`card c "C" { ${text} }`).declarations[0] as Card).body[0]);
const action = (text: string) => printTree(all(read(`card c "C" { step ${text} }`), 'step')[0]?.actions[0]);
const condition = (text: string) => printTree(all(read(`card c "C" { keep ${text} }`), 'keep')[0]?.condition);
const bound = (text: string) => printTree(all(read(`gauge g in V { limit l ${text} }`), 'limit')[0]?.bound);

describe('the tree of', () => {
  test.each([
    ['use "std:kinds"', 'use{path: "std:kinds"}'],
    [
      'kind brake seen { released, set "Set {}" }',
      'kind{name: brake, seen: true, states: [kind-state{name: released}, kind-state{name: set, wording: "Set {}"}]}',
    ],
    [
      'kind Ventil { öffnen "Öffne {}", закрыт }',
      'kind{name: Ventil, states: [kind-state{name: öffnen, wording: "Öffne {}"}, kind-state{name: закрыт}]}',
    ],
    [
      'kind gate { shut "Close {}" or "Shut {}" or "Bring " "{} home", open "Open {}" }',
      'kind{name: gate, states: [kind-state{name: shut, wording: "Close {}", others: ["Shut {}", "Bring  {} home"]}, kind-state{name: open, wording: "Open {}"}]}',
    ],
    [
      'kind lever { off printed "CUT-OFF" "Cut {}" "off", on printed "RUN" }',
      'kind{name: lever, states: [kind-state{name: off, wording: "Cut {} off", printed: "CUT-OFF"}, kind-state{name: on, printed: "RUN"}]}',
    ],
    ['item a : valve', 'item{names: [{name: a}], kind: valve, parts: []}'],
    [
      'item a "the first", b "the second" : valve "a valve" at "bay 1" "left" normally closed verify',
      'item{names: [{name: a, label: "the first"}, {name: b, label: "the second"}], kind: valve, label: "a valve", parts: [at{text: "bay 1 left"}, normally{state: closed, verify: true}]}',
    ],
    [
      'item a : lamp may lit when b open may dark reduces 25 dB needs power while lit',
      'item{names: [{name: a}], kind: lamp, parts: [may{state: lit, when: state-term{subject: b, state: open}}, may{state: dark}, reduces{quantity: 25 dB}, needs{supply: power, state: lit}]}',
    ],
    [
      'item a : starter { duty cranking at most 30 s, then rest 60 s duty cranking at most 3 times, then rest 30 min }',
      'item{names: [{name: a}], kind: starter, parts: [duties{duties: [duty{state: cranking, longest: 30 s, rest: 60 s}, duty{state: cranking, times: 3, rest: 30 min}]}]}',
    ],
    [
      'item a : pump { duty running at most 2 h 30 min duty running at most 5 times in 1 h }',
      'item{names: [{name: a}], kind: pump, parts: [duties{duties: [duty{state: running, longest: 2 h 30 min}, duty{state: running, times: 5, window: 1 h}]}]}',
    ],
    [
      'gauge g "speed" in % at "panel" { reads 0 to 110 by 1 limit crank at least 12 % moved by a, b }',
      'gauge{name: g, label: "speed", unit: %, at: "panel", parts: [reads{from: 0, to: 110, by: 1}, limit{name: crank, bound: bound{form: at least, quantity: 12 %}, rows: []}, moved{by: [a, b]}]}',
    ],
    [
      'gauge d in degC = hot - cold',
      'gauge{name: d, unit: degC, difference: {left: hot, sign: -, right: cold}, parts: []}',
    ],
    [
      'gauge s in N.m = a + b { reads -5 to 5 }',
      'gauge{name: s, unit: N.m, difference: {left: a, sign: +, right: b}, parts: [reads{from: -5, to: 5}]}',
    ],
    [
      'gauge g in psi { limit safe by heat { below 10 degC : 40 psi to 60 psi, 10 degC to 30 degC : at most 70 psi } }',
      'gauge{name: g, unit: psi, parts: [limit{name: safe, byGauge: heat, rows: [{when: bound{form: below, quantity: 10 degC}, bound: bound{form: range, low: 40 psi, high: 60 psi}}, {when: bound{form: range, low: 10 degC, high: 30 degC}, bound: bound{form: at most, quantity: 70 psi}}]}]}',
    ],
    [
      'supply bus "28 V" { source cart when cart running link cart -> bus link bus <-> tie when a closed }',
      'supply{name: bus, label: "28 V", parts: [source{node: cart, when: state-term{subject: cart, state: running}}, link{from: cart, to: bus}, link{from: bus, both: true, to: tie, when: state-term{subject: a, state: closed}}]}',
    ],
    [
      'hazard noise "noise" while cart running { level 98 dBA warning "Loud." "Keep off." protect muffs on }',
      'hazard{name: noise, label: "noise", condition: state-term{subject: cart, state: running}, noise: 98 dBA, level: warning, text: "Loud. Keep off.", protect: state-term{subject: muffs, state: on}}',
    ],
    [
      'hazard fall "a fall" while hatch open { note "Mind the step." }',
      'hazard{name: fall, label: "a fall", condition: state-term{subject: hatch, state: open}, level: note, text: "Mind the step."}',
    ],
    [
      'rule r "R" { before any starter cranking require a b because "x" source "y" because "z" }',
      'rule{name: r, title: "R", trigger: before, condition: state-term{quantifier: any, subject: starter, state: cranking}, require: state-term{subject: a, state: b}, because: ["x", "z"], sources: ["y"]}',
    ],
    [
      'rule r "R" { while a on require not dc reaches bus }',
      'rule{name: r, title: "R", trigger: while, condition: state-term{subject: a, state: on}, require: not{term: reaches-term{supply: dc, node: bus}}, because: [], sources: []}',
    ],
    [
      'rule r "R" for each a in valve { before a open require b c }',
      'rule{name: r, title: "R", each: {name: a, kind: valve}, trigger: before, condition: state-term{subject: a, state: open}, require: state-term{subject: b, state: c}, because: [], sources: []}',
    ],
    [
      'rule r "R" { at end require every valve closed }',
      'rule{name: r, title: "R", trigger: at end, require: state-term{quantifier: every, subject: valve, state: closed}, because: [], sources: []}',
    ],
    [
      'rule r "R" { at stop require a b }',
      'rule{name: r, title: "R", trigger: at stop, require: state-term{subject: a, state: b}, because: [], sources: []}',
    ],
    ['variant unit 1 to 4', 'variant{name: unit, from: 1, to: 4, words: []}'],
    ['variant fit old, new', 'variant{name: fit, words: [old, new]}'],
    ['procedure p () { }', 'procedure{name: p, parameters: [], body: block{statements: []}}'],
    [
      'procedure p (v : valve, g : gauge) "Title" { step set v open }',
      'procedure{name: p, parameters: [{name: v, kind: valve}, {name: g, kind: gauge}], title: "Title", body: block{statements: [step{parts: [], actions: [set{states: [item-state{item: v, state: open}]}]}]}}',
    ],
    ['card c "Title" { }', 'card{name: c, title: "Title", fields: [], body: []}'],
  ])('declaration %s', (text, tree) => expect(declaration(text)).toBe(tree));
  test.each([
    ['number "A-1"', 'number-field{text: "A-1"}'],
    ['revision "B" on 2026-10-02', 'revision{text: "B", date: {text: 2026-10-02}}'],
    ['revision "B"', 'revision{text: "B"}'],
    ['purpose "Why"', 'purpose{text: "Why"}'],
    ['language "de"', 'language{text: "de"}'],
    [
      'applies unit 3 to 4, 7 and fit old',
      'applies{which: which{parts: [{variant: unit, values: [numbers{from: 3, to: 4}, numbers{from: 7}]}, {variant: fit, values: [old]}]}}',
    ],
    [
      'crew pilot, ground "Ground" qualified "Run"',
      'crew{members: [member{name: pilot}, member{name: ground, label: "Ground", qualified: "Run"}]}',
    ],
    ['tools "one" "more", "two"', 'tools{texts: ["one more", "two"]}'],
    ['materials "oil"', 'materials{texts: ["oil"]}'],
    ['references "doc"', 'references{texts: ["doc"]}'],
    [
      'assume a open, b set because "checked before"',
      'assume{states: [item-state{item: a, state: open}, item-state{item: b, state: set}], because: "checked before"}',
    ],
    ['leaves a open', 'leaves{states: [item-state{item: a, state: open}]}'],
  ])('field %s', (text, tree) => expect(field(text)).toBe(tree));
  test.each([
    ['stage "One" { }', 'stage{title: "One", body: block{statements: []}}'],
    [
      'stage when "Two" when stopped only unit 2 { finish }',
      'stage{name: when, title: "Two", whenStopped: true, only: which{parts: [{variant: unit, values: [numbers{from: 2}]}]}, body: block{statements: [finish{}]}}',
    ],
    ['danger turning', 'admonition{level: danger, hazard: turning}'],
    [
      'warning "One." "Two." only fit old',
      'admonition{level: warning, text: "One. Two.", only: which{parts: [{variant: fit, values: [old]}]}}',
    ],
    ['caution noise', 'admonition{level: caution, hazard: noise}'],
    ['note "x"', 'admonition{level: note, text: "x"}'],
    [
      'if a open { } else if "Is it dry?" { } else { }',
      'if{condition: state-term{subject: a, state: open}, body: block{statements: []}, otherwise: if{question: "Is it dry?", body: block{statements: []}, otherwise: block{statements: []}}}',
    ],
    ['repeat 3 times { }', 'repeat{times: 3, body: block{statements: []}}'],
    [
      'repeat at most 3 times until a open { } else stop "Call."',
      'repeat{times: 3, until: true, condition: state-term{subject: a, state: open}, body: block{statements: []}, otherwise: stop{text: "Call."}}',
    ],
    [
      'repeat at most 2 times until "Is it clean?" { }',
      'repeat{times: 2, until: true, question: "Is it clean?", body: block{statements: []}}',
    ],
    [
      'together { by one { } by two { } }',
      'together{lanes: [lane{role: one, body: block{statements: []}}, lane{role: two, body: block{statements: []}}]}',
    ],
    ['do other', 'do{name: other, arguments: []}'],
    ['do p(a, b)', 'do{name: p, arguments: [a, b]}'],
    ['do p()', 'do{name: p, arguments: []}'],
    ['for each v in valve { }', 'for-each{name: v, in: [valve], body: block{statements: []}}'],
    ['for each v in a, b { }', 'for-each{name: v, in: [a, b], body: block{statements: []}}'],
    ['for each p in 10, 18 N.m { }', 'for-each{name: p, in: [], values: [10, 18 N.m], body: block{statements: []}}'],
    [
      'choose { "by hand" { } or "by pump" { } }',
      'choose{ways: [way{text: "by hand", body: block{statements: []}}, way{text: "by pump", body: block{statements: []}}]}',
    ],
    ['keep a open else go to end', 'keep{condition: state-term{subject: a, state: open}, otherwise: go{label: end}}'],
    ['sign pilot', 'sign{role: pilot}'],
    ['sign pilot "Done"', 'sign{role: pilot, text: "Done"}'],
    ['sign pilot independent "Pin"', 'sign{role: pilot, independent: true, text: "Pin"}'],
    ['sign independent', 'sign{role: independent}'],
    ['step by a inspected by b', 'step{parts: [by{role: a}, inspected{role: b}], actions: []}'],
    ['step inspected: by inspected', 'step{label: inspected, parts: [by{role: inspected}], actions: []}'],
    ['go to label', 'go{label: label}'],
    ['go to "Put back"', 'go{label: "Put back"}'],
    ['stop "Call."', 'stop{text: "Call."}'],
    ['finish', 'finish{}'],
    ['accept safety.left-changed because "towed away"', 'accept{code: safety.left-changed, because: "towed away"}'],
    [
      'accept safety.left-changed because "towed" by "R. Amsel"',
      'accept{code: safety.left-changed, because: "towed", by: "R. Amsel"}',
    ],
    ['figure "a.svg" "A" "b"', 'figure{path: "a.svg", caption: "A b"}'],
    ['step', 'step{parts: [], actions: []}'],
    [
      'step ready: "Look" by a by b takes 2 min to 5 min see "doc" only unit 1 set x open',
      'step{label: ready, parts: ["Look", by{role: a}, by{role: b}, takes{span: span{form: range, low: 2 min, high: 5 min}}, see{text: "doc"}, only{which: which{parts: [{variant: unit, values: [numbers{from: 1}]}]}}], actions: [set{states: [item-state{item: x, state: open}]}]}',
    ],
    [
      'step takes at least 1 h { set x open sign pilot accept duty.takes because "slow" }',
      'step{parts: [takes{span: span{form: at least, low: 1 h}}], actions: [set{states: [item-state{item: x, state: open}]}, sign{role: pilot}, accept{code: duty.takes, because: "slow"}]}',
    ],
  ])('statement %s', (text, tree) => expect(inBody(text)).toBe(tree));
  test.each([
    ['set a open, b closed', 'set{states: [item-state{item: a, state: open}, item-state{item: b, state: closed}]}'],
    ['ensure a set', 'ensure{states: [item-state{item: a, state: set}]}'],
    ['check a open', 'check{condition: state-term{subject: a, state: open}}'],
    ['check "Is it dry?" else go to x', 'check{question: "Is it dry?", otherwise: go{label: x}}'],
    ['read g', 'read{gauge: g}'],
    [
      'read g at least 5 V else finish',
      'read{gauge: g, bound: bound{form: at least, quantity: 5 V}, otherwise: finish{}}',
    ],
    ['read g in normal', 'read{gauge: g, limit: normal}'],
    [
      'bring g in normal within 5 min else stop "x"',
      'bring{gauge: g, limit: normal, within: 5 min, otherwise: stop{text: "x"}}',
    ],
    ['bring g 27 to 29 V', 'bring{gauge: g, bound: bound{form: range, low: 27, high: 29 V}}'],
    [
      'run s cranking for 25 s { watch g stays in dry watch g reaches in wet within 10 s }',
      'run{item: s, state: cranking, length: span{form: exact, low: 25 s}, watches: [watch{gauge: g, form: stays, limit: dry}, watch{gauge: g, form: reaches, limit: wet, within: 10 s}]}',
    ],
    ['run s cranking for 25 s', 'run{item: s, state: cranking, length: span{form: exact, low: 25 s}, watches: []}'],
    [
      'run s cranking for 20 s to 25 s { watch g reaches at least 12 % within 10 s else stop "x" watch h stays below 5 V }',
      'run{item: s, state: cranking, length: span{form: range, low: 20 s, high: 25 s}, watches: [watch{gauge: g, form: reaches, bound: bound{form: at least, quantity: 12 %}, within: 10 s, otherwise: stop{text: "x"}}, watch{gauge: h, form: stays, bound: bound{form: below, quantity: 5 V}}]}',
    ],
    [
      'run s cranking until g above 5 V within 30 s else finish',
      'run{item: s, state: cranking, until: bound-term{gauge: g, bound: bound{form: above, quantity: 5 V}}, within: 30 s, otherwise: finish{}, watches: []}',
    ],
    ['wait 60 s', 'wait{length: span{form: exact, low: 60 s}}'],
    ['wait at least 5 min', 'wait{length: span{form: at least, low: 5 min}}'],
    ['wait until a open', 'wait{until: state-term{subject: a, state: open}}'],
    [
      'wait until a open within 4 min 30 s else stop "x"',
      'wait{until: state-term{subject: a, state: open}, within: 4 min 30 s, otherwise: stop{text: "x"}}',
    ],
    ['record "Temperature" in °C', 'record{text: "Temperature", unit: °C}'],
    ['record "Name"', 'record{text: "Name"}'],
    ['record part "Seal ring"', 'record{part: true, text: "Seal ring"}'],
    [
      'record "Gap" in mm 0.2 mm to 0.4 mm, "Torque" in N.m at "front", "back"',
      'record{text: "Gap", unit: mm, bound: bound{form: range, low: 0.2 mm, high: 0.4 mm}, others: [{text: "Torque", unit: N.m}], at: ["front", "back"]}',
    ],
    [
      'record "Gap" in mm at most 0.4 mm at "front"',
      'record{text: "Gap", unit: mm, bound: bound{form: at most, quantity: 0.4 mm}, at: ["front"]}',
    ],
    [
      'tighten bolts to 25 N.m +/- 2 N.m in "a star pattern"',
      'tighten{item: bolts, torque: bound{form: exactly, quantity: 25 N.m, tolerance: 2 N.m}, pattern: "a star pattern"}',
    ],
    [
      'tighten "the eight bolts" to 23 to 27 N.m',
      'tighten{text: "the eight bolts", torque: bound{form: range, low: 23, high: 27 N.m}}',
    ],
    ['tighten tighten to at least 20 N.m', 'tighten{item: tighten, torque: bound{form: at least, quantity: 20 N.m}}'],
  ])('action %s', (text, tree) => expect(action(text)).toBe(tree));
  test.each([
    ['a open', 'state-term{subject: a, state: open}'],
    ['a exactly', 'state-term{subject: a, state: exactly}'],
    [
      'a open or b open and c open',
      'or{terms: [state-term{subject: a, state: open}, and{terms: [state-term{subject: b, state: open}, state-term{subject: c, state: open}]}]}',
    ],
    [
      'not (a open or b open) and not c open',
      'and{terms: [not{term: group{inner: or{terms: [state-term{subject: a, state: open}, state-term{subject: b, state: open}]}}}, not{term: state-term{subject: c, state: open}}]}',
    ],
    ['any valve open', 'state-term{quantifier: any, subject: valve, state: open}'],
    [
      'every valve closed for at least 5 min',
      'state-term{quantifier: every, subject: valve, state: closed, lasting: {form: at least, duration: 5 min}}',
    ],
    [
      'a open for at most 1 h 30 min',
      'state-term{subject: a, state: open, lasting: {form: at most, duration: 1 h 30 min}}',
    ],
    ['g at least 5 V', 'bound-term{gauge: g, bound: bound{form: at least, quantity: 5 V}}'],
    ['g in normal', 'limit-term{gauge: g, limit: normal}'],
    ['dc reaches left-bus', 'reaches-term{supply: dc, node: left-bus}'],
    ['any supply reaches left-bus', 'any-reaches-term{node: left-bus}'],
    ['stage set', 'state-term{subject: stage, state: set}'],
  ])('condition %s', (text, tree) => expect(condition(text)).toBe(tree));
  test.each([
    ['at least 24 V', 'bound{form: at least, quantity: 24 V}'],
    ['at most 24 V', 'bound{form: at most, quantity: 24 V}'],
    ['above 24 V', 'bound{form: above, quantity: 24 V}'],
    ['below -0.5 V', 'bound{form: below, quantity: -0.5 V}'],
    ['27 V to 29 V', 'bound{form: range, low: 27 V, high: 29 V}'],
    ['27 to 29 V', 'bound{form: range, low: 27, high: 29 V}'],
    ['exactly 28 V', 'bound{form: exactly, quantity: 28 V}'],
    ['exactly 28 V +/- 0.5 V', 'bound{form: exactly, quantity: 28 V, tolerance: 0.5 V}'],
    ['at most 3 kgf.m', 'bound{form: at most, quantity: 3 kgf.m}'],
    ['at most 3 in-lb', 'bound{form: at most, quantity: 3 in-lb}'],
    ['at most 3 in', 'bound{form: at most, quantity: 3 in}'],
    ['at most 5 L/min', 'bound{form: at most, quantity: 5 L/min}'],
    ['at most 80%', 'bound{form: at most, quantity: 80 %}'],
    ['at most 3 lbf·in', 'bound{form: at most, quantity: 3 lbf·in}'],
  ])('bound %s', (text, tree) => expect(bound(text)).toBe(tree));
});

describe('words', () => {
  test.each(contextualWords)('%s may be a name', (word) => {
    read(
      `item ${word} : valve  gauge g in V { limit ${word} at least 24 V }  card c "C" { step set ${word} open go to ${word} }`,
    );
  });

  test.each(['sign', 'record', 'read'])(
    '“%s” as a kind is told as such, and only its declaration can say another',
    (word) => {
      const { problems } = parse(`item tap : ${word} "the tap"`);
      expect(problems.map(({ code, fix }) => [code, fix])).toEqual([['syntax.reserved', undefined]]);
    },
  );

  test.each(reservedWords)('%s may be no name', (word) => {
    expect(parse(`item ${word} : valve`).problems.map(({ code, fix }) => [code, fix?.title])).toEqual([
      ['syntax.reserved', `Call it “${word}-1”`],
    ]);
  });

  test.each(reservedWords.filter((word) => !(joiningWords as readonly string[]).includes(word)))(
    '%s may be a state',
    (word) => {
      read(
        `kind k { ${word} "T {}", other }  item a : k normally ${word}  card c "C" { step set a ${word} if a ${word} { } }`,
      );
    },
  );

  test.each(joiningWords)('%s may be no state', (word) => {
    expect(parse(`kind k { ${word} }`).problems).toHaveLength(1);
  });

  test('a name has letters of any script, digits and single inner hyphens', () => {
    const names = ['a', 'pump-2', 'A320', 'Überdruck', 'насос-1', 'バルブ', 'क्षेत्र', '𝒳1'];
    for (const name of names) expect(declaration(`item ${name} : k`)).toContain(`name: ${name}`);
    for (const name of ['2nd', '-a', 'a-', 'a--b', 'a_b']) expect(parse(`item ${name} : k`).problems).not.toEqual([]);
  });
});

describe('texts', () => {
  const wording = (text: string) => all(read(`kind k { s ${text} }`), 'kind-state')[0]?.wording;
  const segments = (text: string) =>
    wording(text)?.segments.map((part) =>
      part.type === 'words' ? part.value : { name: part.name?.text, limit: part.limit?.text },
    );

  test('have escapes', () => expect(wording('"Say \\"go\\" in C:\\\\bin"')?.value).toBe('Say "go" in C:\\bin'));

  test('have slots', () => {
    expect(segments('"Close {} with {key} at {p.safe}."')).toEqual([
      'Close ',
      { name: undefined },
      ' with ',
      { name: 'key' },
      ' at ',
      { name: 'p', limit: 'safe' },
      '.',
    ]);
  });

  test('have braces', () => {
    expect(wording('"a {{b} {c}"')?.value).toBe('a {b} {c}');
    expect(segments('"a {{b} {c}"')).toEqual(['a {b} ', { name: 'c', limit: undefined }]);
  });

  test('in a row join with a blank', () => {
    expect(wording('"Close"  // slowly\n "{}."')?.value).toBe('Close {}.');
    expect(segments('"Close" "{}."')).toEqual(['Close', ' ', { name: undefined, limit: undefined }, '.']);
  });

  test('may be empty', () => expect(wording('""')?.value).toBe(''));

  test('have their slots where they stand', () => {
    const text = 'kind k { s "a \\" {pump.high}" }';
    const slot = all(read(text), 'slot')[0];
    expect(slot && text.slice(slot.start, slot.end)).toBe('{pump.high}');
    expect(slot?.limit && text.slice(slot.limit.start, slot.limit.end)).toBe('high');
  });
});

test('comments are kept beside the tree', () => {
  const { comments, problems } = parse('// one\nkind k { /* two\n lines */ a }//three');
  expect(problems).toEqual([]);
  expect(comments.map(({ text }) => text)).toEqual(['// one', '/* two\n lines */', '//three']);
});

test('a step in braces knows where they stand', () => {
  const text = 'card c "C" { step { set a b } }';
  const [step] = all(read(text), 'step');
  expect(step?.braces && text.slice(step.braces.start, step.braces.end)).toBe('{ set a b }');
});

test('a statement on a new line is no state of the sentence before it', () => {
  const { file } = parse('card c "C" {\n step set a\n step set b open\n}');
  expect(all(file, 'item-state').map(({ item, state }) => [item.text, state?.text])).toEqual([
    ['a', undefined],
    ['b', 'open'],
  ]);
});

test('a loop after a condition is no time', () => read('card c "C" { keep a open for each v in valve { } }'));

test('a reason is no part of a condition that was left out', () => {
  const { file, problems } = parse('rule r "R" { before a b because "x" }');
  expect(problems).toHaveLength(1);
  expect(printTree(file.declarations[0])).toContain('require: broken{}, because: ["x"]');
});
