/** What the work copy says of the machine is what the proof says of each place. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Entry, Happening } from '../../client/work-copy/entries.ts';
import { walk } from '../../client/work-copy/walk.ts';
import { contextOf } from '../../server/render/context.ts';
import { compileJob } from '../../server/render/job/compile.ts';
import { stateSentence } from '../../server/render/sentences/conditions.ts';
import type { Item, Step } from '../../shared/card.ts';
import type { Job, Move, MoveIndex } from '../../shared/job.ts';
import { finish } from '../../shared/parts.ts';
import { defaultSettings } from '../../shared/settings.ts';
import { cardsIn, folder, openSamples, worlds } from '../samples/support.ts';
import { entriesOf, noteAll } from '../support/job.ts';
import { inputOf } from '../support/rinse.ts';

/** Somebody works through a card: every tick is all right, every question and choice is answered by chance. */
function* work(job: Job, choices: readonly number[]): Generator<readonly Entry[]> {
  const machine = job.variants.map(({ values }, index) => (choices[index] ?? 0) % values.length);
  let entries = entriesOf({ type: 'head', values: job.head.map(() => ''), names: [''], machine });
  for (const choice of choices) {
    yield entries;
    const { next } = walk(job, entries);
    const index = next[choice % Math.max(1, next.length)];
    const move = index === undefined ? undefined : job.moves[index];
    if (index === undefined || move === undefined) return;
    entries = noteAll(entries, happeningsAt(move, index, choice));
  }
}

function happeningsAt(move: Move, index: MoveIndex, choice: number): readonly Happening[] {
  if (move.type === 'ask') return [{ type: 'answer', move: index, yes: choice % 2 === 0 }];
  if (move.type === 'choose') return [{ type: 'choose', move: index, way: choice % move.ways.length }];
  if (move.type !== 'unit') return [];
  const checks = move.lines.flatMap((line, own): Happening[] =>
    line.type === 'check' ? [{ type: 'check', move: index, line: own, passed: true }] : [],
  );
  return [...checks, { type: 'tick', move: index }];
}

const { workspace } = openSamples();
const cards = [...worlds, 'recipes'].flatMap((world) =>
  cardsIn(world).flatMap((name) => {
    const snapshot = workspace.snapshot(`${folder}/${world}/${name}`);
    return (snapshot?.bound.cards ?? []).map((card) => ({ name: card.name, card, snapshot }));
  }),
);

test.each(cards)('at each step of $name', ({ card, snapshot }) => {
  const proof = snapshot?.proof(card, defaultSettings);
  const context = contextOf(inputOf(card));
  const { job, anchors } = compileJob(context);
  const steps = new Map([...anchors].map(([part, move]) => [move, part as Step]));
  const items = job.items.map(({ states }) =>
    card.equipment.items.find((item) => stateSentence(item, [0], context) === states[0]),
  );
  fc.assert(
    fc.property(fc.array(fc.nat(1000), { minLength: 60, maxLength: 60 }), (choices) => {
      for (const entries of work(job, choices)) {
        const { next, stands } = walk(job, entries);
        const [step, other] = next.map((move) => steps.get(move));
        if (step?.type !== 'step' || other !== undefined) continue;
        for (const [index, { state }] of stands) {
          const item = items[index] as Item;
          if (job.items[index]?.drifts) continue;
          const own = proof && finish(proof.statesAt(step.place, [item]));
          expect([item.name, ...(own?.[0]?.states ?? [])]).toContain(state);
        }
      }
    }),
    { numRuns: 4 },
  );
});
