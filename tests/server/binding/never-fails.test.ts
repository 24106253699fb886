/** Binding never throws, whatever is missing from the text. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse } from '../../../grammar/parse.ts';
import type { Parsed } from '../../../grammar/syntax.ts';
import { type Bound, bind } from '../../../server/binding/bind.ts';
import { merganser, rinse } from './water-scooper.ts';

/** Uses what the example does not. */
const rest = `
use "merganser.card"
variant unit 1 to 4
gauge oat "outside" in degC { reads -40 to 60 by 2 moved by wash-valve-1 limit normal by bus-voltage { below 5 V: 1 to 2 degC, at least 5 V: exactly 5 degC +/- 1 degF } }
gauge d in degC = oat - oat
procedure p(v: valve, g: gauge) "P" { step a: by cockpit { ensure v open   bring g in normal within 5 s else go to a } do q(v) }
procedure q(v: valve) { for each x in v, wash-valve-1 { step set x closed } }
card c "C" {
  revision "A" applies unit 2 to 3 assume wash-valve-1 open because "So." leaves wash-valve-1 open
  keep any valve closed for at least 5 min else finish
  together { by a { step "One" } by b { step record "Two" in psi } }
  choose { "One" { do p(wash-valve-1, oat) } or "Two" { do rinse-left } }
  repeat at most 3 times until oat reaches full { figure "a.png" "B" } else stop "No."
  if dc-power reaches left-bus { caution "A" "B" only unit 1 } else if not oat at least 5 degC { accept limit.looser because "x" }
}`;

/** The file `rest.card`, which uses the other two. */
function bindRest(merganserParsed: Parsed, rinseParsed: Parsed, text: string): Bound {
  const files = new Map([
    ['merganser.card', merganserParsed],
    ['rinse.card', rinseParsed],
    ['rest.card', parse(`use "rinse.card"${text}`)],
  ]);
  return bind('rest.card', (path) => files.get(path));
}

test('while a file is typed', () => {
  const used = [parse(merganser), parse(rinse)] as const;
  for (let length = 0; length <= rest.length; length += 3) {
    expect(bindRest(...used, rest.slice(0, length)).file).toBe('rest.card');
  }
});

test('where words are taken out, doubled or put elsewhere', () => {
  const words = (text: string) => text.split(/(?<=\s)/);
  const all = words(merganser + rinse + rest);
  const slip = fc.tuple(fc.nat(), fc.constantFrom(...all), fc.nat({ max: 2 }));
  const mangled = (text: string, slips: readonly [number, string, number][]) => {
    const parts = words(text);
    for (const [at, word, taken] of slips) parts.splice(at % parts.length, taken, word);
    return parts.join('');
  };
  const someSlips = fc.array(slip, { maxLength: 5 });
  fc.assert(
    fc.property(someSlips, someSlips, someSlips, (a, b, c) => {
      const bound = bindRest(parse(mangled(merganser, a)), parse(mangled(rinse, b)), mangled(rest, c));
      expect(bound.equipment.items.every(({ id }, index) => id === index)).toBe(true);
      expect(bound.references.uses.every(({ place }) => place.start < place.end)).toBe(true);
    }),
    { numRuns: 150 },
  );
});
