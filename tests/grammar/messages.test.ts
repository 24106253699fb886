/** What a writer reads about each sort of slip. Each is one problem, and what stands after it is understood. */
import { expect, test } from 'vitest';
import { all } from '../../grammar/navigate.ts';
import { parse } from '../../grammar/parse.ts';
import type { Parsed } from '../../grammar/syntax.ts';

const inStage = [
  'step set',
  'step set a',
  'step set a b c',
  'step set a open, b',
  'step set x "open"',
  'step set a on; step set c d',
  'step set a b set c d',
  'step { set a b',
  'step set set open',
  'step set step open',
  'step set a open, step open',
  'step check set open',
  'step check step open and a b',
  'step wait until check open within 5 s',
  'step run step open for 5 s',
  'if set open { step set a b }',
  'step set step set a b',
  'step set step set open',
  'step by set set a b',
  'set step set a b',
  'step by set a b',
  'step by x ste a b',
  'step by anna bert set a b',
  'stpe by x set a b',
  'step takes set a b',
  'step takes 2 to 5 min set a b',
  'step only set a b',
  'step "abc',
  'step “Look”',
  'step "a { b"',
  'step "a {} b"',
  'step check "Is {} dry?"',
  'step check',
  'step check a',
  'step check a b or',
  'step check (a b',
  'step check not',
  'step check any a',
  'step check a b for 5 s',
  'step read g else finish',
  'step read g at least',
  'step read g at 5 V',
  'step read g at least 5',
  'step read g 27 29 V',
  'step read g >= 5 V',
  'step bring g',
  'step run a b',
  'step run a b for',
  'step run x y for 5 s { watch g above 5 V }',
  'step wait',
  'step wait 5',
  'step record',
  'step record "x" in mm at',
  'step tighten',
  'step tighten b',
  'step tighten b to 25',
  'step tighten b 25 N.m',
  'step tighten b to 25 N.m in',
  'repeat 3 { step set a b }',
  'repeat { step set a b }',
  'repeat at most 3 times until "Dry?" { step set a b } else { stop "x" }',
  'if a b step set c d }',
  'if { step set a b }',
  'if a b { step set c d } else',
  'go label',
  'go to',
  'stop',
  'danger',
  'sign',
  'keep',
  'do f(a',
  'do f a',
  'together { x { } }',
  'choose { step set a b }',
  'for x in y { }',
  'accept safety.rule',
  'accept because "x"',
  'figure "a.png"',
  'number "x"',
  'fields',
  '/* open',
];

const atTop = [
  'use',
  'kind k',
  'kind k { }',
  'kind k { a b }',
  'kind k { open "x" closed "y" }',
  'use "{}.card"',
  'item a : v "the {}"',
  'item a',
  'item a valve',
  'item set : valve',
  'item a : v normally',
  'item a : v at',
  'item a : v duty x at most 5 s',
  'gauge g "x"',
  'gauge g in { }',
  'gauge g in V { limit supply 18 to 25 V }',
  'gauge set "the set value" in V',
  'gauge g in mm { limit small 0 to 0.6 }',
  'gauge g in mm { limit most at most 5 }',
  'gauge g in V { reads 0 32 }',
  'gauge g in V { limit x }',
  'gauge g in V = a-b',
  'supply s { link a b }',
  'hazard h "x" { note "x" }',
  'hazard h "x" while a b { "x" }',
  'rule r { before a b require c d }',
  'rule r "x" { require a b }',
  'rule r "x" { before a b }',
  'variant v',
  'procedure p { }',
  'procedure p (a) { }',
  'card c { }',
  'card "x" { }',
  'crad c "x" { stage "x" { } }',
  'c "x" { stage "x" { } }',
  'card c "x" { nummber "5" }',
  'card c "x" { "Rinse" { step set a b } }',
  'card c "x" { stage x { step set a b } }',
  'card c "x" { revision "B" on 2026 }',
  'card c "x" { tools }',
  'card c "x" { step set a b number "5" }',
  'stage "x" { step set a b }',
  'step set a b',
  '"text"',
  '}',
];

function told({ text, problems }: Parsed): string {
  return problems
    .map(({ code, span, message, fix }) => {
      const mend = fix === undefined ? '' : ` [${fix.title}]`;
      return `${code} at ${JSON.stringify(text.slice(span.start, span.end))}: ${message}${mend}`;
    })
    .join('\n');
}

test.each(inStage)('%s', (slip) => {
  const parsed = parse(`card a "A" {\n  stage "S" {\n    ${slip}\n    step set next open\n  }\n}\n`);
  expect(parsed.problems).toHaveLength(1);
  expect(all(parsed.file, 'item-state').map(({ item }) => item.text)).toContain('next');
  expect(told(parsed)).toMatchSnapshot();
});

test.each(atTop)('%s', (slip) => {
  const parsed = parse(`${slip}\nkind next { open }\n`);
  expect(parsed.problems).toHaveLength(1);
  expect(all(parsed.file, 'kind').map(({ name }) => name?.text)).toContain('next');
  expect(told(parsed)).toMatchSnapshot();
});

test('what goes on as a sentence does begins one, and what is missing before it is told', () => {
  const { problems, file } = parse('card a "A" {\n  step check set b open\n  step set step "Look." set c shut\n}\n');
  expect(problems.map(({ code }) => code)).toEqual(['syntax.missing', 'syntax.missing']);
  expect(all(file, 'item-state').map(({ item }) => item.text)).toEqual(['b', 'c']);
});

test('a slip on the next line is one of its own', () => {
  expect(parse('card a "A" {\n  step set\n  step set\n}\n').problems).toHaveLength(2);
});

test('what is not closed says where it begins', () => {
  const { text, problems } = parse('card a "A" {\n  stage "S" {\n    step set b open\n');
  const opened = problems[0]?.opened;
  expect(opened?.text).toBe('This stage');
  expect(opened && text.slice(opened.span.start, opened.span.end)).toBe('{');
});
