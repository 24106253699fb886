import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from '../../../grammar/parse.ts';
import { contextOf } from '../../../server/render/context.ts';
import { english } from '../../../server/render/language/english.ts';
import { conditionText } from '../../../server/render/sentences/conditions.ts';
import { failureSentence } from '../../../server/render/sentences/flows.ts';
import { linesOf } from '../../../server/render/sentences/lines.ts';
import { whichText } from '../../../server/render/sentences/machines.ts';
import type { Action, Card, Condition, Gauge, Item, Sign } from '../../../shared/card.ts';
import { exact } from '../../../shared/exact.ts';
import * as b from '../../support/card-builder.ts';
import { inputOf } from '../../support/rinse.ts';

const breaker = b.kind('breaker', { closed: 'Close {}', pulled: 'Pull and tag {}' });
const selector = b.kind('selector', { off: undefined, 'half-way': undefined });
const valve = b.kind('valve', { closed: 'Close {}', open: 'Open {}' });
const lamp = b.kind('lamp', { off: undefined, on: undefined });
const drain = b.item('drain', valve, 'the drain valve', { at: 'pump house', normal: 'closed' });
const voltage = b.gauge('bus-voltage', 'V', 'bus voltage', { at: 'overhead panel' });
const pressure = b.gauge('oil', 'psi', 'the oil pressure');

function said(action: Action | Sign | string, card: Card = b.card('Card', [])) {
  const step = typeof action === 'string' ? b.step(undefined, action) : b.step(undefined, [action]);
  return linesOf(step, contextOf(inputOf(card)));
}
const sentence = (action: Action | Sign | string) => said(action)[0]?.sentence;

describe('set', () => {
  test('prints the wording of the kind, with the place', () => {
    expect(sentence(b.set([drain, 'open']))).toBe('Open the drain valve (pump house).');
  });

  test('says what it can of a state without a wording, without hyphens', () => {
    expect(sentence(b.set([b.item('mode', selector, 'the mode selector'), 'half-way']))).toBe(
      'Set the mode selector to half way.',
    );
  });

  test('names a state as its placard does', () => {
    const kind = b.kind('lever', { off: undefined, on: undefined });
    const lever = b.item(
      'mode',
      { ...kind, states: kind.states.map((one) => ({ ...one, printed: `[${one.name.toUpperCase()}]` })) },
      'the fuel lever',
    );
    expect(sentence(b.set([lever, 'on']))).toBe('Set the fuel lever to [ON].');
    expect(sentence(b.check(b.is(lever, 'off')))).toBe('Check that the fuel lever is [OFF].');
  });

  test('makes one sentence of neighbours with one wording, as a person would', () => {
    const three = ['left', 'right', 'centre'].map((side) =>
      b.item(side, breaker, `the ${side} breaker`, { at: 'panel C3' }),
    );
    expect(sentence(b.set(...three.map((one) => [one, 'pulled'] as const)))).toBe(
      'Pull and tag the left, right and centre breakers (panel C3).',
    );
  });

  test('takes the noun before its place or its owner for what there are several of', () => {
    const closed = (labels: readonly string[]) =>
      sentence(b.set(...labels.map((label) => [b.item(label, breaker, label), 'closed'] as const)));
    expect(closed(['the packing of pump 1', 'the guard of pump 1'])).toBe('Close the packing and guard of pump 1.');
    expect(closed(['the left lever at the desk', 'the right lever at the desk'])).toBe(
      'Close the left and right levers at the desk.',
    );
    const breakers = b.item('two', breaker, 'the ignition breakers', { at: 'panel C3, row 2' });
    expect(sentence(b.check(b.is(breakers, 'closed')))).toBe(
      'Check that the ignition breakers (panel C3, row 2) are closed.',
    );
  });

  test('names each place where they differ', () => {
    const two = ['left', 'right'].map((side) => b.item(side, breaker, `the ${side} breaker`, { at: `${side} panel` }));
    const [line] = said(b.set(...two.map((one) => [one, 'pulled'] as const)));
    expect(line?.sentence).toBe('Pull and tag the left and right breakers.');
    expect(line?.notes).toEqual(['The left breaker: left panel.', 'The right breaker: right panel.']);
  });

  test('keeps the order where wordings differ', () => {
    const one = b.item('one', breaker, 'the pump breaker');
    expect(said(b.set([one, 'pulled'], [drain, 'open'], [one, 'closed'])).map((line) => line.sentence)).toEqual([
      'Pull and tag the pump breaker.',
      'Open the drain valve (pump house).',
      'Close the pump breaker.',
    ]);
  });
});

