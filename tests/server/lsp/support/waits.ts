/** How long an editor waits for other answers while a card is checked; measured over stdio, with the server as it is shipped. */

import { largeCard } from '../../../support/large-card.ts';
import { Client } from './client.ts';

export interface Waits {
  /** Milliseconds of each hover that was asked while the check ran, one after the other. */
  readonly during: readonly number[];
  /** The same hover when the server has nothing else to do. */
  readonly alone: readonly number[];
  /** Milliseconds from the changed limit to its findings. */
  readonly check: number;
}

/** Changes a limit in a card of that many steps, and hovers over a gauge until the findings come. */
export async function waitsWhileChecking(steps: number, rounds: number): Promise<Waits> {
  const client = await Client.start({ options: { findings: 'push' } });
  const text = largeCard(steps, steps / 10);
  await client.open('large.card', text);
  await client.findings('large.card');
  // A letter in a text would have nothing proved anew.
  const limit = text.indexOf('30 s, then');
  const during: number[] = [];
  const alone: number[] = [];
  const checks: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const began = performance.now();
    await client.edit('large.card', limit, limit + 2, String(31 + round));
    let isChecked = false;
    const checked = client.findings('large.card').then(() => {
      checks.push(performance.now() - began);
      isChecked = true;
    });
    // What follows from the change itself, the new text read and its names bound, is waited for in any case.
    await hover(client);
    while (!isChecked) during.push(await hover(client));
    await checked;
    for (let again = 0; again < 20; again++) alone.push(await hover(client));
  }
  await client.stop();
  return { during, alone, check: median(checks) };
}

async function hover(client: Client): Promise<number> {
  const began = performance.now();
  await client.request('textDocument/hover', 'large.card', { position: positionOfGauge(client.textOf('large.card')) });
  return performance.now() - began;
}

function positionOfGauge(text: string) {
  const before = text.slice(0, text.indexOf('gauge oil') + 7).split('\n');
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
}

export function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
}
