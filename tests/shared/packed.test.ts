/** The data in an exported card, written small. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { packed, unpacked } from '../../shared/packed.ts';

const carried = (value: unknown) => unpacked(JSON.parse(JSON.stringify(packed(value))));

test('whatever JSON holds is the same again', () => {
  const sorted = fc.record({ type: fc.oneof(fc.string(), fc.integer()), text: fc.jsonValue() });
  fc.assert(
    fc.property(fc.array(fc.oneof(fc.jsonValue(), sorted)), (value) => {
      expect(carried(value)).toEqual(JSON.parse(JSON.stringify(value)));
    }),
  );
});

test('what occurs again is written once, and so are the names of its parts', () => {
  const step = (number: number) => ({ type: 'unit', number, who: 'Ground observer', exit: { text: 'If not: stop.' } });
  const written = JSON.stringify(packed([step(1), step(2), step(3)]));
  for (const once of ['unit', 'number', 'Ground observer', 'If not: stop.'])
    expect(written.split(once), once).toHaveLength(2);
});

test('parts without a value are left out, as JSON leaves them out', () => {
  expect(carried({ a: undefined, b: [undefined] })).toEqual({ b: [null] });
});
