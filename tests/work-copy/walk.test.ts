import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Entry, fromFile, type Happening, recordOf } from '../../client/work-copy/entries.ts';
import { walk } from '../../client/work-copy/walk.ts';
import type { Statement } from '../../shared/card.ts';
import type { Job } from '../../shared/job.ts';
import * as b from '../support/card-builder.ts';
import { asUnit, entriesOf, jobOf, nextOf, noteAll, unitNamed, wholeWay } from '../support/job.ts';
import { rinseCard } from '../support/rinse.ts';

const toFile = (job: Job, entries: readonly Entry[]) => JSON.stringify(recordOf(job, entries));
const steps = (...texts: readonly string[]) => texts.map((text) => b.step(undefined, text));
const cardOf = (...body: readonly Statement[]) => b.card('Card', [b.stage('Work', body)]);
const wayOf = (body: readonly Statement[], answers: (question: string) => boolean | number = () => true) =>
  wholeWay(jobOf(cardOf(...body)), answers).done;

describe('the way through a card', () => {
  test('goes step by step and finishes', () => {
    const { done, end } = wholeWay(jobOf(cardOf(...steps('a', 'b'))), () => true);
    expect(done).toEqual(['Step 1', 'Step 2']);
    expect(end.ended).toBe('finished');
  });

  test('takes a branch or leaves it out', () => {
    const body = [b.when('wet', steps('dry it'), steps('go on')), ...steps('last')];
    expect(wayOf(body, () => true)).toEqual(['? wet', 'Step 1', 'Step 3']);
    expect(wayOf(body, () => false)).toEqual(['? wet', 'Step 2', 'Step 3']);
  });

  test('asks the cases of an else-if one after another', () => {
    const body = [b.when('one', steps('a'), [b.when('two', steps('b'))]), ...steps('c')];
    expect(wayOf(body, (question) => question === '? two')).toEqual(['? one', '? two', 'Step 2', 'Step 3']);
  });

  test('repeats as often as the card says, also inside another repeat and when come to again', () => {
    const body = [b.repeat(2, [...steps('outer'), b.repeat(3, steps('inner'))])];
    const inner = ['Step 2', 'Step 2', 'Step 2'];
    expect(wayOf(body)).toEqual(['Step 1', ...inner, 'Step 1', ...inner]);
  });

  test('asks after each round until it is so, and stops when the rounds are over', () => {
    const body = [b.repeatUntil(3, 'clear', steps('rinse'), b.stop('Report it.')), ...steps('after')];
    let asked = 0;
    expect(wayOf(body, () => ++asked === 2)).toEqual(['Step 1', '? clear', 'Step 1', '? clear', 'Step 2']);
    const { done, end } = wholeWay(jobOf(cardOf(...body)), () => false);
    expect(done.filter((name) => name === 'Step 1')).toHaveLength(3);
    expect(end.ended).toBe('stopped');
  });

  test('takes one of the ways', () => {
    const body = [b.choose(['by hand', steps('a')], ['by motor', steps('b')]), ...steps('c')];
    expect(wayOf(body, () => 1)).toEqual(['choose by hand / by motor', 'Step 2', 'Step 3']);
  });

  test('does a block for each item', () => {
    const valve = b.kind('valve', { closed: 'Close {}', open: 'Open {}' });
    const two = [b.item('a', valve, 'valve a'), b.item('b', valve, 'valve b')];
    expect(wayOf([b.forEach(two, (one) => [b.step(undefined, [b.set([one, 'open'])])])])).toEqual(['Step 1', 'Step 2']);
  });

  test('lets lanes go on side by side, and goes on when all have arrived', () => {
    const job = jobOf(cardOf(b.together([b.role('x'), steps('a', 'b')], [b.role('y'), steps('c')]), ...steps('d')));
    expect(nextOf(job, walk(job, []))).toEqual(['Step 1', 'Step 3']);
    const tick = (step: number): Happening => ({ type: 'tick', move: unitNamed(job, `Step ${step}`) });
    expect(nextOf(job, walk(job, entriesOf(tick(3))))).toEqual(['Step 1']);
    expect(nextOf(job, walk(job, entriesOf(tick(3), tick(1), tick(2))))).toEqual(['Step 4']);
  });

  test('a finish ends it, and what stops goes through the stage for that', () => {
    const card = b.card('Card', [
      b.stage('Work', [b.when('good', [...steps('a'), b.finish()], [b.stop('Report.')])]),
      b.stage('Make safe', steps('shut down'), { whenStopped: true }),
    ]);
    const good = wholeWay(jobOf(card), () => true);
    expect([good.done, good.end.ended]).toEqual([['? good', 'Step 1'], 'finished']);
    const bad = wholeWay(jobOf(card), () => false);
    expect([bad.done, bad.end.ended]).toEqual([['? good', 'Step 2'], 'stopped']);
  });

  test('a loop without a step does not hang', () => {
    const label = b.label('again');
    const card = b.card('Card', [b.stage('Round', [b.goTo(label)], { label })]);
    expect(walk(jobOf(card), []).next).toEqual([]);
  });

  test('a jump out of a repeat and back begins with its first round', () => {
    const label = b.label('top');
    const card = b.card('Card', [
      b.stage('Top', [...steps('a'), b.repeat(2, [...steps('b'), b.when('back', [b.goTo(label)])])], { label }),
    ]);
    let asked = 0;
    const { done } = wholeWay(jobOf(card), () => ++asked === 2);
    expect(done.filter((name) => name === 'Step 2')).toHaveLength(4);
  });
});

