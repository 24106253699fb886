import { expect, it } from 'vitest';
import { FetchedFigures, figureFiles } from '../../../server/lsp/figures.ts';
import { card, open } from '../features/support.ts';

it('knows which pictures a text names', () => {
  const { snapshot } = open(card('figure "pump.svg" "The pump" figure "../shared/motor.png"'));
  expect(figureFiles(snapshot)).toEqual(['/pump.svg', '/shared/motor.png']);
  expect(figureFiles(open(card('step "Look."')).snapshot)).toEqual([]);
});

it('fetches each picture once, until some may have changed', async () => {
  const asked: string[] = [];
  const figures = new FetchedFigures(async (uri) => {
    asked.push(uri);
    return uri === 'there' ? new Uint8Array([1]) : null;
  });
  expect(figures.read('there')).toBeUndefined();
  await figures.fetch(['there', 'there', 'missing']);
  await figures.fetch(['there']);
  expect(asked).toEqual(['there', 'missing']);
  expect(figures.read('there')).toEqual(new Uint8Array([1]));
  expect(figures.read('missing')).toBeUndefined();
  figures.forget();
  await figures.fetch(['there']);
  expect(asked).toHaveLength(3);
});
