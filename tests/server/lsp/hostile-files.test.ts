/** What a card names may be anything: the server waits for none of it, and reads nothing from elsewhere. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { Client, type ClientOptions } from './support/client.ts';

const rest = `item ignition : valve "the ignition valve"
card wash "Wash" { number "1" revision "A" crew mechanic "Mechanic" step check ignition open }
`;
const secret = 'item top-secret : valve "the words of another"\nsecret §§§\n';

let client: Client;
let outside: string | undefined;
afterEach(async () => {
  await client.stop();
  if (outside) rmSync(outside, { recursive: true });
  outside = undefined;
});

/** A folder beside the workspace that holds `secret.card`. */
function folderOutside(): string {
  outside = mkdtempSync(join(tmpdir(), 'cardwright-outside-'));
  writeFileSync(join(outside, 'secret.card'), secret);
  return outside;
}

async function start(prepare: (folder: string) => void, more: ClientOptions = {}): Promise<void> {
  client = await Client.start({ ...more, prepare });
}

/** The findings of a card that begins with this line, while which hovers are answered as always. */
async function openWith(line: string, path = 'a.card'): Promise<readonly string[]> {
  await client.open(path, `${line}\n${rest}`);
  const hover = await client.request<{ contents: { value: string } }>('textDocument/hover', path, {
    position: { line: 1, character: 6 },
  });
  expect(hover.contents.value).toContain('the ignition valve');
  return (await client.findings(path)).map(({ code, message }) => `${code} ${message}`);
}

const pipe = (path: string) => execFileSync('mkfifo', [path]);

/** A file of this many bytes that takes no room. */
function large(path: string, bytes: number): void {
  writeFileSync(path, '');
  truncateSync(path, bytes);
}

describe('no wait for', () => {
  it.each(['use "pipe.card"', 'use "pipe"', 'figure "pipe.svg" "F"'])('a pipe: %s', async (line) => {
    await start((folder) => {
      for (const name of ['pipe', 'pipe.card', 'pipe.svg']) pipe(join(folder, name));
    });
    const inCard = line.startsWith('figure') ? `card f "F" { number "2" ${line} }` : line;
    expect((await openWith(inCard)).join()).toContain('There is no file');
  });

  it('pipes that lie in the workspace as cards and settings', async () => {
    await start((folder) => {
      for (const name of ['a.card', 'cardwright.json']) pipe(join(folder, name));
    });
    expect(await openWith('// nothing used', 'b.card')).toEqual([]);
  });

  it.each(['/dev/zero', '/dev/stdin'])('a link to %s', async (device) => {
    await start((folder) => {
      for (const name of ['z.card', 'z.svg']) symlinkSync(device, join(folder, name));
    });
    expect((await openWith('use "z.card"')).join()).toContain('There is no file “z.card”');
  });

  it('a picture and a card of 600 MB', async () => {
    await start((folder) => {
      for (const name of ['p.png', 'big.card']) large(join(folder, name), 600 * 1024 * 1024);
    });
    const told = await openWith('use "big.card" card f "F" { number "2" figure "p.png" "F" }');
    expect(told.filter((finding) => finding.includes('There is no file'))).toHaveLength(2);
  });

  it('a folder that holds itself', async () => {
    await start((folder) => symlinkSync(folder, join(folder, 'again')));
    expect(await openWith('// nothing used')).toEqual([]);
  });
});

describe('nothing is read outside of the workspace', () => {
  const uses = async (line: string, path?: string) => {
    const told = (await openWith(line, path)).join('\n');
    expect(told).not.toMatch(/top-secret|§/);
    expect(client.published.filter(({ uri }) => uri.includes('secret'))).toEqual([]);
    return told;
  };

  it('by a path that leads out', async () => {
    const other = folderOutside();
    await start(() => {});
    expect(await uses(`use "../${other.split('/').at(-1)}/secret.card"`)).toContain('There is no file');
    expect(await uses(`use "file://${other}/secret.card"`, 'b.card')).toContain('There is no file');
  });

  it('by a link, to a file or to its folder', async () => {
    const other = folderOutside();
    await start((folder) => {
      symlinkSync(join(other, 'secret.card'), join(folder, 'linked.card'));
      symlinkSync(other, join(folder, 'linked'));
    });
    expect(await uses('use "linked.card"')).toContain('There is no file “linked.card”');
    expect(await uses('use "linked/secret.card"', 'b.card')).toContain('There is no file “linked/secret.card”');
  });

  it('but from a folder that the settings name, where the workspace is trusted', async () => {
    const other = folderOutside();
    const settings = { 'cardwright.json': JSON.stringify({ useFolders: [other] }) };
    await start(() => {}, { files: settings, options: { isTrusted: false } });
    const line = `use "../${other.split('/').at(-1)}/secret.card"`;
    expect(await uses(line)).toContain('There is no file');
    await client.connection.sendNotification('cardwright/trusted');
    await client.untilFindings('a.card', (findings) => findings.length, 0);
  });

  it('but beside a card that is opened without its folder', async () => {
    await start(() => {}, {
      files: { 'here/x.card': '', 'there/parts.card': 'item lid : valve "the lid"\n' },
      root: 'here',
    });
    expect(await openWith('use "parts.card"', 'there/b.card')).toEqual([]);
  });
});
