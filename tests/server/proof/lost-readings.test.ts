/** A rule that asks for a reading says what has ended it on the way: what came between, and where. */
import { expect, test } from 'vitest';
import { findingsOf } from '../../support/check.ts';

const station = `item drain : valve "the drain" normally closed
item man : lift "the man" normally ground
item pump : pump "the pump" normally stopped
kind lift { ground, tower }
gauge wind "wind" in m/s { limit workable at most 10 m/s }
gauge oil "oil pressure" in bar moved by pump { limit low at most 2 bar }
rule windy "Wind" { before man tower require wind in workable }
rule high "Oil" { before man tower require oil in low }
`;
const broken = (body: string) =>
  findingsOf(`${station}
card climb "Climb" {
  number "1" revision "A" crew fitter "Fitter"
  leaves drain open because "It drains."
  ${body}
  step set man ground
}`)
    .filter(({ code }) => code === 'safety.rule')
    .map(({ message, path }) => [
      message.split(' is broken here: ')[1]?.replace(/\.(?: |$).*/, ''),
      ...path.map(({ text }) => text),
    ]);

const oil = 'step read oil in low';

test.each([
  ['step "Tell the tower."', 'the words “Tell the tower.” were followed'],
  ['step set drain open', 'the drain went to open'],
  ['step wait 2 min', 'time passed'],
])('what is read ends with %s', (between, when) => {
  const [found, ...others] = broken(`step read wind in workable ${between} ${oil} step set man tower`);
  expect(others).toEqual([]);
  expect(found?.[0]).toBe(`what wind shows is no longer known here: what was read of it ended when ${when}`);
  expect(found).toContain('what wind shows is no longer known from here on');
});

test('what was never read has not ended', () => {
  expect(broken(`${oil} step "Tell the tower." step set man tower`)[0]?.[0]).toBe('what wind shows is not known here');
});

test.each([
  ['at most 12 m/s', 'what is known of wind here is not enough: it may still not be as it must'],
  ['at least 3 m/s', 'what is known of wind here is not enough: it may still not be as it must'],
  ['above 10 m/s', 'wind is known not to be as it must'],
])('what is read %s is known', (bound, told) => {
  expect(broken(`${oil} step read wind ${bound} step set man tower`)).toEqual([[told]]);
});
