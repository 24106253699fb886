/** Where and how often it is told that a supply is missing, and what is said to mend it. */
import { expect, test } from 'vitest';
import { check } from '../../support/check.ts';

const pump = `kind breaker { closed, open }
kind pump { off, running }
kind valve { closed, open }
item p : pump "the pump" normally off needs power while running
`;
const told = (text: string) => check(`${pump}${text}`, { only: ['supply'] });

test('what one thing keeps away is told at the first place', () => {
  const [finding] = told(`item b : breaker "the breaker" normally open
supply power "power" { source mains link mains -> p when b closed }
card a "A" {
  step set p running
  //   ^^^^^^^^^^^^^ supply.not-fed
  step set p off
  step run p running for 5 s
}`);
  expect(finding?.message).toContain('The same is missing at one later place.');
  expect(finding?.path.at(-1)?.text).toBe('so it is for the pump here');
});

test('what two things keep away is told twice', () => {
  told(`item b : breaker "the breaker" normally open
supply power "power" { source mains link mains -> p when b closed }
card a "A" {
  step set p running
  //   ^^^^^^^^^^^^^ supply.not-fed
  step set p off
  step set b closed
  step set b open
  step run p running for 5 s
  //   ^^^^^^^^^^^^^^^^^^^^^ supply.not-fed
}`);
});

test('what drops out by itself is told once, whatever else is set', () => {
  const [finding] = told(`item b-1 : breaker "breaker 1" normally closed may open
item b-2, b-3 : breaker normally closed
supply power "power" { source mains link mains -> p when b-1 closed and b-2 closed and b-3 closed }
card a "A" {
  step set p running
  //   ^^^^^^^^^^^^^ supply.not-fed
  step set b-2 closed
  step set b-3 closed
  step set p off
}`);
  expect(finding?.message).toContain('breaker 1 to be closed, may change by itself');
  expect(finding?.path.map(({ text }) => text)).toEqual(['breaker 1 may go to open by itself here']);
});

test('beside what drops out by itself, what an action cuts is told too', () => {
  told(`item b-1 : breaker "breaker 1" normally closed may open
item b-2 : breaker "breaker 2" normally closed
supply power "power" { source mains link mains -> p when b-1 closed and b-2 closed }
card a "A" {
  step set p running
  //   ^^^^^^^^^^^^^ supply.not-fed
  step set b-2 open
  //   ^^^^^^^^^^^^ supply.not-fed
  step set p off
  step set b-2 closed
}`);
});

test('a mend does not count on what may leave by itself, and looks at that on which it hangs', () => {
  const [finding] = told(`item k : breaker "the contactor" normally closed may open when v open
item v : valve "the valve" normally closed
supply power "power" { source mains link mains -> p when k closed }
card a "A" {
  step set v open
  step set p running
  //   ^^^^^^^^^^^^^ supply.not-fed
  step set p off
  step set v closed
}`);
  expect(finding?.message).toContain('bring the valve to closed and the contactor to closed before this');
  expect(finding?.path.map(({ text }) => text)).toEqual(['the contactor may go to open by itself here']);
});
