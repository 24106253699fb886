import { expect, test } from 'vitest';
import { exact } from '../../client/work-copy/exact.ts';

test('the numbers of a work copy are exact, and written in six places at most', () => {
  expect(exact('0.1').add(exact('0.2')).compare(exact('0.3'))).toBe(0);
  expect(exact('68').sub(exact('32')).mul(exact('5/9')).toString()).toBe('20');
  expect(exact('-0.5').toString()).toBe('-0.5');
  expect(exact('1').div(exact('-3')).toString()).toBe('-0.333333');
  expect(exact('-2').div(exact('3')).toString()).toBe('-0.666667');
  expect(exact('100').toString()).toBe('100');
  expect(exact('-0.0000001').toString()).toBe('0');
  expect(exact('-1/3').compare(exact('-0.34'))).toBe(1);
});
