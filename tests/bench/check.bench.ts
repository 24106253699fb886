/**
 * What a character costs, as ratios in one run: the whole check of a card beside reading the same text only, and beside what a
 * general-purpose checker does (JSON of the same size parsed and held against a schema). Nothing is kept between the rounds.
 */
import { Ajv } from 'ajv';
import { bench, describe } from 'vitest';
import { parse } from '../../grammar/parse.ts';
import { openWorkspace } from '../../server/api.ts';
import { bind } from '../../server/binding/bind.ts';
import { prove } from '../../server/proof/prove.ts';
import { largeCard } from '../support/large-card.ts';
import { numbers } from '../support/numbers.ts';

const file = 'large.card';
const options = { time: 1000, warmupTime: 300 };

for (const [steps, branches] of [
  [50, 5],
  [500, 50],
  [2000, 200],
  [5000, 0],
] as const) {
  describe(`${steps} steps with ${branches} branches`, () => {
    const text = largeCard(steps, branches);
    const json = JSON.stringify({
      steps: numbers(steps).map((n) => ({ by: 'one', takes: 10, set: `valve-${n % 40}`, to: 'open' })),
    });
    const validate = new Ajv().compile({
      type: 'object',
      properties: {
        steps: {
          type: 'array',
          items: {
            type: 'object',
            required: ['by', 'set', 'to'],
            properties: { by: { enum: ['one', 'two'] }, takes: { type: 'number' } },
          },
        },
      },
    });
    const bound = bind(file, (path) => (path === file ? parse(text) : undefined));

    bench('JSON parsed and held against a schema', () => void validate(JSON.parse(json)), options);
    bench('text to tree', () => void parse(text), options);
    bench('the proof alone', () => void prove(bound.cards[0] as never, { stateBound: 20_000 }), options);
    bench(
      'the whole check',
      () => void openWorkspace({ readText: (path) => (path === file ? text : undefined) }).check([file]),
      options,
    );
  });
}
