import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type {
  Diagnostic,
  DocumentDiagnosticReport,
  WorkspaceDiagnosticReport,
  WorkspaceEdit,
} from 'vscode-languageserver';
import { Client } from './support/client.ts';

const sample = (name: string) => readFileSync(new URL(`../../../samples/merganser/${name}`, import.meta.url), 'utf8');
const equipment = sample('merganser.card');
const card = sample('rinse.card');

const sentences = (findings: readonly Diagnostic[]) =>
  findings.map(({ code, message, range }) => `${range.start.line}:${range.start.character} ${code} ${message}`);

describe('findings as one types', () => {
  let client: Client;
  let other: Client;
  let opened = 0;
  beforeAll(async () => {
    client = await Client.start({ files: { 'merganser.card': equipment } });
    other = await Client.start({ files: { 'merganser.card': equipment } });
  });
  afterAll(() => Promise.all([client.stop(), other.stop()]));

  /** What another server says of a text that it is given at once, in a file that it has never seen. */
  async function freshFindings(text: string): Promise<string[]> {
    const path = `fresh-${opened++}.card`;
    await other.open(path, text);
    const findings = sentences(await other.findings(path));
    await other.close(path);
    return findings;
  }

  it('ends a card that is typed character by character with the findings of the finished file', {
    timeout: 120_000,
  }, async () => {
    const slip = card.replace('set ear-defenders on', 'set ear-defender on');
    await client.open('typed.card', '');
    let at = 0;
    for (const character of slip) {
      await client.edit('typed.card', at, at, character);
      at += character.length;
      // Now and then the writer stops to think, and the server comes to its end.
      if (at % 97 === 0) await client.findings('typed.card');
    }
    const typed = sentences(await client.findings('typed.card'));
    expect(typed.join('\n')).toContain('name.unknown');
    expect(typed).toEqual(await freshFindings(slip));
    await client.close('typed.card');
  });

  it('ends any edits with the findings of a freshly opened file', { timeout: 120_000 }, async () => {
    const pieces = fc.constantFrom(
      '',
      '{',
      '}',
      '"',
      ' ',
      '\n',
      '\r\n',
      'step ',
      'set bus-tie open ',
      'stage "S" {',
      'go to no-power',
      '// ',
      '/*',
      '28 V',
      '🛠',
    );
    const edits = fc.array(fc.record({ from: fc.nat(), length: fc.nat(40), text: pieces }), {
      minLength: 1,
      maxLength: 12,
    });
    await fc.assert(
      fc.asyncProperty(edits, async (changes) => {
        const path = `edited-${opened}.card`;
        await client.open(path, card);
        for (const { from, length, text } of changes) {
          const now = client.textOf(path);
          const start = whole(now, from % (now.length + 1));
          await client.edit(path, start, whole(now, Math.min(start + length, now.length)), text);
        }
        const after = sentences(await client.findings(path));
        expect(after).toEqual(await freshFindings(client.textOf(path)));
        await client.close(path);
      }),
      { numRuns: 40 },
    );
    expect(client.isAlive).toBe(true);
  });

  it('tells a finding with the path that shows it', async () => {
    const early = card.replace(/.*check bus-tie closed\r?\n/, '    step by cockpit  set bus-tie pulled\n');
    await client.open('typed.card', early);
    const notFed = (await client.findings('typed.card')).find(({ code }) => code === 'supply.not-fed');
    expect(notFed?.relatedInformation?.length).toBeGreaterThan(0);
    await client.close('typed.card');
  });
});

/** Never between the halves of a character, nor between CR and LF: an editor does not edit there. */
function whole(text: string, offset: number): number {
  const inside = /[\ud800-\udbff]$/.test(text.slice(0, offset)) || text.slice(offset - 1, offset + 1) === '\r\n';
  return inside ? offset - 1 : offset;
}

