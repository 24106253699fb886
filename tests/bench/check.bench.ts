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
import type { Card } from '../../shared/card.ts';
import { defaultSettings } from '../../shared/settings.ts';
import { largeCard } from '../support/large-card.ts';
import { numbers } from '../support/numbers.ts';

const file = 'large.card';
const rounds = { time: 1000, warmupTime: 300 };
const options = { stateBound: defaultSettings.stateBound };

for (const [steps, branches] of [
  [50, 5],
  [500, 50],
  [2000, 200],
  [1000, 0],
  [5000, 0],
] as const) {
  const text = largeCard(steps, branches);
  const bound = bind(file, (path) => (path === file ? parse(text) : undefined));
  const card = bound.cards[0] as Card;
  const { explored } = prove(card, options);

  describe(`${steps} steps with ${branches} branches, ${explored} states explored`, () => {
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

    bench('JSON parsed and held against a schema', () => void validate(JSON.parse(json)), rounds);
    bench('text to tree', () => void parse(text), rounds);
    bench('the proof alone', () => void prove(card, options), rounds);
    bench(
      'the whole check',
      () => void openWorkspace({ readText: (path) => (path === file ? text : undefined) }).check([file]),
      rounds,
    );
  });
}
