/** What is only seen cannot be brought about: where looking at it is enough, a check is the mend, and elsewhere the finding says why it is none. */
import { expect, test } from 'vitest';
import type { Finding } from '../../../shared/finding.ts';
import { applyFix } from '../../support/apply.ts';
import { findingsOf } from '../../support/check.ts';

const machine = `
kind valve { closed "Close {}", open "Open {}" }
kind breaker { closed "Close {}", pulled "Pull {}" }
kind pump { stopped "Stop {}", running "Start {}" }
kind lamp seen { dark, lit }
item relay : lamp "the relay lamp"
item tie : breaker "the tie" normally pulled
item cover : valve "the cover" normally closed
item lid : valve "the lid" normally closed
item feeder : pump "the feeder" normally stopped
`;
const power = 'supply power "28 V" { source battery link battery -> bus when relay lit }';
const coverMoves = 'step set cover open\n  step set cover closed';

const text = (equipment: string, body: string) =>
  `${machine}${equipment}\ncard trial "Trial" {\n  number "1" revision "A" crew a "Ann"\n  ${body}\n}`;

/** The one finding of the card that tells of safety or a supply. */
function found(equipment: string, body: string): Finding {
  const findings = findingsOf(text(equipment, body), { only: ['safety', 'supply'] });
  expect(findings).toHaveLength(1);
  return findings[0] as Finding;
}

/** The body of the card with the fix of its one finding, after which the card has no error. */
function mended(equipment: string, body: string): string {
  const [fix] = found(equipment, body).fixes;
  const after = fix ? applyFix(text(equipment, body), fix) : '';
  expect(findingsOf(after).filter(({ level }) => level === 'error')).toEqual([]);
  return after.slice(after.indexOf('crew a "Ann"') + 'crew a "Ann"'.length, -1).trim();
}

const live = `${power} rule live "Live" { before cover open require power reaches bus }`;
const dead = `${power} rule dead "Dead" { before cover open require not power reaches bus }`;

test('a supply that hangs on what is seen is checked before a rule asks for it', () => {
  expect(found(live, coverMoves).message).toContain('Nearest mend: check the relay lamp to be lit before this.');
  expect(mended(live, coverMoves)).toBe(`step check relay lit\n  ${coverMoves}`);
  expect(found(dead, coverMoves).message).toContain('Nearest mend: check the relay lamp to be dark before this.');
  expect(mended(dead, coverMoves)).toBe(`step check relay dark\n  ${coverMoves}`);
});

test('a source that hangs on what is seen', () => {
  const source = live.replace('source battery link battery -> bus when', 'link battery -> bus source battery when');
  expect(mended(source, coverMoves)).toBe(`step check relay lit\n  ${coverMoves}`);
});

test('the check stands right before the action, in its step where that lets time pass or does something before', () => {
  const closed = '\n  step set cover closed';
  expect(mended(live, `step "Look." set cover open${closed}`)).toBe(
    `step "Look." { check relay lit set cover open }${closed}`,
  );
  expect(mended(live, `step { set lid open set cover open set lid closed }${closed}`)).toBe(
    `step { set lid open check relay lit set cover open set lid closed }${closed}`,
  );
});

test('what can be set is set first, as the lamp may change with it', () => {
  const both = live.replace('relay lit', 'relay lit and tie closed');
  expect(found(both, coverMoves).message).toContain(
    'Nearest mend: bring the tie to closed, and check the relay lamp to be lit before this.',
  );
  expect(mended(both, coverMoves)).toBe(
    `step set tie closed\n  step check relay lit\n  ${coverMoves}\n  step set tie pulled`,
  );
});

test('of mends with as many changes, one that is set is preferred; one with fewer changes is not given up for it', () => {
  const either = live.replace('relay lit', 'relay lit or tie closed');
  expect(mended(either, coverMoves)).toBe(`step set tie closed\n  ${coverMoves}\n  step set tie pulled`);
  const longer = live.replace('relay lit', '(tie closed and lid open) or relay lit');
  expect(mended(longer, coverMoves)).toBe(`step check relay lit\n  ${coverMoves}`);
});