describe('what happens at a step', () => {
  // With nothing to bring, its first step is the first that is to be done.
  const job = jobOf({ ...rinseCard(), tools: [] });
  const step = (number: number) => unitNamed(job, `Step ${number}`);
  const toStep = (number: number): Happening[] =>
    Array.from({ length: number - 1 }, (_, index) => ({ type: 'tick', move: step(index + 1) }));

  test('a step begun before its turn is passed over when its turn comes', () => {
    const early: Happening[] = [
      { type: 'open', move: step(3), reason: 'The lever is near.' },
      { type: 'tick', move: step(3) },
    ];
    expect(nextOf(job, walk(job, entriesOf(...early)))).toEqual(['Step 1']);
    expect(nextOf(job, walk(job, entriesOf(...early, ...toStep(3))))).toEqual(['Step 4']);
  });

  test('a failed reading leads where the card says', () => {
    const reading = asUnit(job, step(7)).lines[0];
    const exit = reading?.type === 'reading' ? reading.exit : undefined;
    expect(exit?.text).toBe('Go to step 11, “Put everything back”.');
    const after = walk(job, entriesOf(...toStep(7), { type: 'exit', move: step(7), to: exit?.to ?? 0, text: '' }));
    expect(nextOf(job, after)).toEqual(['Step 11']);
  });

  test('stopping leads to the stage for that, then to a stopped end', () => {
    const stopped = [...toStep(5), { type: 'stop' } as const];
    expect(nextOf(job, walk(job, entriesOf(...stopped)))).toEqual(['Step 15']);
    expect(walk(job, entriesOf(...stopped, { type: 'tick', move: step(15) })).ended).toBe('stopped');
  });

  test('a run is kept with its times, and ends when its step is left', () => {
    const run = [...toStep(9), { type: 'begin', move: step(9), line: 0 } as const];
    expect(walk(job, entriesOf(...run)).uses).toEqual([[{ from: 9000 }]]);
    expect(walk(job, entriesOf(...run, { type: 'end', move: step(9), line: 0 })).uses).toEqual([
      [{ from: 9000, to: 10_000 }],
    ]);
    expect(walk(job, entriesOf(...run, { type: 'stop' })).uses).toEqual([[{ from: 9000, to: 10_000 }]]);
  });
});

test('an inspection is told from another signature, in a step and by itself', () => {
  const inspection = { ...b.sign(b.role('inspector')), independent: true } as const;
  const job = jobOf(cardOf(b.step(undefined, [b.sign(b.role('fitter')), inspection]), inspection));
  const signed = job.moves.flatMap((move) => (move.type === 'unit' ? [move.lines] : []));
  const own = { type: 'sign', independent: true };
  expect(signed.sort((a, b) => b.length - a.length)).toMatchObject([[{ type: 'sign' }, own], [own]]);
});

