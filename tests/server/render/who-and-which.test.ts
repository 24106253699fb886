/** Who does a step, and on which machines, stands on the page before what is done. */
import { expect, test } from 'vitest';
import { openText } from '../../support/check.ts';
import { found, textIn } from '../../support/html.ts';

function pageOf(body: string): string {
  const text = `item tap-1 : valve "the left tap" normally closed
item tap-2 : valve "the right tap" normally closed
variant serial 1 to 9
card c "C" { number "T-1" revision "A" crew one "One", two "Two" ${body} }`;
  return openText(text).render('main.card')[0]?.html ?? '';
}

const roles = (html: string) => found(html, 'who').map((line) => textIn(line));
const hidesRoles = (html: string) => found(html, 'of-one-role').length > 0;

test('in a table of items whose steps one person does, once above it', () => {
  const html = pageOf('for each t in valve { step by two set t open step by two set t closed }');
  expect(hidesRoles(html)).toBe(true);
  const [whole] = found(html, 'for-each');
  expect(textIn(whole as never)).toMatch(/^Do this for each item:\s*Two/);
});

test('in a table of items whose steps several do, at each step', () => {
  const html = pageOf('for each t in valve { step by one set t open if "Is it?" { step by two set t closed } }');
  expect(hidesRoles(html)).toBe(false);
  expect(roles(html)).toEqual(['One', 'Two', 'One', 'Two']);
});

test('a step for some machines says so first', () => {
  const html = pageOf('step by one only serial 1 to 4 "Blow it dry." takes 1 min');
  expect(found(html, 'lines').map(textIn)).toContainEqual(
    expect.stringMatching(/^Only for serial 1 to 4\s*Blow it dry\./),
  );
});
