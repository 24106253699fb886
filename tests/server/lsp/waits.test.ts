/** What else is asked while the proof of a large card runs. */
import { expect, it } from 'vitest';
import { waitsWhileChecking } from './support/waits.ts';

it('goes on answering inside each question of a proof', async () => {
  const { during } = await waitsWhileChecking(4000, 2);
  // Where it gave way between questions only, seven or so were answered in a check.
  expect(during.length / 2).toBeGreaterThan(12);
});