test('a set that begins and ends a run in different steps keeps its time too', () => {
  const pump = b.item('pump', b.kind('pump', { off: 'Stop {}', on: 'Start {}' }), 'the pump', {
    duties: [b.longest(1, 60, 120)],
  });
  const job = jobOf(cardOf(b.step(undefined, [b.set([pump, 'on'])]), b.step(undefined, [b.set([pump, 'off'])])));
  expect(
    walk(
      job,
      entriesOf({ type: 'tick', move: unitNamed(job, 'Step 1') }, { type: 'tick', move: unitNamed(job, 'Step 2') }),
    ).uses,
  ).toEqual([[{ from: 1000, to: 2000 }]]);
});

// ---------------------------------------------------------------- over random jobs

/** A run of random but possible happenings. */
function randomWork(job: ReturnType<typeof jobOf>, choices: readonly number[]): readonly Entry[] {
  let entries: readonly Entry[] = [];
  for (const choice of choices) {
    const at = walk(job, entries);
    const index = at.next[choice % Math.max(1, at.next.length)];
    if (index === undefined) break;
    const move = job.moves[index];
    const happening: Happening =
      move?.type === 'ask'
        ? { type: 'answer', move: index, yes: choice % 2 === 0 }
        : move?.type === 'choose'
          ? { type: 'choose', move: index, way: choice % move.ways.length }
          : choice % 11 === 0
            ? { type: 'stop' }
            : { type: 'tick', move: index };
    entries = noteAll(entries, [happening]);
  }
  return entries;
}

const mixed = cardOf(
  b.repeat(2, [b.when('a', steps('1'), steps('2')), b.choose(['x', steps('3')], ['y', []])]),
  b.together([b.role('p'), [...steps('4'), b.repeat(2, steps('5'))]], [b.role('q'), steps('6', '7')]),
  b.repeatUntil(3, 'c', steps('8'), b.finish()),
  ...steps('9'),
);

test('undo leads back to exactly where the job stood', () => {
  const job = jobOf(mixed);
  fc.assert(
    fc.property(fc.array(fc.nat(1000), { maxLength: 40 }), (choices) => {
      const entries = randomWork(job, choices);
      if (entries.length === 0) return;
      const before = walk(job, entries.slice(0, -1));
      expect(walk(job, noteAll(entries, [{ type: 'undo' }]))).toEqual(before);
    }),
    { numRuns: 200 },
  );
});

test('what is saved is what is loaded', () => {
  const job = jobOf(mixed);
  fc.assert(
    fc.property(fc.array(fc.nat(1000), { maxLength: 40 }), (choices) => {
      const entries = randomWork(job, choices);
      expect(fromFile(toFile(job, entries), job)).toMatchObject({ entries });
    }),
  );
});

test('a file that is not a record of this card is refused and says which', () => {
  const job = jobOf(mixed);
  expect(fromFile('', job)).toEqual({ fault: 'broken' });
  expect(fromFile('{"a":1}', job)).toEqual({ fault: 'broken' });
  expect(fromFile(toFile(jobOf(rinseCard()), []), job)).toMatchObject({
    fault: 'foreign',
    card: { title: rinseCard().title },
  });
  const damaged = toFile(job, entriesOf({ type: 'tick', move: 99_999 }));
  expect(fromFile(damaged, job)).toEqual({ fault: 'broken' });
  fc.assert(
    fc.property(fc.json(), (text) => {
      expect(fromFile(text, job)).toEqual({ fault: 'broken' });
    }),
  );
  const content = JSON.parse(toFile(job, [])) as object;
  fc.assert(
    fc.property(fc.array(fc.object(), { minLength: 1 }), (entries) => {
      expect(fromFile(JSON.stringify({ ...content, entries }), job)).toEqual({ fault: 'broken' });
    }),
  );
});
