/** What of a card is silent to a question of time, told by what happens on its moves. */
import { expect, test } from 'vitest';
import { buildFlow } from '../../../server/flow/build.ts';
import type { Happening, Move } from '../../../server/flow/graph.ts';
import { conditionsOf } from '../../../server/proof/exploring/ask.ts';
import { FlowIndex } from '../../../server/proof/slicing/flow-index.ts';
import { silentMoves } from '../../../server/proof/time/silence.ts';
import { mainFile, openText } from '../../support/check.ts';
import { card, kinds } from './prove.ts';

const machine = `${kinds}
item lid, cap, drain : valve normally closed
item loose : valve normally closed may open
item hanging : valve normally closed may open when cap open
item relay : lamp
gauge oil "oil" in psi { reads 0 to 100 }
gauge fuel "fuel" in psi { reads 0 to 100 moved by lid }
`;

interface Heard {
  readonly items?: readonly string[];
  readonly gauges?: readonly string[];
  /** Whether every path may take a conditional move, and whether none does. */
  readonly isFree?: boolean;
  readonly isClosed?: boolean;
  readonly before?: string;
}

/** What speaks of the moves of a card: what is not silent to a question about these things. */
function speaking(
  body: string,
  { items = [], gauges = [], isFree = false, isClosed = false, before = '' }: Heard,
): string[] {
  const bound = openText([machine, before, card(body)].join('\n'))
    .workspace.snapshot(mainFile)
    ?.bound.cards.at(-1);
  if (!bound) throw new Error('no card in the text');
  const flow = buildFlow(bound, { includes: () => true });
  const isSilent = silentMoves(
    new FlowIndex(flow, conditionsOf(bound)),
    { isFree: () => isFree, isClosed: () => isClosed },
    {
      items: bound.equipment.items.filter(({ name }) => items.includes(name)),
      gauges: bound.equipment.gauges.filter(({ name }) => gauges.includes(name)),
    },
  );
  const spoken = flow.moves.filter((move) => !isSilent(move)).map(tell);
  return [...new Set(spoken)].filter((told) => told !== 'finish' && told !== 'stopped');
}

function tell({ happening, time }: Move): string {
  const lasts = time.most > 0 ? ' in time' : '';
  return `${words(happening)}${lasts}`;
}

function words(happening: Happening): string {
  return 'item' in happening ? `${happening.type} ${happening.item.name}` : happening.type;
}

test('a change of what is heard speaks, any other is silent', () => {
  const body = 'warning burns step { set lid open run cap open for 5 s wait 1 s } step "Look."';
  const before = 'hazard burns "burns" while drain open { warning "Hot." }';
  expect(speaking(body, { items: ['lid'], before })).toEqual(['set lid']);
  expect(speaking(body, { items: ['cap'], before })).toEqual(['begin cap', 'end cap']);
  expect(speaking(body, { items: ['drain'], before })).toEqual([]);
});

test('where anything that is heard moves by itself, every moment speaks', () => {
  const body = 'step { set lid open wait 1 s }';
  expect(speaking(body, { items: ['drain', 'loose'] })).toEqual(['set lid', 'moment in time']);
  expect(speaking(body, { items: ['drain', 'relay'] })).toEqual(['set lid', 'moment in time']);
});

test('where a reading is heard, every moment speaks', () => {
  const body = 'step { set lid open wait 1 s }';
  expect(speaking(body, { gauges: ['oil'] })).toEqual(['set lid', 'moment in time']);
  expect(speaking(`${body} step takes 0 s check oil above 5 psi`, { items: ['drain'] })).toEqual([
    'set lid',
    'moment in time',
    'moment',
    'assume',
    'stopping',
  ]);
});

test('what a way hangs on is heard, and what that hangs on in turn', () => {
  const body =
    'step takes 0 s { set cap open } step takes 0 s if lid open or drain open { step takes 0 s set drain open }';
  expect(speaking(body, {})).toEqual(['assume', 'set drain']);
  const hangs = 'step takes 0 s set cap open if hanging open { step takes 0 s set lid open }';
  expect(speaking(hangs, {})).toContain('set cap');
});

test('a way that every path may take is silent, unless it tells something of what is heard', () => {
  const body =
    'step takes 0 s { set lid open set drain open } if lid open or drain open { step takes 0 s set cap open }';
  expect(speaking(body, { isFree: true })).toEqual([]);
  expect(speaking(body, { isFree: true, items: ['cap'] })).toEqual(['set cap']);
  expect(speaking(body, { isFree: true, items: ['drain'] })).toEqual(['set lid', 'set drain', 'assume']);
  const reading = 'step takes 0 s set lid open step takes 0 s check fuel above 5 psi or cap open';
  expect(speaking(reading, { isFree: true, gauges: ['fuel'] })).toContain('assume');
  expect(speaking(reading, { isFree: true, items: ['drain'] })).toEqual(['stopping']);
});

test('what no path takes hangs on nothing', () => {
  const body = 'step takes 0 s set lid open if lid open { step takes 0 s set cap open }';
  expect(speaking(body, { isClosed: true })).toEqual([]);
});

test('where it is asked how long something heard has been so, all that takes time speaks', () => {
  const body = 'step { set cap open wait 1 s } step takes 0 s check lid open for at least 5 s';
  expect(speaking(body, {})).toEqual(['moment in time', 'assume', 'stopping']);
  expect(speaking(body, { isFree: true, items: ['cap'] })).toEqual(['set cap', 'stopping']);
});

test('a card that is done speaks where it assumes what is heard', () => {
  const before =
    'card tidy "Tidy" { number "T-2" revision "A" assume lid open because "So it was left." assume cap open because "So it was left." }';
  expect(speaking('do tidy', { before, items: ['cap'] })).toEqual(['call']);
  expect(speaking('do tidy', { before, items: ['lid', 'cap'] })).toEqual(['call']);
  expect(speaking('do tidy', { before, items: ['drain'] })).toEqual([]);
});

test('the least time that there is speaks as well', () => {
  const body = 'step wait 0.000001 s step takes 0 s check lid open for at least 5 s';
  expect(speaking(body, {})).toContain('moment in time');
});