describe('joined labels', () => {
  test.each([
    [['the left breaker', 'the right breaker'], 'the left and right breakers'],
    [['the left bus', 'the right bus'], 'the left and right buses'],
    [['the engine 1 bleed valve', 'the engine 2 bleed valve'], 'the engine 1 and 2 bleed valves'],
    [['the left ignition breakers', 'the right ignition breakers'], 'the left and right ignition breakers'],
    [['the drain valve', 'the vent breaker'], 'the drain valve and the vent breaker'],
    [['the pump', 'the pump'], 'the pump and the pump'],
    [['the valve', 'the left valve'], 'the valve and the left valve'],
    [['pump 1', 'pump 2'], 'pump 1 and pump 2'],
    [['the vent'], 'the vent'],
  ])('%j', (labels, joined) => {
    expect(english.grammar.list(labels)).toBe(joined);
  });
});

describe('readings and limits', () => {
  test('says how a gauge that is worked out from two others is worked out', () => {
    const bush = b.gauge('bush', 'mm', 'bush diameter', { at: 'lathe' });
    const pin = b.gauge('pin', 'mm', 'pin diameter');
    const wear = { ...b.gauge('wear', 'mm', 'wear of the bush'), difference: { left: bush, sign: '-', right: pin } };
    const total = { ...b.gauge('total', 'mm', 'total length'), difference: { left: bush, sign: '+', right: pin } };
    expect(sentence(b.read(wear as Gauge))).toBe('Work out the wear of the bush: bush diameter minus pin diameter.');
    expect(sentence(b.read(total as Gauge))).toBe('Work out the total length: bush diameter plus pin diameter.');
  });

  test('give the limit in both units, rounded inward', () => {
    const [line] = said(b.read(pressure, b.reading(pressure, b.range(40, 60, 'psi'))));
    expect(line?.sentence).toBe('Read the oil pressure.');
    expect(line?.limits).toEqual(['40 to 60 psi (276 to 413 kPa)']);
  });

  test('bring says to what and how soon', () => {
    expect(sentence(b.bring(voltage, b.reading(voltage, b.atLeast(24, 'V')), 90))).toBe(
      'Bring the bus voltage (overhead panel) to at least 24 V within 1 min 30 s.',
    );
  });

  test('a limit that depends on another gauge gives a line a row', () => {
    const outside = b.gauge('oat', 'degC', 'outside temperature');
    const limit = {
      name: 'cold',
      gauge: voltage,
      by: {
        gauge: outside,
        rows: [
          { when: b.atMost(0, 'degC'), bound: b.atLeast(25, 'V') },
          { when: b.atLeast(0, 'degC'), bound: b.atLeast(24, 'V') },
        ],
      },
      place: b.place(),
    };
    const [line] = said(b.read(voltage, b.within(voltage, limit)));
    expect(line?.limits).toEqual([
      'at least 25 V where the outside temperature is at most 0 °C (32 °F)'.replace(' (32 °F)', ''),
      'at least 24 V where the outside temperature is at least 0 °C',
    ]);
  });
});

test('a check says what must be so, grouped where it could be read in two ways', () => {
  const left = b.item('l', breaker, 'the left breaker');
  const right = b.item('r', breaker, 'the right breakers');
  const condition = b.and(b.is(drain, 'open'), b.or(b.is(left, 'pulled'), b.not(b.is(right, 'closed'))));
  expect(sentence(b.check(condition))).toBe(
    'Check that the drain valve (pump house) is open and (the left breaker is pulled or the right breakers are not closed).',
  );
});

