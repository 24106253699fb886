/** What a card asks of how long an item has been so tells of its duties too; and runs that are under way when the card begins. */
import { test } from 'vitest';
import { check } from '../../support/check.ts';

const card = (duty: string, body: string, normally = 'normally off') => `kind starter { off, turning }
item s : starter "the starter" ${normally} { duty turning ${duty} }
card a "A" {
${body}
}`;

const holds = (duty: string, body: string, normally?: string) =>
  check(card(duty, body, normally), { only: ['duty', 'flow'] });

test('a wait until an item has been off so long is a rest of that length', () => {
  holds(
    'at most 10 s, then rest 20 s',
    `  step run s turning for 10 s
  step wait until s off for at least 20 s
  step run s turning for 10 s
  step wait until s off for at least 19 s
  step run s turning for 10 s
  //   ^^^^^^^^^^^^^^^^^^^^^^ duty.short-rest`,
  );
});

test('so is an if and a check, once it holds', () => {
  holds(
    'at most 10 s, then rest 20 s',
    `  step run s turning for 10 s
  step "Look."
  if s off for at least 20 s { step run s turning for 10 s } else { step wait 19 s step run s turning for 9 s }
  //                                                                                    ^^^^^^^^^^^^^^^^^^^^^ duty.short-rest
  step "Look."
  step { check s off for at least 15 s wait 5 s run s turning for 10 s }`,
  );
});

test('what fails to have lasted no longer than a time has lasted longer', () => {
  holds(
    'at most 10 s, then rest 20 s',
    `  step run s turning for 10 s
  step "Look."
  if not s off for at most 20 s { step run s turning for 10 s }`,
  );
});

test('the rest in a count grows with it', () => {
  holds(
    'at most 2 times, then rest 1 min',
    `  step run s turning for 10 s
  step run s turning for 10 s
  step wait until s off for at least 1 min
  step run s turning for 10 s`,
  );
  holds(
    'at most 2 times, then rest 1 min',
    `  step run s turning for 10 s
  step run s turning for 10 s
  step wait until s off for at least 59 s
  step run s turning for 10 s
  //   ^^^^^^^^^^^^^^^^^^^^^^ duty.too-often`,
  );
});

test('the ages of the starts grow by the whole rest', () => {
  const body = (rest: string, mark: string) => `  step run s turning for 10 s
  step run s turning for 10 s
  step wait until s off for at least ${rest}
  step run s turning for 10 s
${mark}`;
  holds('at most 2 times in 1 min', body('40 s', ''));
  holds('at most 2 times in 1 min', body('39 s', '  //   ^^^^^^^^^^^^^^^^^^^^^^ duty.too-often'));
});

test('a start is as old as what is asked of its run', () => {
  holds(
    'at most 1 times in 1 min',
    `  step set s turning
  step wait until s turning for at least 1 min
  step set s off
  step run s turning for 10 s`,
  );
});

test('a run that a condition says to be shorter is shorter from then on', () => {
  holds(
    'at most 30 s',
    `  step set s turning
  step takes 10 s to 30 s "Look."
  if s turning for at most 20 s { step { wait 10 s set s off } } else { step { wait 0 s set s off } }`,
  );
  holds(
    'at most 30 s',
    `  step set s turning
  //   ^^^^^^^^^^^^^ duty.too-long
  step takes 10 s to 30 s "Look."
  if s turning for at most 20 s { step { wait 11 s set s off } } else { step { wait 0 s set s off } }`,
  );
});

test('a run that may be under way when the card begins has ended where the item is set out of it', () => {
  const run = '//   ^^^^^^^^^^^^^^^^^^^^^^';
  const set = (mark: string) => `  step set s off\n  step run s turning for 10 s\n  ${mark}`;
  holds('at most 10 s, then rest 1 min', set(`${run} duty.short-rest`), '');
  holds('at most 1 times, then rest 1 min', set(`${run} duty.too-often`), '');
  holds('at most 1 times in 1 min', set(`${run} duty.too-often`), '');
  holds('at most 2 times in 1 min', set(''), '');
  holds('at most 10 s, then rest 1 min', '  step check s off\n  step run s turning for 10 s', '');
});
