/** What goes by itself: lamps, trips, and items that may come to a state while something is so. */
import { expect, test } from 'vitest';
import { card, kinds, proofOf } from './prove.ts';

const drain = 'item drain : valve "the drain valve" normally closed';
const lid = 'item lid : valve "the lid" normally closed';

function broken(equipment: readonly string[], body: string, fields = ''): string[] {
  const { proof, at } = proofOf([kinds, ...equipment, card(body, fields)].join('\n'));
  return proof.rules.map(({ rule, place }) => `${rule.name}: ${at(place)}`);
}

const held = (require: string) => `rule held "Held" { while drain open require ${require} }`;
const undo = 'set drain closed';

test('an item that may go by itself has gone after each thing that takes its time', () => {
  const trip = 'item trip : breaker "the trip" normally closed may pulled';
  const safe = [drain, trip, 'rule held "Held" { before drain open require trip closed }'];
  expect(broken(safe, `step { wait 1 s set drain open ${undo} }`)).toEqual(['held: set drain open']);
  expect(broken(safe, `step { wait 1 s set trip closed set drain open ${undo} }`)).toEqual(['held: set drain open']);
  expect(broken(safe, `step { wait 1 s check trip closed set drain open ${undo} }`)).toEqual([]);
  expect(broken(safe, `step "Look." step { check trip closed set drain open ${undo} }`)).toEqual([]);
  expect(broken(safe, `step { check trip closed } step "Look." step { set drain open ${undo} }`)).toEqual([
    'held: set drain open',
  ]);
});

test('it goes only while its condition holds', () => {
  const trip = 'item trip : breaker "the trip" normally closed may pulled when lid open';
  const equipment = [drain, lid, trip, held('trip closed')];
  expect(broken(equipment, `step { set drain open wait 1 s ${undo} }`)).toEqual([]);
  expect(broken(equipment, `step { set drain open set lid open ${undo} set lid closed set trip closed }`)).toEqual([
    'held: set lid open',
  ]);
  expect(broken(equipment, `step { set lid open set lid closed set drain open ${undo} }`)).toEqual([
    'held: set drain open',
  ]);
});

test('one may set off another', () => {
  const first = 'item first : breaker "the first" normally closed may pulled when lid open';
  const second = 'item second : breaker "the second" normally closed may pulled when first pulled';
  const body = `step { set lid open check second closed set lid closed set drain open ${undo} }`;
  const kept = held('second closed');
  expect(broken([drain, lid, second, first, kept], body)).toEqual(['held: set drain open']);
});

test('what may go back and forth may be in either state', () => {
  const flap = 'item flap : valve "the flap" normally closed may open may closed';
  expect(broken([drain, flap, held('flap closed or flap open')], `step { wait 1 s set drain open ${undo} }`)).toEqual(
    [],
  );
  expect(broken([drain, flap, held('flap open')], `step { wait 1 s set drain open ${undo} }`)).toEqual([
    'held: set drain open',
  ]);
});

test('what broke by itself in some of the states that set it off is not told again at the first touch', () => {
  const equipment = [
    'item drain : valve "the drain valve"',
    'item cap : valve "the cap"',
    'item trip : breaker "the trip" normally closed may pulled',
    'rule held "Held" { while drain open or cap open require trip closed or drain closed }',
  ];
  expect(broken(equipment, 'step { wait 1 s set cap closed }')).toEqual(['held: wait 1 s']);
  expect(broken(equipment, 'step "Look." step { wait 1 s }')).toEqual(['held: step "Look."']);
});

test('what broke by itself before anything was touched is not told again at the first touch', () => {
  const trip = 'item trip : breaker "the trip" normally closed may pulled';
  const open = 'item drain : valve "the drain valve" normally open';
  const equipment = [open, trip, held('trip closed')];
  const look = 'step "Look."';
  expect(broken(equipment, `${look} step { wait 1 s }`)).toEqual([`held: ${look}`]);
  expect(broken(equipment, `${look} step { check trip pulled wait 1 s }`)).toEqual([`held: ${look}`]);
  expect(broken(equipment, `${look} step { check trip pulled wait 1 s }`, 'assume trip pulled')).toEqual([
    'held: wait 1 s',
  ]);
});

test('where it may already have gone, it is told once', () => {
  const trip = 'item trip : breaker "the trip" normally closed may pulled';
  expect(broken([drain, trip, held('trip closed')], `step { set drain open wait 1 s wait 2 s ${undo} }`)).toEqual([
    'held: set drain open',
  ]);
});

test('it is told again where it is set so, if only in some of the states in which it has not gone', () => {
  const equipment = [
    drain,
    'item cap : valve "the cap"',
    'item trip : breaker "the trip" normally closed may pulled',
    held('trip closed or cap open'),
  ];
  expect(broken(equipment, `step { set drain open set trip pulled ${undo} }`)).toEqual([
    'held: set drain open',
    'held: set trip pulled',
  ]);
});

test('a lamp that was looked at may be otherwise after the next thing', () => {
  const lamp = 'item lamp-1 : lamp "the lamp"';
  const rule = 'rule lit "Lit" { before drain open require lamp-1 lit }';
  const after = (between: string) =>
    broken([drain, lid, lamp, rule], `step { check lamp-1 lit ${between} set drain open ${undo} set lid closed }`);
  expect(after('')).toEqual([]);
  expect(after('check lid closed')).toEqual([]);
  expect(after('set lid open')).toEqual(['lit: set drain open']);
  expect(after('run lid open for 1 s')).toEqual(['lit: set drain open']);
});

test('a before is not triggered by what goes by itself', () => {
  const flap = 'item flap : valve "the flap" normally closed may open';
  const rule = 'rule never "Never" { before flap open require drain open }';
  expect(broken([drain, flap, rule], 'step wait 1 s step { set flap closed }')).toEqual([]);
  expect(broken([drain, flap, rule], 'step { set flap open set flap closed }')).toEqual(['never: set flap open']);
});

test('where nothing that is set would do, a rule hangs on what is only seen, not on what may move beside it', () => {
  const equipment = [
    drain,
    lid,
    'item lamp-1 : lamp "the lamp"',
    'item trip : breaker "the trip" normally closed may pulled when lid open',
    held('trip closed and lamp-1 lit'),
  ];
  const [told] = proofOf([kinds, ...equipment, card(`step { set drain open ${undo} }`)].join('\n')).proof.rules;
  expect(told?.mend).toBeUndefined();
  expect(told?.hangsOn).toMatchObject([{ item: { name: 'lamp-1' }, state: 1 }]);
});

test('that an item may go back by itself is no part of the path on which it does not', () => {
  const valve = 'item k : valve "the valve" normally closed may closed';
  const { proof } = proofOf([kinds, valve, card('step set k open step "Look."')].join('\n'));
  expect(proof.leftChanged.map(({ path }) => path.map(({ happens }) => happens.type))).toEqual([['set']]);
});