describe('a condition is said as a person would', () => {
  const [left, right] = ['left', 'right'].map((side) => b.item(`${side}-chip`, lamp, `the ${side} chip lamp`));
  const angle = b.gauge('slip', '%', 'slip');
  const spoken = (condition: Condition) => conditionText(condition, contextOf(inputOf(b.card('Card', []))));

  test('gauges with one bound are said together', () => {
    const oil = (side: string) => b.gauge(side, 'psi', `${side} oil pressure`);
    const is = (side: string, low: number) => b.reading(oil(side), b.atLeast(low, 'psi'));
    const and = (...terms: Condition[]): Condition => ({ type: 'and', terms, place: b.place() });
    expect(spoken(and(is('left', 40), is('right', 40)))).toBe(
      'the left and right oil pressures are at least 40 psi (276 kPa)',
    );
    expect(spoken(and(is('left', 40), is('right', 50)))).toBe(
      'the left oil pressure is at least 40 psi (276 kPa) and the right oil pressure is at least 50 psi (345 kPa)',
    );
  });
  const switches = (quantifier: 'any' | 'every'): Condition => ({
    type: 'quantified',
    quantifier,
    kind: lamp,
    state: 1,
    written: b.is(left as Item, 'on'),
    place: b.place(),
  });
  test.each<[string, Condition]>([
    ['the left and right chip lamps are off', b.and(b.is(left as Item, 'off'), b.is(right as Item, 'off'))],
    ['at least one lamp is on', switches('any')],
    ['no lamp is on', b.not(switches('any'))],
    ['not every lamp is on', b.not(switches('every'))],
    ['the slip is −4 % to +4 %', b.reading(angle, b.range(-4, 4, '%'))],
    ['the slip is −4 % to 0 %', b.reading(angle, b.range(-4, 0, '%'))],
    ['the slip is 4 to 8 %', b.reading(angle, b.range(4, 8, '%'))],
    ['the slip is not 4 to 8 %', b.not(b.reading(angle, b.range(4, 8, '%')))],
    ['the slip is below −4 %', b.not(b.reading(angle, b.atLeast(-4, '%')))],
    ['the slip is above 4 %', b.not(b.reading(angle, b.atMost(4, '%')))],
    ['the left chip lamp is off', b.not(b.not(b.is(left as Item, 'off')))],
    [
      'the left chip lamp is not off or the slip is above 4 %',
      b.not(b.and(b.is(left as Item, 'off'), b.reading(angle, b.atMost(4, '%')))),
    ],
  ])('%s', (text, condition) => expect(spoken(condition)).toBe(text));

  test('the place of several is said once, and each where they differ', () => {
    const at = (side: string, place: string) => b.item(side, lamp, `the ${side} lamp`, { at: place });
    const check = (place: string) =>
      sentence(b.check(b.and(b.is(at('left', 'panel 1'), 'off'), b.is(at('right', place), 'off'))));
    expect(check('panel 1')).toBe('Check that the left and right lamps (panel 1) are off.');
    expect(check('panel 2')).toBe('Check that the left lamp (panel 1) and the right lamp (panel 2) are off.');
  });

  test('two checks that lead to the same are one sentence, and others are not', () => {
    const check = (item: Item | undefined, otherwise = 'Report the lamp.') =>
      b.check(b.is(item as Item, 'off'), b.stop(otherwise));
    const context = contextOf(inputOf(b.card('Card', [])));
    const sentences = (...actions: Action[]) => linesOf(b.step(undefined, actions), context).map((one) => one.sentence);
    expect(sentences(check(left), check(right))).toEqual(['Check that the left and right chip lamps are off.']);
    expect(sentences(check(left), check(right, 'Report both.'))).toHaveLength(2);
    expect(sentences(check(left), b.check(b.is(right as Item, 'on'), b.stop('Report the lamp.')))).toHaveLength(2);
  });
});

test('a plural before its place agrees with its verb', () => {
  const chock = b.kind('chock', { away: 'Remove {}', fitted: 'Fit {}' });
  expect(sentence(b.check(b.is(b.item('c', chock, 'the chocks at the main wheel'), 'fitted')))).toContain('are fitted');
  expect(sentence(b.check(b.is(b.item('b', chock, 'the barriers around the area'), 'fitted')))).toContain('are fitted');
  expect(sentence(b.check(b.is(b.item('c', chock, 'the chock at the main wheels'), 'fitted')))).toContain('is fitted');
});

test.each([
  ['does-not-start', 'the lift', 'the lift does not start', 'it is not so that the lift does not start'],
  ['runs-freely', 'the wheels', 'the wheels run freely', 'it is not so that the wheels run freely'],
  ['touches', 'the brushes', 'the brushes touch', 'it is not so that the brushes touch'],
  ['running', 'the lift', 'the lift is running', 'the lift is not running'],
  ['stopped', 'the wheels', 'the wheels are stopped', 'the wheels are not stopped'],
])('a state that brings its own verb needs no other: %s of %s', (state, label, is, isNot) => {
  const item = b.item('thing', b.kind('thing', { [state]: undefined, else: undefined }), label);
  const context = contextOf(inputOf(b.card('Card', [])));
  expect(conditionText(b.is(item, state), context)).toBe(is);
  expect(conditionText(b.not(b.is(item, state)), context)).toBe(isNot);
});

