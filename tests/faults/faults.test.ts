/** What goes wrong around the program, and what is then so. `npm run faults` prints the table. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { afterAll, expect, test } from 'vitest';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node';
import type { PublishDiagnosticsParams } from 'vscode-languageserver';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serve } from '../../server/lsp/server.ts';
import type { ReadCards } from '../../shared/protocol.ts';
import { cleanCard, faultyCard, folder } from '../command-line/support.ts';
import { Client } from '../server/lsp/support/client.ts';
import { openBrowser, untilHang } from '../support/browser.ts';
import { largeCard } from '../support/large-card.ts';
import { numbers } from '../support/numbers.ts';
import { beginWork, giveReason, now, openCard, plugIn, putText, workCopyScript } from '../support/work-copy.ts';

const table: { readonly fault: string; readonly outcome: string }[] = [];
afterAll(() => console.table(table));

/** Brings a fault about, and says what is so then; undefined where this machine does not let it. */
function fault(name: string, expected: string, bring: () => string | undefined | Promise<string | undefined>): void {
  test(name, { timeout: untilHang }, async ({ skip }) => {
    const outcome = await bring();
    table.push({ fault: name, outcome: outcome ?? 'not tried: this machine does not let it' });
    if (outcome === undefined) return skip('this machine does not let it');
    expect(outcome).toBe(expected);
  });
}

fault('the server is killed in mid-proof', 'no file changed; the next server has the findings', async () => {
  const capabilities = { window: { workDoneProgress: true } };
  const killed = await Client.start({
    capabilities,
    files: { 'a.card': faultyCard, 'large.card': largeCard(2000, 200) },
  });
  await killed.told(() => killed.works.includes('Checking cards') || undefined);
  const left = readdirSync(killed.folder).join();
  await killed.kill();
  const next = await Client.start({ files: { 'a.card': faultyCard } });
  const findings = await next.findings('a.card');
  await next.stop();
  const files = left === 'a.card,large.card' ? 'no file changed' : `there is ${left}`;
  return `${files}; the next server has ${findings.length > 0 ? 'the findings' : 'none'}`;
});

fault('the disk is full when a card is exported', 'code 2, the disk is full, nothing half written', async () => {
  const here = folder().write('a.card', cleanCard);
  const disk = join(here.path, 'disk');
  mkdirSync(disk);
  if (spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=16k', 'tmpfs', disk]).status !== 0) return undefined;
  try {
    const { code, errors } = await here.run(['export', 'a.card', '--to', 'disk']);
    const left = readdirSync(disk);
    const told = errors.includes('the disk is full') ? 'the disk is full' : errors;
    return `code ${code}, ${told}, ${left.length === 0 ? 'nothing half written' : left.join()}`;
  } finally {
    execFileSync('umount', [disk]);
  }
});

fault('a used file vanishes, and comes back', 'told, and clean again', async () => {
  const parts = 'item lid : valve "the lid" normally closed\n';
  const files = { 'parts.card': parts, 'a.card': `use "parts.card"\n${cleanCard}` };
  const client = await Client.start({ files });
  await client.untilFindings('a.card', (findings) => findings.length, 0);
  rmSync(join(client.folder, 'parts.card'));
  await client.changedOutside('parts.card');
  await client.untilFindings('a.card', (findings) => findings.map(({ code }) => code), ['name.unknown']);
  await client.writeFile('parts.card', parts);
  await client.untilFindings('a.card', (findings) => findings.length, 0);
  await client.stop();
  return 'told, and clean again';
});

fault('a card is gone when it is to be read', 'code 2, told, the other card checked', async () => {
  const { code, out, errors } = await folder().write('a.card', faultyCard).run(['check', 'a.card', 'b.card']);
  const told = errors.includes('There is no file or folder "b.card"') ? 'told' : 'not told';
  return `code ${code}, ${told}, the other card ${out.includes('safety.left-changed') ? '' : 'not '}checked`;
});

const resting = `
kind turner { off "Release {}", cranking "Hold {}" }
item starter : turner "the starter" normally off { duty cranking at most 30 s, then rest 60 s }
card clocks "Clocks" {
  number "C-1" revision "A" on 2026-01-01 crew fitter "Fitter"
  step by fitter takes 5 s set starter cranking
  step by fitter takes 5 s set starter off
  step by fitter wait 60 s
  step by fitter takes 5 s set starter cranking
  step by fitter takes 5 s set starter off
}`;

fault('the clock of the tablet goes back an hour', 'told, and the rest is not over', async () => {
  const stick = await plugIn(await workCopyScript());
  const browser = await openBrowser();
  try {
    const page = await openCard(await browser.newContext(), await putText(stick, 'clocks', resting));
    await beginWork(page);
    const done = (step: number) => now(page, step).getByRole('button', { name: 'Done', exact: true }).click();
    await done(1);
    await done(2);
    await page.clock.setSystemTime('2026-11-25T07:00:00Z');
    await now(page, 3).getByRole('button', { name: 'Leave out', exact: true }).click();
    await giveReason(page, 'Counted by hand.');
    const told = (await page.locator('.live', { hasText: 'clock' }).innerText()).includes(
      'clock of this device was set back',
    );
    await done(4);
    const rest = await now(page, 4).locator('.question').innerText();
    return `${told ? 'told' : 'not told'}, and the rest is ${rest.includes('left') ? 'not ' : ''}over`;
  } finally {
    await browser.close();
    await stick.remove();
  }
});

fault('the editor has 50 roots', 'findings in each of the 50', async () => {
  const roots = numbers(50).map((n) => `root-${n}`);
  const files = Object.fromEntries(roots.map((root, n) => [`${root}/a.card`, faultyCard.replace('"2"', `"${n + 1}"`)]));
  const client = await Client.start({ files, root: 'root-1', capabilities: { workspace: { workspaceFolders: true } } });
  const added = roots.slice(1).map((name) => ({ uri: client.uri(name), name }));
  const event = { added, removed: [] };
  await client.connection.sendNotification('workspace/didChangeWorkspaceFolders', { event });
  for (const root of roots) await client.findings(`${root}/a.card`);
  await client.stop();
  return `findings in each of the ${roots.length}`;
});

fault('the disk gives nothing for as long as it likes', 'a hover meanwhile, findings afterwards', async () => {
  let give: (cards: ReadCards) => void = () => {};
  const list = () =>
    new Promise<ReadCards>((resolve) => {
      give = resolve;
    });
  const [toServer, toClient] = [new PassThrough(), new PassThrough()];
  const streams = [new StreamMessageReader(toServer), new StreamMessageWriter(toClient)] as const;
  serve(createConnection(ProposedFeatures.all, ...streams), { list, read: async () => null });
  const client = createMessageConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer));
  const published = new Promise<PublishDiagnosticsParams>((resolve) => {
    client.onNotification('textDocument/publishDiagnostics', resolve);
  });
  client.listen();
  const workspaceFolders = [{ uri: 'file:///w', name: 'w' }];
  await client.sendRequest('initialize', { processId: null, rootUri: null, capabilities: {}, workspaceFolders });
  await client.sendNotification('initialized', {});
  const textDocument = { uri: 'file:///w/a.card', languageId: 'cardwright', version: 1, text: faultyCard };
  await client.sendNotification('textDocument/didOpen', { textDocument });
  const hover = await client.sendRequest('textDocument/hover', { textDocument, position: { line: 1, character: 6 } });
  give([]);
  const { diagnostics } = await published;
  client.dispose();
  return `${hover ? 'a hover' : 'nothing'} meanwhile, ${diagnostics.length > 0 ? 'findings' : 'nothing'} afterwards`;
});
