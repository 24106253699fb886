import { expect, it } from 'vitest';
import { Fetched } from '../../../server/lsp/disk.ts';
import { figureFiles } from '../../../server/lsp/figures.ts';
import { numbers } from '../../support/numbers.ts';
import { card, open } from '../features/support.ts';

it('knows which pictures a text names', () => {
  const { snapshot } = open(card('figure "pump.svg" "The pump" figure "../shared/motor.png"'));
  expect(figureFiles(snapshot)).toEqual(['/pump.svg', '/shared/motor.png']);
  expect(figureFiles(open(card('step "Look."')).snapshot)).toEqual([]);
});

it('fetches each file once, until some may have changed', async () => {
  const asked: string[] = [];
  const files = new Fetched(async (file) => {
    asked.push(file);
    return file === 'there' ? 'content' : undefined;
  });
  expect(files.read('there')).toBeUndefined();
  expect(await files.fetch(['there', 'there', 'missing'])).toEqual(['there', 'missing']);
  expect(await files.fetch(['there'])).toEqual([]);
  expect(asked).toEqual(['there', 'missing']);
  expect(files.read('there')).toBe('content');
  expect(files.read('missing')).toBeUndefined();
  files.forget();
  await files.fetch(['there']);
  expect(asked).toHaveLength(3);
});

it('opens no more files at once than a system allows', async () => {
  let [now, most] = [0, 0];
  const files = new Fetched(async (file) => {
    most = Math.max(most, ++now);
    await new Promise(setImmediate);
    now--;
    return file;
  });
  await files.fetch(numbers(3000).map(String));
  expect(most).toBeLessThan(100);
  expect(files.read('2999')).toBe('2999');
});