test('each state of a shipped kind reads well behind “is”', () => {
  const text = readFileSync(join(import.meta.dirname, '../../../server/rulebooks/kinds.card'), 'utf8');
  const kinds = parse(text).file.declarations.filter((declaration) => declaration.type === 'kind');
  const context = contextOf(inputOf(b.card('Card', [])));
  const said = kinds.map(({ name, states }) => {
    const kind = b.kind('thing', Object.fromEntries(states.map((state) => [state.name.text, undefined])));
    const printed = states.map((state) => state.printed?.value);
    const item = b.item(
      'thing',
      { ...kind, states: kind.states.map((one, at) => ({ ...one, printed: printed[at] })) },
      `the ${name?.text.replaceAll('-', ' ')}`,
    );
    return states.map((state) => conditionText(b.is(item, state.name.text), context)).join(', ');
  });
  expect(said.length).toBeGreaterThan(40);
  expect(`\n${said.join('\n')}\n`).toMatchInlineSnapshot(`
    "
    the valve is closed, the valve is open
    the door is closed, the door is open
    the panel is fitted, the panel is removed
    the cover is fitted, the cover is removed
    the cap is fitted, the cap is removed
    the plug is connected, the plug is disconnected
    the hose is connected, the hose is disconnected
    the drain is closed, the drain is open
    the gate is closed, the gate is open
    the guard is fitted, the guard is removed
    the latch is locked, the latch is released
    the breaker is closed, the breaker is open, the breaker is pulled
    the switch is OFF, the switch is ON
    the selector is at OFF, the selector is at AUTO, the selector is at ON
    the button is released, the button is pressed
    the isolator is open, the isolator is closed, the isolator is locked open
    the contactor is open, the contactor is closed
    the fuse is fitted, the fuse is removed
    the battery is connected, the battery is disconnected
    the key is removed, the key is fitted
    the chock is removed, the chock is fitted
    the pin is removed, the pin is fitted
    the clamp is open, the clamp is closed
    the brake is released, the brake is set
    the jack is lowered, the jack is raised
    the prop is removed, the prop is fitted
    the lock is removed, the lock is fitted
    the tag is removed, the tag is fitted
    the barrier is removed, the barrier is fitted
    the ground wire is disconnected, the ground wire is connected
    the lever is at OFF, the lever is at ON
    the handle is stowed, the handle is pulled
    the pump is stopped, the pump is running
    the fan is stopped, the fan is running
    the motor is stopped, the motor is running
    the engine is stopped, the engine is running
    the cart is stopped, the cart is running
    the compressor is stopped, the compressor is running
    the conveyor is stopped, the conveyor is running
    the heater is off, the heater is on
    the light is off, the light is on
    the starter is off, the starter is cranking
    the worn is taken off, the worn is on
    the test is due, the test is done, no fault
    the lamp is off, the lamp is on
    the needle is low, the needle is normal, the needle is high
    the sight glass is low, the sight glass is normal, the sight glass is high
    the trip is normal, the trip is tripped
    the flag is out of view, the flag is in view
    "
  `);
});

test('ensure says what to do if it is not so', () => {
  const [line] = said(b.ensure([drain, 'closed']));
  expect(line?.sentence).toBe('Make sure that the drain valve (pump house) is closed.');
  expect(line?.notes).toEqual(['If not: Close the drain valve.']);
});

