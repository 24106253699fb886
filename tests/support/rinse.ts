/** The rinse of the left compressor as a bound card: what the binder makes of samples/water-scooper, by hand and shortened. */

import type { RenderInput } from '../../server/render/input.ts';
import type { Card, Item } from '../../shared/card.ts';
import { exact } from '../../shared/exact.ts';
import * as b from './card-builder.ts';

export function rinseCard(): Card {
  const breaker = b.kind('breaker', { closed: 'Close {}', pulled: 'Pull and tag {}' });
  const valve = b.kind('valve', { closed: 'Close {}', open: 'Open {}' });
  const plug = b.kind('plug', { apart: 'Disconnect {}', connected: 'Connect {}' });
  const chock = b.kind('chock', { away: 'Remove {}', fitted: 'Put {} in place' });
  const lever = b.kind('lever', { cutoff: 'Move {} to CUTOFF', run: 'Move {} to RUN' });
  const cart = b.kind('cart', { stopped: 'Stop {}', running: 'Start {}' });
  const starterKind = b.kind('starter', { off: 'Release {}', cranking: 'Hold {}' });
  const worn = b.kind('worn', { away: 'Take off {}', on: 'Put on {}' });

  const chocks = b.item('wheel-chocks', chock, 'the chocks at the main wheels', { normal: 'fitted' });
  const breakers = b.item('ignition-breakers', breaker, 'the ignition circuit breakers', {
    at: 'panel C3, row 2',
    normal: 'closed',
  });
  const fuelLever = b.item('fuel-lever-1', lever, 'the left fuel lever', {
    at: 'centre pedestal',
    normal: 'cutoff',
    verify: true,
  });
  const groundPower = b.item('ground-power', plug, 'the ground power plug', { at: 'left nose bay', normal: 'apart' });
  const powerCart = b.item('power-cart', cart, 'the ground power cart', { normal: 'stopped' });
  const washValve = b.item('wash-valve-1', valve, 'the left wash valve', { at: 'left nacelle', normal: 'closed' });
  const defenders = b.item('ear-defenders', worn, 'ear defenders');
  const starter: Item = b.item('starter-1', starterKind, 'the left starter switch', {
    at: 'overhead panel',
    normal: 'off',
    duties: [b.longest(1, 30, 60), b.timesThenRest(1, 3, 1800)],
  });

  const voltage = b.gauge('bus-voltage', 'V', 'bus voltage', {
    at: 'overhead panel',
    reads: { from: exact(0), to: exact(32), by: exact('0.5'), place: b.place() },
  });
  const cranking = b.limit('cranking', voltage, b.atLeast(24, 'V'));
  const speed = b.gauge('ng-1', '%', 'left gas generator speed');
  const pressure = b.gauge('wash-pressure', 'psi', 'wash water pressure', {
    reads: { from: exact(0), to: exact(100), by: exact(2), place: b.place() },
  });
  const spray = b.limit('spray', pressure, b.range(40, 60, 'psi'));

  const noise = b.hazard(
    'noise',
    'warning',
    b.is(powerCart, 'running'),
    'Noise can damage your hearing. Wear ear defenders.',
  );
  const turning = b.hazard(
    'turning',
    'danger',
    b.is(starter, 'cranking'),
    'A turning propeller can kill. Keep everyone out of the marked area.',
  );
  const cockpit = b.role('cockpit', 'Cockpit', 'Licensed engineer, engines');
  const ground = b.role('ground', 'Ground observer');
  const noPower = b.label('no-power');

  return b.card(
    'Rinse the left compressor after a salt-water sortie',
    [
      b.admonition('caution', 'Metal near the engine is hot for an hour after the flight.'),
      b.stage('Make the aircraft safe', [
        b.step(ground, [b.set([chocks, 'fitted'])]),
        b.step(cockpit, [b.set([breakers, 'pulled'])]),
        b.step(cockpit, [b.set([fuelLever, 'cutoff'])]),
      ]),
      b.stage('Bring power to the aircraft', [
        b.admonition('warning', noise),
        b.step(ground, [b.set([defenders, 'on'])]),
        b.step(ground, [b.set([groundPower, 'connected'])]),
        b.step(ground, [b.set([powerCart, 'running'])], { takes: b.span(120, 300) }),
        b.step(cockpit, [b.read(voltage, b.within(voltage, cranking), b.goTo(noPower))]),
      ]),
      b.stage('Rinse', [
        b.admonition('danger', turning),
        b.step(ground, [b.set([washValve, 'open']), b.read(pressure, b.within(pressure, spray))]),
        b.repeat(2, [
          b.step(cockpit, [
            b.run(starter, 'cranking', 25, [
              b.watch(speed, 'reaches', b.reading(speed, b.atLeast(12, '%')), 10, b.stop('Report the starter.')),
            ]),
          ]),
          b.step(cockpit, [b.wait(60)]),
        ]),
      ]),
      b.stage('Make safe', [b.step(ground, [b.set([powerCart, 'stopped'])])], { whenStopped: true }),
      b.stage(
        'Put everything back',
        [
          b.step(ground, [b.set([washValve, 'closed'])]),
          b.step(ground, [b.set([powerCart, 'stopped']), b.set([groundPower, 'apart'])]),
          b.step(ground, [b.set([defenders, 'away'])]),
          b.step(cockpit, [b.set([breakers, 'closed'])]),
          b.sign(cockpit, 'Work done'),
        ],
        { label: noPower },
      ),
    ],
    {
      number: b.words('MG-72-03'),
      revision: { ...b.words('B'), date: '2026-10-02' },
      crew: [cockpit, ground],
      tools: [b.words('Wash cart with 20 L of drinking water')],
    },
  );
}

export function inputOf(card: Card, more: Partial<RenderInput> = {}): RenderInput {
  return {
    card,
    findings: [],
    accepted: [],
    beforeYouStart: [],
    atEnd: [],
    figures: new Map(),
    settings: { secondUnits: 'metric', paper: 'A4', print: 'full', record: 'neutral' },
    withPositions: false,
    ...more,
  };
}

/** What the proof says of the rinse. */
export function rinseInput(more: Partial<RenderInput> = {}): RenderInput {
  const card = rinseCard();
  const item = (name: string): Item => itemsOf(card).find((one) => one.name === name) as Item;
  return inputOf(card, {
    times: {
      least: exact(290),
      perRole: [
        { role: 'cockpit', least: exact(170) },
        { role: 'ground', least: exact(120), most: exact(300) },
      ],
    },
    beforeYouStart: [{ type: 'rested', item: item('starter-1'), rest: exact(1800) }],
    atEnd: [
      { item: item('ignition-breakers'), states: [0], putBack: true },
      { item: item('wash-valve-1'), states: [0], putBack: true },
    ],
    ...more,
  });
}

function itemsOf(card: Card): readonly Item[] {
  const found: Item[] = [];
  const visit = (value: unknown): void => {
    if (Array.isArray(value)) value.forEach(visit);
    else if (value && typeof value === 'object') {
      if ('item' in value) found.push(value.item as Item);
      if ('body' in value) visit(value.body);
      if ('actions' in value) visit(value.actions);
      if ('changes' in value) visit(value.changes);
    }
  };
  visit(card.body);
  return found;
}
