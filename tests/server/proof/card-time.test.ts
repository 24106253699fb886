/** What a card takes, as a whole and for each role. */
import { expect, test } from 'vitest';
import { card, kinds, proofOf } from './prove.ts';

const machine = `${kinds} variant fit old, new item drain : valve "the drain valve" normally closed`;

function times(body: string, fields = '') {
  const { proof } = proofOf(`${machine} ${card(body, fields)}`);
  const told = ({ least, most }: typeof proof.time) => `${least.valueOf()} to ${most?.valueOf() ?? 'any'}`;
  return {
    all: told(proof.time),
    ...Object.fromEntries(proof.timePerRole.map(({ role, time }) => [role.name, told(time)])),
  };
}

const nothing = '0 to 0';

test('a step by nobody is by all', () => {
  expect(times('step takes 5 s "Look."')).toEqual({ all: '5 to 5', one: '5 to 5', two: '5 to 5', three: '5 to 5' });
});

test('what runs and waits takes the time of who does it', () => {
  expect(times('step by one { wait 3 s to 4 s } step by two { wait at least 2 s }')).toEqual({
    all: '5 to any',
    one: '3 to 4',
    two: '2 to any',
    three: nothing,
  });
});

test('the quickest and the slowest way to a finish; a stop does not count', () => {
  expect(
    times(
      'if "Wet?" { step takes 9 s "Dry it." } else { step takes 2 s "Look." } step takes 1 s check "Well?" step takes 1 s "Go."',
    ).all,
  ).toBe('4 to 11');
  expect(times('if "Wet?" { step takes 2 s "Look." finish } step takes 10 s "Go." stop "Enough."').all).toBe('2 to 2');
});

test('rounds', () => {
  expect(times('repeat 3 times { step takes 2 s "Look." }').all).toBe('6 to 6');
  expect(times('repeat at most 3 times until "Dry?" { step takes 2 s "Look." }').all).toBe('2 to 6');
  expect(times('step again: takes 2 s "Look." if "Again?" { go to again }').all).toBe('2 to any');
});

test('lanes take as long as the longest, and a role as long as its own', () => {
  expect(
    times(
      'together { by one { step takes 2 s to 8 s "Look." } by two { step takes 5 s "Listen." step takes 1 s "Feel." } }',
    ),
  ).toEqual({ all: '6 to 8', one: '2 to 8', two: '6 to 6', three: nothing });
});

test('a role is busy in its own steps of a lane', () => {
  expect(
    times(
      'together { by one { step takes 2 s "Look." step by three takes 1 s "Feel." } by two { step takes 5 s "Listen." } } step by three takes 9 s "Go."',
    ),
  ).toEqual({ all: '14 to 14', one: '2 to 2', two: '5 to 5', three: '10 to 10' });
});

test('over all sorts of machine the least and the most', () => {
  expect(times('step by one only fit old takes 2 s "Look." step by one only fit new takes 3 s to 7 s "Look."')).toEqual(
    {
      all: '2 to 7',
      one: '2 to 7',
      two: nothing,
      three: nothing,
    },
  );
});

test('a card that never finishes takes no time that could be told', () => {
  expect(times('step takes 5 s "Look." stop "Enough."').all).toBe(nothing);
});

test('a finish within rounds is one whatever the round', () => {
  expect(times('repeat 3 times { step takes 2 s "Look." if "Enough?" { finish } }').all).toBe('2 to 6');
  expect(
    times('repeat 2 times { repeat 3 times { step takes 1 s "Look." if "Enough?" { finish } } step takes 5 s "Rest." }')
      .all,
  ).toBe('1 to 16');
});

test('lanes in which nothing is done take no time', () => {
  expect(times('together { by one { } by two { } }').all).toBe(nothing);
});
