import { expect, it } from 'vitest';
import { Newest, nextMessage } from '../../../server/lsp/newest.ts';

it('lets newer work take the place of older', async () => {
  const newest = new Newest();
  const done: string[] = [];
  const work = (name: string) =>
    newest.run(async (turn) => {
      for (let part = 0; part < 3; part++) {
        await nextMessage();
        await turn.giveWay();
      }
      done.push(name);
    });
  expect(await Promise.all([work('first'), work('second'), work('third')])).toEqual([false, false, true]);
  expect(done).toEqual(['third']);
});

it('gives way after 10 ms, so that other messages are read', async () => {
  const newest = new Newest();
  let read = 0;
  const other = setInterval(() => read++, 1);
  await newest.run(async (turn) => {
    const until = performance.now() + 60;
    while (performance.now() < until) await turn.giveWay();
  });
  clearInterval(other);
  expect(read).toBeGreaterThan(0);
});

it('passes on what goes wrong', async () => {
  await expect(new Newest().run(() => Promise.reject(new Error('broken')))).rejects.toThrow('broken');
});