describe('what takes time', () => {
  const starter = b.item(
    'starter',
    b.kind('starter', { off: 'Release {}', cranking: 'Hold {}' }),
    'the left starter switch',
    {
      normal: 'off',
      duties: [b.longest(1, 30, 60), b.timesThenRest(1, 3, 1800)],
    },
  );

  test('run says how long, how to end, and its duty', () => {
    const [line] = said(b.run(starter, 'cranking', 25));
    expect(line?.sentence).toBe('Hold the left starter switch for 25 s.');
    expect(line?.afterwards).toEqual(['Then release the left starter switch.']);
    expect(line?.notes).toEqual(['Never longer than 30 s, then rest 1 min.', 'After 3 runs rest 30 min.']);
  });

  test('run until says until when at most', () => {
    expect(sentence(b.runUntil(starter, 'cranking', b.reading(voltage, b.atLeast(24, 'V')), 20))).toBe(
      'Hold the left starter switch until the bus voltage is at least 24 V, but no longer than 20 s.',
    );
  });

  test('what is not held by hand is left as it is', () => {
    const pump = b.item('pumps', b.kind('pump', { stopped: 'Stop {}', running: 'Start {}' }), 'the pumps');
    expect(sentence(b.run(pump, 'running', 25))).toBe('Start the pumps and leave them running for 25 s.');
    expect(sentence(b.runUntil(pump, 'running', b.reading(voltage, b.atLeast(24, 'V'))))).toBe(
      'Start the pumps and leave them running until the bus voltage is at least 24 V.',
    );
  });

  test('wait', () => {
    expect(sentence(b.wait(60))).toBe('Wait 1 min.');
    expect(sentence(b.wait(120, 300))).toBe('Wait 2 to 5 min.');
  });
});

test('an inspection is signed by somebody else', () => {
  expect(sentence({ ...b.sign(b.role('inspector', 'Inspector'), 'Pin fitted'), independent: true })).toBe(
    'Pin fitted. Inspected by (not the person who did it): Inspector',
  );
});

test('a text ends as a sentence and is not changed otherwise', () => {
  expect(sentence('Clean the strainer')).toBe('Clean the strainer.');
  expect(sentence('Is it dry?')).toBe('Is it dry?');
  expect(sentence('检查压力。')).toBe('检查压力。');
});

describe('where to go on', () => {
  const end = b.label('end');
  const card = b.card('Card', [
    b.step(undefined, 'One'),
    b.stage('Make safe', [b.step(undefined, 'Two')], { label: end }),
    b.stage('Shut down', [b.step(undefined, 'Three')], { whenStopped: true }),
  ]);
  const context = contextOf(inputOf(card));

  test('is said with the number of the step and the name of its stage', () => {
    expect(failureSentence(b.goTo(end), context)).toBe('If not: go to step 2, “Make safe”.');
  });
  test('a stop leads to the page for it', () => {
    expect(failureSentence(b.stop('Report the starter'), context)).toBe(
      'If not: STOP. Do step 3 (last page). Then report the starter.',
    );
    expect(failureSentence(undefined, context)).toBe('If not: STOP. Do step 3 (last page).');
  });
  test('what is no order does not follow as one', () => {
    expect(failureSentence(b.stop('A valve leaks. Report it'), context)).toBe(
      'If not: STOP. Do step 3 (last page). A valve leaks. Report it.',
    );
    expect(failureSentence(b.stop('P1 is not fit for use'), context)).toBe(
      'If not: STOP. Do step 3 (last page). P1 is not fit for use.',
    );
  });
  test('after a run it is said of what was to be reached, not of what ends the run', () => {
    expect(failureSentence(b.goTo(end), context, 'ifNotReached')).toBe('If not reached: go to step 2, “Make safe”.');
  });
  test('what is waited for without a time does not fail of itself', () => {
    const until = { condition: b.is(b.item('lamp', lamp, 'the lamp'), 'off') };
    const [line] = linesOf(b.step(undefined, [{ type: 'wait', until, place: b.place() }]), context);
    expect(failureSentence(line?.failure?.flow, context, line?.failure?.word)).toBe(
      'If that does not happen: STOP. Do step 3 (last page).',
    );
  });
  test('a label that the draft does not have is said so', () => {
    expect(failureSentence({ type: 'go', place: b.place() }, context)).toBe(
      'If not: go to a step that this draft does not have.',
    );
  });
});

test('numbers of machines in a row are said as a range', () => {
  const unit = { name: 'unit', values: ['1', '2', '3', '4', '5', '7'], numeric: true, place: b.place() };
  const fit = { name: 'fit', values: ['old', 'new'], numeric: false, place: b.place() };
  const which = {
    parts: [
      { variant: unit, values: ['1', '3', '4', '5'] },
      { variant: fit, values: ['old'] },
    ],
    place: b.place(),
  };
  expect(whichText(which, english)).toBe('unit 1 and 3 to 5, fit old');
});

test('parts of a second are kept', () => {
  const line = linesOf(
    b.step(undefined, [
      { ...b.wait(1), length: { least: exact('0.5'), most: exact('0.5'), place: b.place() } } as Action,
    ]),
    contextOf(inputOf(b.card('C', []))),
  );
  expect(line[0]?.sentence).toBe('Wait 0.5 s.');
});
