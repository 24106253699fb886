/** The server as a worker of a browser: has no disk, and asks the extension for the files of the workspace. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { methods, type ReadCards } from '../../shared/protocol.ts';
import { serve } from './server.ts';

const worker = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];
const connection = createConnection(new BrowserMessageReader(worker), new BrowserMessageWriter(worker));

serve(connection, {
  list: () => connection.sendRequest<ReadCards>(methods.readCards),
  read: (params) => connection.sendRequest<Uint8Array | null>(methods.readFile, params),
});
