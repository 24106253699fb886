/** What may be so at a place, over all paths. */
import { expect, test } from 'vitest';
import { finish } from '../../../shared/parts.ts';
import { card, kinds, proofOf } from './prove.ts';

const machine = [
  kinds,
  'variant fit old, new',
  'item drain : valve "the drain valve" normally closed',
  'item cap : valve "the cap"',
  'item lid : valve "the lid" normally closed verify',
].join('\n');

function statesAt(mark: string, body: string): Record<string, string> {
  const text = `${machine}\n${card(body)}`;
  const { proof, items } = proofOf(text);
  const start = text.lastIndexOf(mark);
  const place = { file: 'main.card', start, end: start + mark.length };
  const states = finish(proof.statesAt(place, items));
  return Object.fromEntries(
    states.map(({ item, states: some }) => [item.name, some.map((state) => item.kind.states[state]?.name).join(' ')]),
  );
}

test('before what happens there, over all ways to it', () => {
  const body = 'if "Wet?" { step set drain open } step { wait 1 s } step set cap closed step { wait 2 s }';
  expect(statesAt('set drain open', body)).toEqual({ drain: 'closed', cap: 'closed open', lid: 'closed open' });
  expect(statesAt('wait 1 s', body)).toEqual({ drain: 'closed open', cap: 'closed open', lid: 'closed open' });
  expect(statesAt('wait 2 s', body)).toEqual({ drain: 'closed open', cap: 'closed', lid: 'closed open' });
});

test('a check is known behind it', () => {
  const body = 'step { check lid open } step { wait 1 s }';
  expect(statesAt('check lid open', body).lid).toBe('closed open');
  expect(statesAt('wait 1 s', body).lid).toBe('open');
});

test('at the head of a step and at all of it, as where it begins', () => {
  const body = 'step { set drain open } step { check lid open }';
  expect(statesAt('step { check lid open }', body)).toEqual({ drain: 'open', cap: 'closed open', lid: 'closed open' });
});

test('over all sorts of machine', () => {
  const body = 'step only fit old set drain open step { wait 1 s }';
  expect(statesAt('wait 1 s', body).drain).toBe('closed open');
});

test('where no path comes, and where nothing is, nothing is told', () => {
  expect(statesAt('wait 1 s', 'finish step { wait 1 s }')).toEqual({});
  expect(statesAt('trial', 'step { wait 1 s }')).toEqual({});
});
