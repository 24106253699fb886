/** What else is asked while the proof of a large card runs, or a preview of it is made. */
import { expect, it } from 'vitest';
import { methods } from '../../../shared/protocol.ts';
import { largeCard } from '../../support/large-card.ts';
import { Client } from './support/client.ts';
import { waitsWhileChecking } from './support/waits.ts';

it('goes on answering inside each question of a proof', async () => {
  const { during } = await waitsWhileChecking(4000, 2);
  // Where it gave way between questions only, seven or so were answered in a check.
  expect(during.length / 2).toBeGreaterThan(12);
});

it('goes on answering what is typed while a preview is made', async () => {
  const client = await Client.start({ options: { findings: 'push' } });
  await client.open('large.card', largeCard(3000, 300));
  await client.findings('large.card');
  let isMade = false;
  const preview = client.connection.sendRequest(methods.preview, { uri: client.uri('large.card') }).then(() => {
    isMade = true;
  });
  const at = client.textOf('large.card').indexOf('"', client.textOf('large.card').indexOf('step "')) + 2;
  const enough = 4;
  let typed = 0;
  while (!isMade && typed < enough) {
    await client.edit('large.card', at, at, 'x');
    await client.findings('large.card');
    typed++;
  }
  await preview;
  await client.stop();
  // Where the findings took turns with the preview, the first ones came when it was made.
  expect(typed).toBe(enough);
});