test('no check is named that nothing could pass', () => {
  const { message, fixes } = found(live, `step check relay dark\n  ${coverMoves}`);
  expect(message).not.toContain('Nearest mend');
  expect(fixes).toEqual([]);
});

test('what must be seen when the card finishes is checked there', () => {
  const atEnd = `${power} rule dead "Dead" { at end require not power reaches bus }`;
  expect(mended(atEnd, coverMoves)).toBe(`${coverMoves}\n  step check relay dark`);
  const bothAtEnd = `${power.replace('relay lit', 'relay lit or tie pulled')} rule dead "Dead" { at end require not power reaches bus }`;
  expect(mended(bothAtEnd, 'assume tie pulled leaves tie closed\n  step "Look."')).toBe(
    'assume tie pulled leaves tie closed\n  step "Look."\n  step { set tie closed check relay dark }',
  );
});

test('a card that is done where it assumes what is seen is led in by a check', () => {
  const done = 'card sub "Sub" { number "2" revision "A" crew a "Ann" assume relay lit step "Look." }';
  expect(mended(done, 'do sub')).toContain('step check relay lit\n  do sub');
});

const why = 'is only seen and may change with this very action, so no check before it is enough.';

test.each([
  [
    'an item that needs the supply',
    `item pump-1 : pump "the pump" normally stopped needs power while running
${power.replace('-> bus', '-> pump-1')}`,
    'set pump-1 running',
    'set pump-1 stopped',
    'lit',
  ],
  [
    'a supply that must stay',
    `${power} rule live "Live" { while cover open require power reaches bus }`,
    'set cover open',
    'set cover closed',
    'lit',
  ],
  [
    'a supply that must stay off',
    `${power} rule dead "Dead" { while cover open require not power reaches bus }`,
    'set cover open',
    'set cover closed',
    'dark',
  ],
  [
    'a state that must stay',
    'rule dead "Dead" { while cover open require relay dark }',
    'set cover open',
    'set cover closed',
    'dark',
  ],
])('%s: a check would not help, and the finding says so', (_, equipment, begins, ends, wanted) => {
  const unchecked = `step ${begins}\n  step ${ends}`;
  const { message, fixes } = found(equipment, unchecked);
  expect(message).toContain(`What it takes, the relay lamp to be ${wanted}, ${why}`);
  expect(fixes).toEqual([]);
  expect(found(equipment, `step check relay ${wanted}\n  ${unchecked}`).message).toBe(message);
});

test('what must stay is mended by what can be set, also where as few checks would do elsewhere', () => {
  const either = 'rule dead "Dead" { while cover open require relay dark or lid open }';
  expect(mended(either, coverMoves)).toBe(`step set lid open\n  ${coverMoves}\n  step set lid closed`);
});

test('a protection that is only seen is not offered as a check', () => {
  const hazard = 'hazard noise "noise" while feeder running { warning "Noise." protect relay lit }';
  expect(found(hazard, 'warning noise\n  step set feeder running\n  step set feeder stopped').fixes).toEqual([]);
});

test('a check on the way of a stop would be one more stop', () => {
  const atStop = `${power} rule dead "Dead" { at stop require not power reaches bus }`;
  const { message, fixes } = found(atStop, 'step check "Is it dry?"');
  expect(message).not.toContain('Nearest mend');
  expect(fixes).toEqual([]);
});

test.each([
  ['at the end', 'rule dark "Dark" { at end require relay dark }', coverMoves, 'may be lit'],
  [
    'behind a look',
    'rule dark "Dark" { at end require relay dark }',
    `step check relay dark\n  ${coverMoves}`,
    'may be lit',
  ],
  ['right behind a look', 'rule dark "Dark" { at end require relay dark }', 'step check relay lit', 'will be lit'],
  ['before an action', 'rule dark "Dark" { before cover open require relay dark }', coverMoves, 'may be lit'],
])('what is only seen may be so %s', (_, rule, body, verb) => {
  expect(found(rule, body).message).toContain(`the relay lamp ${verb}`);
});
