/** Two records of one job as one: what both say is kept without a question, and what differs is asked. */
import { describe, expect, test } from 'vitest';
import { type Entry, fromFile, type Happening, recordOf } from '../../client/work-copy/entries.ts';
import { merged } from '../../client/work-copy/merge.ts';
import { walk } from '../../client/work-copy/walk.ts';
import { jobFrom, nextOf, noteAll, unitNamed } from '../support/job.ts';

const job = jobFrom(`
  item pump : pump "the pump" normally stopped { duty running at most 30 s, then rest 60 s }
  item drain : valve "the drain"
  gauge volts "bus voltage" in V { reads 0 to 32 by 0.5 }
  card tried "Tried" { number "T-1" revision "A" on 2026-01-01 crew hand "Hand"
    step by hand { read volts at least 24 V   check drain closed }
    repeat 3 times { step by hand "Turn the shaft by hand." }
    step by hand run pump running for 5 s
    step by hand "Close the lid."
  }`);

const head: Happening = { type: 'head', values: ['', 'Merganser 7', ''], names: ['R. Vogel'], machine: [] };
const at = (step: number) => unitNamed(job, `Step ${step}`);
const before: Happening = { type: 'tick', move: unitNamed(job, 'Before you start') };
const volts = (value: string): Happening => ({ type: 'reading', move: at(1), line: 0, value, unit: 0, inside: true });
const drain = (passed: boolean): Happening => ({ type: 'check', move: at(1), line: 1, passed });
const tick = (step: number): Happening => ({ type: 'tick', move: at(step) });
const run: readonly Happening[] = [
  { type: 'begin', move: at(3), line: 0 },
  { type: 'end', move: at(3), line: 0 },
  tick(3),
];

const later = (entries: readonly Entry[], by: number) => entries.map((entry) => ({ ...entry, at: entry.at + by }));
const onOne = (...happenings: readonly Happening[]) => noteAll([], [head, before, ...happenings], 'one');
/** An hour behind the other. */
const onOther = (...happenings: readonly Happening[]) =>
  later(noteAll([], [head, before, ...happenings], 'other'), 3_600_000);

function readIn(own: readonly Entry[], other: readonly Entry[]) {
  const { entries, ...found } = merged(job, own, other);
  const both = noteAll(entries, [{ type: 'read-in', ...found }], own[0]?.id ?? '');
  return { both, asked: found.conflicts.length, next: nextOf(job, walk(job, both)) };
}

describe('is kept without a question', () => {
  const first = [volts('25'), drain(true), tick(1)];

  test('what both say of a step, in whatever order they entered it', () => {
    const { asked, next, both } = readIn(onOne(...first), onOther(drain(true), volts('25'), tick(1)));
    expect({ asked, next }).toEqual({ asked: 0, next: ['Step 2'] });
    expect(both.filter(({ type }) => type === 'reading')).toHaveLength(2);
  });

  test('a round that both have done, which counts once', () => {
    const { asked, next } = readIn(onOne(...first, tick(2)), onOther(...first, tick(2)));
    expect({ asked, next }).toEqual({ asked: 0, next: ['Step 2'] });
    const third = readIn(onOne(...first, tick(2), tick(2)), onOther(...first, tick(2), tick(2), tick(2)));
    expect(third).toMatchObject({ asked: 0, next: ['Step 3'] });
  });

  test('where one has gone on from where the other stands', () => {
    const { asked, next } = readIn(onOne(volts('25')), onOther(...first));
    expect({ asked, next }).toEqual({ asked: 0, next: ['Step 2'] });
  });

  test('whichever tablet reads in the other, both ways, and from its file', () => {
    const [one, other] = [onOne(...first), onOther(...first)];
    const here = readIn(one, other).both;
    const there = readIn(other, one).both;
    const both = readIn(here, there);
    expect(both).toMatchObject({ asked: 0, next: ['Step 2'] });
    expect(fromFile(JSON.stringify(recordOf(job, both.both)), job)).toMatchObject({ entries: both.both });
    expect(walk(job, both.both).visits.get(at(1))).toHaveLength(1);
  });
});

describe('is asked', () => {
  const asked = (own: readonly Happening[], other: readonly Happening[]) =>
    readIn(onOne(...own), onOther(...other)).asked;

  test('another value, another person, another answer', () => {
    expect(asked([volts('25')], [volts('26')])).toBe(1);
    expect(asked([drain(true)], [drain(false)])).toBe(1);
    const handedOver: Happening = { type: 'hand-over', from: 'R. Vogel', to: 'S. Ono', remarks: '' };
    expect(asked([tick(1)], [handedOver, tick(1)])).toBe(1);
  });

  test('what one found bad after the other had found it mended', () => {
    expect(asked([drain(false), drain(true)], [drain(false)])).toBe(1);
    expect(asked([drain(false)], [drain(false), drain(true)])).toBe(0);
  });

  test('a run, which may have been made twice', () => {
    expect(asked(run, run)).toBe(1);
  });
});
