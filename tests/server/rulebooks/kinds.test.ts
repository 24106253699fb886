import { expect, test } from 'vitest';
import { parse } from '../../../grammar/parse.ts';
import { bind } from '../../../server/binding/bind.ts';

test('each kind has two states or more, worded so that an order can be made of them, or not at all where it is only seen', () => {
  const { equipment } = bind('std:kinds', () => undefined);
  for (const { name, seen, states } of equipment.kinds) {
    expect(states.length, name).toBeGreaterThan(1);
    for (const { wording, others = [] } of states) {
      expect(wording?.includes('{}') ?? false, `${name}: ${wording}`).toBe(!seen);
      for (const other of others) expect(other, name).toMatch(/^[A-Z][a-z ]* ?\{\}( [a-zA-Z ]+)?$/);
    }
    const all = states
      .flatMap(({ wording, others = [] }) => [wording, ...others])
      .filter((words) => words !== undefined);
    expect(new Set(all).size, `${name}: no sentence is of two states`).toBe(all.length);
  }
});

test('a small card needs no kinds of its own', () => {
  const text = 'item main : valve "the main valve"   card c "C" { crew m "M" step by m set main closed }';
  expect(bind('a.card', () => parse(text)).problems).toEqual([]);
});
