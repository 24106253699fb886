/** The data in an exported card, written small. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { packed, unpacked } from '../../shared/packed.ts';

const carried = (value: unknown) => unpacked(packed(value));

test('whatever JSON holds is the same again', () => {
  const sorted = fc.record({ type: fc.oneof(fc.string(), fc.integer()), text: fc.jsonValue() });
  fc.assert(
    fc.property(fc.array(fc.oneof(fc.jsonValue(), sorted)), (value) => {
      expect(carried(value)).toEqual(JSON.parse(JSON.stringify(value)));
    }),
  );
});

test('what occurs again takes next to no room', () => {
  const step = (number: number) => ({ type: 'unit', number, who: 'Ground observer', exit: { text: 'If not: stop.' } });
  const steps = Array.from({ length: 50 }, (_, at) => step(at));
  expect(packed(steps).length).toBeLessThan(3 * packed(steps.slice(0, 1)).length);
});

test('letters of every alphabet and halves of letters come back', () => {
  const texts = ['größer als −4 °C', 'насос', '\ud800', '\u202e'];
  expect(carried(texts)).toEqual(texts);
  expect(packed(texts)).toMatch(/^[\w+/=]+$/);
});

test('parts without a value are left out, as JSON leaves them out', () => {
  expect(carried({ a: undefined, b: [undefined] })).toEqual({ b: [null] });
});
