/** Random texts: words in any order, samples with slips in them, and texts that would harm a page that took them for markup. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { contextualWords, reservedWords } from '../../grammar/words.ts';

const inFolder = (folder: string) =>
  readdirSync(folder)
    .filter((file) => file.endsWith('.card'))
    .sort()
    .map((file) => ({ file: `${folder}/${file}`, text: readFileSync(`${folder}/${file}`, 'utf8') }));

/** The cards that are good to read, with the equipment that they use. */
export const samples = ['samples/merganser', 'samples/heron-dyke', 'samples/bakery', 'samples/recipes'].flatMap(
  inFolder,
);

const signs = ['{', '}', '{', '}', '(', ')', ',', ':', '.', '->', '<->', '=', '+', '-', '+/-', '/', '%', '§'];
const others = ['pump', 'x-1', '"t {x}"', '5', '-1.5', '2026-10-02', '"open', '/*', '//'];
const words = fc.constantFrom(...reservedWords, ...contextualWords, ...signs, ...others);
const glue = fc.constantFrom(' ', ' ', '\n', '\n  ', '\r\n', '');

export const wordsInAnyOrder = fc.array(fc.tuple(words, glue), { maxLength: 60 }).map((pairs) => pairs.flat().join(''));

/** Halves of characters too. The unit of the library's own strings takes a table of a million characters, and a second, to set up. */
const anySign = fc.integer({ min: 0, max: 0xffff }).map((code) => String.fromCharCode(code));
export const anySigns = fc.array(anySign, { maxLength: 200 }).map((all) => all.join(''));

/** What stands in a text by a slip. */
export const strange: readonly string[] = [
  '{',
  '}',
  '(',
  ',',
  ':',
  '"',
  '"open',
  '/* c */',
  '// c',
  '/* open',
  '§',
  '\n',
  'else',
  '5',
  '',
  '\u202e',
  '\0',
];

export const slips = fc.array(
  fc.record({ at: fc.nat(), cut: fc.nat(40), put: fc.oneof(fc.constantFrom(...strange), words) }),
  { minLength: 1, maxLength: 6 },
);
export type Slips = typeof slips extends fc.Arbitrary<infer Value> ? Value : never;

export function withSlips(text: string, some: Slips): string {
  return some.reduce((sofar, { at, cut, put }) => {
    const here = at % (sofar.length + 1);
    return sofar.slice(0, here) + put + sofar.slice(here + cut);
  }, text);
}

/** A few lines of a sample, with slips. */
export const piece = fc
  .record({ sample: fc.nat(samples.length - 1), from: fc.nat(), length: fc.nat(30), slips })
  .map(({ sample, from, length, slips: some }) => {
    const lines = samples[sample]?.text.split('\n') ?? [];
    const first = from % lines.length;
    return withSlips(lines.slice(first, first + length).join('\n'), some);
  });

/** Each would do something in a page, a style, a script, an address or a terminal that took it as its own. */
export const hostile = [
  '<script>alert(1)</script>',
  '</script><script>alert(1)</script>',
  '<img src=//harm.example/x onerror=alert(1)>',
  '"><svg onload=alert(1)>',
  "' onmouseover=alert(1) x='",
  '<a href="javascript:alert(1)">x</a>',
  '<iframe src=//harm.example></iframe>',
  '<style>@import url(//harm.example/a.css)</style>',
  '<link rel=stylesheet href=//harm.example/a.css>',
  '<base href=//harm.example/>',
  '<meta http-equiv=refresh content="0;url=//harm.example">',
  '<!--',
  '-->',
  ']]>',
  '&lt;script&gt;',
  '&#60;b&#62;',
  '</style><b>',
  '</title><b>',
  '</textarea><b>',
  'url(//harm.example/x.png)',
  'javascript:alert(1)',
  '$(alert(1))',
  '{{constructor.constructor("alert(1)")()}}',
  '__proto__',
  'constructor',
  'toString',
  '\\u003cscript\\u003e',
  '\\\\',
  '%3Cscript%3E',
];

/** The texts of a card, taken in turn, have these put into them. */
export const hostileTexts = fc.array(fc.record({ at: fc.nat(), text: fc.constantFrom(...hostile) }), {
  minLength: 1,
  maxLength: 12,
});

export function withHostileTexts(
  text: string,
  some: readonly { readonly at: number; readonly text: string }[],
): string {
  // What stands between quotation marks, but for the files that are used.
  const strings = [...text.matchAll(/(?<!\buse +)"[^"\n]*"/g)];
  const edits = new Map(some.map(({ at, text: put }) => [(strings[at % strings.length]?.index ?? 0) + 1, put]));
  return [...edits]
    .sort(([one], [other]) => other - one)
    .reduce(
      (sofar, [at, put]) =>
        sofar.slice(0, at) +
        put.replace(/["\\{}]/g, (sign) => (sign === '"' || sign === '\\' ? `\\${sign}` : sign + sign)) +
        sofar.slice(at),
      text,
    );
}