describe('a workspace', () => {
  const other = card.replace('card rinse-left', 'card rinse-again').replace('MG-72-03', 'MG-72-04');

  it('tells of files that are not open, and follows what changes outside', async () => {
    const client = await Client.start({
      files: {
        'marked-area.svg': sample('marked-area.svg'),
        'merganser.card': equipment,
        'one.card': card,
        'two.card': other.replace('set ear-defenders on', 'set ears on'),
      },
    });
    expect(sentences(await client.findings('two.card')).join()).toContain('“ears”');
    expect(await client.findings('one.card')).toEqual([]);
    client.published.length = 0;
    await client.writeFile('two.card', other);
    expect(await client.findings('two.card')).toEqual([]);
    client.published.length = 0;
    await client.writeFile('merganser.card', equipment.replaceAll('ear-defenders', 'ear-muffs'));
    expect(sentences(await client.findings('one.card')).join()).toContain('ear-defenders');
    await client.stop();
  });

  it('gives the same findings to an editor that pulls', async () => {
    const slip = card.replace('set ear-defenders on', 'set ears on');
    const files = { 'merganser.card': equipment, 'one.card': slip };
    const pulling = await Client.start({ files, capabilities: { textDocument: { diagnostic: {} } } });
    const pushed = await Client.start({ files });
    const expected = sentences(await pushed.findings('one.card'));
    const report = await pulling.request<DocumentDiagnosticReport>('textDocument/diagnostic', 'one.card');
    expect(report.kind === 'full' && sentences(report.items)).toEqual(expected);
    const everywhere = await pulling.connection.sendRequest<WorkspaceDiagnosticReport>('workspace/diagnostic', {
      previousResultIds: [],
    });
    expect(everywhere.items.map(({ uri }) => uri).sort()).toEqual([
      pulling.uri('merganser.card'),
      pulling.uri('one.card'),
    ]);
    const again = await pulling.request<DocumentDiagnosticReport>('textDocument/diagnostic', 'one.card', {
      previousResultId: report.resultId,
    });
    expect(again.kind).toBe('unchanged');
    expect(pulling.published).toEqual([]);
    await Promise.all([pulling.stop(), pushed.stop()]);
  });

  it('renames across files, and says why where it cannot', async () => {
    const client = await Client.start({ files: { 'merganser.card': equipment, 'one.card': card, 'two.card': other } });
    const line = card.split('\n').findIndex((text) => text.includes('set ear-defenders on'));
    const position = { line, character: (card.split('\n')[line] ?? '').indexOf('ear-defenders') + 2 };
    const edit = await client.request<WorkspaceEdit>('textDocument/rename', 'one.card', {
      position,
      newName: 'ear-muffs',
    });
    const changed = edit.documentChanges?.map(
      (change) => 'textDocument' in change && change.textDocument.uri.split('/').at(-1),
    );
    expect(changed?.sort()).toEqual(['merganser.card', 'one.card', 'two.card']);
    await expect(client.request('textDocument/rename', 'one.card', { position, newName: 'step' })).rejects.toThrow(
      'word of the language',
    );
    await expect(client.request('textDocument/rename', 'one.card', { position, newName: 'bus-tie' })).rejects.toThrow(
      'already',
    );
    await client.stop();
  });

  it('takes the settings of the editor, and before them those of the folder', async () => {
    const files = {
      'merganser.card': equipment,
      'one.card': card.replace('set ear-defenders on', 'set ears on'),
      'cardwright.json': '{ "levels": { "name": "warning" } }',
    };
    const client = await Client.start({ files, settings: { levels: { name: 'hint', safety: 'off' } } });
    const findings = await client.findings('one.card');
    expect(findings.map(({ code, severity }) => [code, severity])).toContainEqual(['name.unknown', 2]);
    await client.writeFile('cardwright.json', '{}');
    await expect.poll(async () => (await client.findings('one.card')).map(({ severity }) => severity)).toContain(3);
    await client.stop();
  });
});
