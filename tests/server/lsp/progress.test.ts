import { PassThrough } from 'node:stream';
import { expect, it } from 'vitest';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { LateProgress } from '../../../server/lsp/progress.ts';

it('is with the editor before the work begins that holds everything up', async () => {
  const [toServer, toClient] = [new PassThrough(), new PassThrough()];
  const streams = [new StreamMessageReader(toServer), new StreamMessageWriter(toClient)] as const;
  const server = createConnection(ProposedFeatures.all, ...streams);
  server.onInitialize(() => ({ capabilities: {} }));
  server.listen();
  const client = createMessageConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer));
  const told: string[] = [];
  client.onUnhandledProgress(({ value }) => told.push(value.title));
  client.onRequest('window/workDoneProgress/create', () => null);
  client.listen();
  const capabilities = { window: { workDoneProgress: true } };
  await client.sendRequest('initialize', { processId: null, rootUri: null, capabilities });
  await new LateProgress(server, 'Reading').tell();
  expect(told).toEqual(['Reading']);
  client.dispose();
});
