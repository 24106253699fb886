import { expect, test } from 'vitest';
import { bindTexts } from './support.ts';

const machine = 'kind tap { shut, open }\nitem v : tap normally shut\ngauge g in psi { limit low below 5 psi }';
const card = `use "machine.card"
procedure p(x: tap) { step set x open }
card c "C" { crew m "M" step one: by m { check v open   read g in low } do p(v) do p(v) go to one }`;
const bound = bindTexts({ 'machine.card': machine, 'a.card': card });

/** What the name at the mark `|` stands for. */
function declarationAt(before: string) {
  const start = card.indexOf(before) + before.length;
  const use = bound.references.uses.find(({ place }) => place.file === 'a.card' && place.start === start);
  return use && `${use.declared.sort} ${use.declared.name} in ${use.declared.place.file}`;
}

test.each([
  ['p(x: ', 'kind tap in machine.card'],
  ['set ', 'parameter x in a.card'],
  ['set x ', 'state open in machine.card'],
  ['check ', 'item v in machine.card'],
  ['read g in ', 'limit low in machine.card'],
  ['by ', 'role m in a.card'],
  ['go to ', 'label one in a.card'],
  ['do ', 'procedure p in a.card'],
])('after %s stands a name of %s', (before, declared) => {
  expect(declarationAt(before)).toBe(declared);
});

test('a procedure that is done twice has each of its names once', () => {
  const starts = bound.references.uses.map(({ place }) => `${place.file} ${place.start}`);
  expect(new Set(starts).size).toBe(starts.length);
  expect(bound.references.declared.filter(({ sort }) => sort === 'parameter')).toHaveLength(1);
});

test('parts know what they belong to', () => {
  const low = bound.references.declared.find(({ sort }) => sort === 'limit');
  expect(low?.owner).toMatchObject({ sort: 'gauge', name: 'g' });
});

test('a role in a procedure stands for that of each card which does it', () => {
  const { references } = bindTexts({
    'a.card':
      'procedure p() { step by m "Look." }\ncard a "A" { crew m "M" do p do p }\ncard b "B" { crew m "M" do p }',
  });
  const roles = references.uses.filter(({ declared }) => declared.sort === 'role');
  expect(roles.map(({ declared }) => declared.owner?.name)).toEqual(['a', 'b']);
});
