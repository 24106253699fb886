/** Work in parts that several drive. */
import { expect, test } from 'vitest';
import { finish, type InParts, Once } from '../../shared/parts.ts';

test('it is done once, whoever drives it, and each gets the result', () => {
  const done: string[] = [];
  const once = new Once(function* (): InParts<string> {
    for (const part of ['first', 'second', 'third']) {
      done.push(part);
      yield;
    }
    return 'made';
  });
  const [one, other] = [once.inParts(), once.inParts()];
  expect([one.next(), other.next(), one.next(), other.next()].map(({ value }) => value)).toEqual([
    undefined,
    undefined,
    undefined,
    'made',
  ]);
  expect(one.next()).toEqual({ done: true, value: 'made' });
  expect(once.result).toBe('made');
  expect(done).toEqual(['first', 'second', 'third']);
});

test('what was begun and left is taken up where it was', () => {
  let parts = 0;
  const once = new Once(function* (): InParts<number> {
    for (; parts < 3; parts++) yield;
    return parts;
  });
  once.inParts().next();
  expect(finish(once.inParts())).toBe(3);
});

test('where it throws, each that asks gets what was thrown', () => {
  const broken = new Error('broken');
  // biome-ignore lint/correctness/useYield: the work fails before its first part ends
  const once = new Once(function* (): InParts<void> {
    throw broken;
  });
  expect(() => once.result).toThrow(broken);
  expect(() => once.result).toThrow(broken);
});
