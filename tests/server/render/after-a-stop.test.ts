/** Whoever finds the machine after a stop reads on the card what may still be as the steps had left it. */
import { expect, test } from 'vitest';
import { openText } from '../../support/check.ts';
import { found, textIn } from '../../support/html.ts';

function pageOf(body: string): string {
  const text = `item tap : valve "the tap" normally closed
item fuse : breaker "the fuse" normally closed
card c "C" { number "T-1" revision "A" crew one "One" ${body} }`;
  return openText(text).render('main.card')[0]?.html ?? '';
}

const heading = 'After a stop, look at each of these: it may still be so.';
const work = 'step set fuse pulled, tap open step check "Is it dry?" step set tap closed, fuse closed';

test('on the page for stops, without what its steps put back', () => {
  const html = pageOf(`${work} stage "Make safe" when stopped { step set tap closed }`);
  const [page] = found(html, 'if-you-stop').map(textIn);
  expect(page).toMatch(new RegExp(`${heading}\\s*The fuse is pulled\\.$`));
  expect(found(html, 'left').map(textIn).join(' ')).not.toContain('The tap is open.');
});

test('where the card has no such page, with how the machine is left', () => {
  const [left] = found(pageOf(work), 'left').map(textIn);
  expect(left).toContain(heading);
  expect(left).toMatch(/The fuse is pulled\.\s*The tap is open\.$|The tap is open\.\s*The fuse is pulled\.$/);
});

test('not where nothing stops, and not where all is as it should be', () => {
  expect(pageOf('step set tap open step set tap closed')).not.toContain(heading);
  expect(pageOf('step set tap open step set tap closed step check "Is it dry?"')).not.toContain(heading);
});
