import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
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
  async function fresh<Answer>(text: string, ask: (of: Client, path: string) => Promise<Answer>): Promise<Answer> {
    const path = `fresh-${opened++}.card`;
    await other.open(path, text);
    const answer = await ask(other, path);
    await other.close(path);
    return answer;
  }

  const findingsOf = async (of: Client, path: string) => sentences(await of.findings(path));

  /** Everything that an editor may ask of a file, with its place in the text taken in several spots. */
  async function answersOf(of: Client, path: string): Promise<string> {
    const lines = of.textOf(path).split(/\r\n|\n|\r/);
    const whole = { range: { start: { line: 0, character: 0 }, end: { line: lines.length, character: 0 } } };
    const spots = [3, 11, 17, 25].map((line) => ({
      position: { line, character: Math.min(18, lines[line]?.length ?? 0) },
    }));
    const answers = [
      await findingsOf(of, path),
      await of.request('textDocument/documentSymbol', path),
      await of.request('textDocument/foldingRange', path),
      await of.request('textDocument/semanticTokens/full', path),
      await of.request('textDocument/inlayHint', path, whole),
      await of.request('textDocument/codeLens', path),
      await of.request('textDocument/formatting', path, { options: { tabSize: 2, insertSpaces: true } }),
      await of.request('textDocument/codeAction', path, { ...whole, context: { diagnostics: [] } }),
      await of.connection.sendRequest('cardwright/preview', { uri: of.uri(path) }),
    ];
    for (const spot of spots) {
      answers.push(
        await of.request('textDocument/hover', path, spot),
        await of.request('textDocument/completion', path, spot),
      );
      answers.push(
        await of.request('textDocument/definition', path, spot),
        await of.request('textDocument/documentHighlight', path, spot),
      );
    }
    return JSON.stringify(answers)
      .replaceAll(of.uri(path), 'FILE')
      .replaceAll(of.uri('.'), 'FOLDER')
      .replace(/"version":\d+/g, '');
  }

  it('ends a card that is typed character by character with the findings of the finished file', async () => {
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
    expect(typed).toEqual(await fresh(slip, findingsOf));
    await client.close('typed.card');
  });

  it('ends any edits with the answers of a freshly opened file', async () => {
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
        try {
          for (const { from, length, text } of changes) {
            const now = client.textOf(path);
            const start = whole(now, from % (now.length + 1));
            await client.edit(path, start, whole(now, Math.min(start + length, now.length)), text);
          }
          const after = await answersOf(client, path);
          expect(after).toBe(await fresh(client.textOf(path), answersOf));
        } finally {
          await client.close(path);
        }
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

  it('takes what was saved from the disk once it is closed, though nobody tells of changed files', async () => {
    const eq = 'kind valve { closed "Close {}", open "Open {}" }\nitem v : valve "the valve"\n';
    const client = await Client.start({ files: { 'eq.card': eq } });
    const uses = 'use "eq.card"\nuse "new.card"\nrule r "R" { before v open require w closed }\n';
    await client.open('a.card', uses);
    await client.open('eq.card', eq);
    await client.open('new.card', '');
    const unknown = async () =>
      sentences(await client.findings('a.card')).flatMap((said) => /name.unknown.*?“(.*?)”/.exec(said)?.[1] ?? []);
    expect(await unknown()).toEqual(['w']);
    const saveAndClose = async (path: string, text: string) => {
      client.published.length = 0;
      await client.edit(path, 0, client.textOf(path).length, text);
      writeFileSync(join(client.folder, path), text);
      await client.close(path);
    };
    await saveAndClose('eq.card', eq.replace('item v', 'item w'));
    expect(await unknown()).toEqual(['v']);
    await saveAndClose('new.card', 'use "eq.card"\nitem v : valve "the other valve"\n');
    expect(await unknown()).toEqual([]);
    const symbols = await client.connection.sendRequest<{ name: string }[]>('workspace/symbol', { query: 'valve' });
    expect(symbols.map(({ name }) => name).sort()).toEqual(['v', 'valve', 'w']);
    await client.stop();
  });

  it('keeps the text of an open document whose URI the editor spells in two ways', async () => {
    const client = await Client.start({ files: { 'a(1).card': '' } });
    const uri = client.uri('a(1).card').replace('(', '%28').replace(')', '%29');
    const textDocument = { uri, languageId: 'cardwright', version: 1, text: 'item v : valv "the valve"\n' };
    await client.connection.sendNotification('textDocument/didOpen', { textDocument });
    const isTold = () => client.published.some((told) => told.uri === uri && told.diagnostics.length > 0) || undefined;
    await client.told(isTold);
    await client.request('textDocument/hover', 'a(1).card', { position: { line: 0, character: 5 } });
    await client.writeFile('a(1).card', 'item w : gat "the gate"\n');
    await client.connection.sendRequest('cardwright/counts', { uri });
    const symbols = await client.connection.sendRequest<{ name: string }[]>('workspace/symbol', { query: 'the' });
    expect(symbols.map(({ name }) => name)).toEqual(['v']);
    await client.stop();
  });

  it('checks again what was typed in or saved, and no other file', async () => {
    const files = { 'merganser.card': equipment, 'one.card': card, 'two.card': other, 'three.card': equipment };
    const client = await Client.start({ files });
    await client.told(() => client.checked.size === 4 || undefined);
    client.checked.clear();
    await client.open('one.card', card);
    const word = card.indexOf('Keep everyone');
    await client.edit('one.card', word, word, 'x');
    await client.findings('one.card');
    await client.writeFile('two.card', `${other}\n`);
    await client.told(() => client.checked.has(client.uri('two.card')) || undefined);
    await client.writeFile('three.card', `${equipment}\n`);
    await client.told(() => client.checked.has(client.uri('three.card')) || undefined);
    expect([...client.checked.keys()]).toEqual(['one.card', 'two.card', 'three.card'].map((path) => client.uri(path)));
    await client.stop();
  });

  it('says of all files, whichever are typed in or saved, what it would if they were opened anew', async () => {
    const files = { 'merganser.card': equipment, 'one.card': card, 'two.card': other };
    const paths = Object.keys(files);
    const capabilities = { textDocument: { diagnostic: {} } };
    const typings = ['x', '1', ' ', '\n', '"', '}', 'step "Look." ', 'read oil at most 5 bar '];
    const seed = Number(process.env.SEED ?? 20261130);
    const change = fc.record({
      path: fc.constantFrom(...paths),
      at: fc.nat(),
      length: fc.nat(3),
      typed: fc.constantFrom(...typings),
    });
    const rounds = fc.sample(fc.array(change, { minLength: 1, maxLength: 4 }), { numRuns: 6, seed });
    const told = async (of: Client) => {
      const { items } = await of.connection.sendRequest<WorkspaceDiagnosticReport>('workspace/diagnostic', {
        previousResultIds: [],
      });
      return items
        .flatMap((item) => (item.kind === 'full' ? [[item.uri.split('/').at(-1), sentences(item.items).sort()]] : []))
        .sort();
    };
    const kept = await Client.start({ files, capabilities });
    for (const path of ['one.card', 'merganser.card']) await kept.open(path, files[path as keyof typeof files]);
    const texts: Record<string, string> = { ...files };
    for (const [round, changes] of rounds.entries()) {
      for (const { path, at, length, typed } of changes) {
        const before = texts[path] as string;
        const start = whole(before, at % (before.length + 1));
        const end = whole(before, Math.min(start + length, before.length));
        texts[path] = before.slice(0, start) + typed + before.slice(end);
        if (texts[path] === before) continue;
        if (path === 'two.card') {
          kept.checked.delete(kept.uri(path));
          await kept.writeFile(path, texts[path]);
          await kept.told(() => kept.checked.has(kept.uri(path)) || undefined);
        } else await kept.edit(path, start, end, typed);
      }
      const anew = await Client.start({ files: texts, capabilities });
      expect([`round ${round} of seed ${seed}`, await told(kept)]).toEqual([
        `round ${round} of seed ${seed}`,
        await told(anew),
      ]);
      await anew.stop();
    }
    await kept.stop();
  });

  it('names with a broken rule of a shipped rulebook its page, which “Explain” shows', async () => {
    const text = `use "std:record"
item panel : access-panel "the panel"
card c "C" { number "1" revision "A" crew fitter "Fitter"   step by fitter set panel open }`;
    const client = await Client.start({ files: { 'one.card': text } });
    const broken = (await client.findings('one.card')).filter(({ code }) => code === 'safety.rule');
    expect(broken.map(({ data }) => data)).toContain('std:record/panels-closed');
    const { markdown } = await client.connection.sendRequest<{ markdown: string }>('cardwright/explain', {
      code: 'std:record/panels-closed',
    });
    expect(markdown).toContain('145.A.48');
    await client.stop();
  });

  it('notices a figure that comes and goes', async () => {
    const client = await Client.start({ files: { 'merganser.card': equipment, 'one.card': card } });
    const codes = async () => (await client.findings('one.card')).map(({ code }) => code);
    expect(await codes()).toEqual(['figure.unusable']);
    client.published.length = 0;
    await client.writeFile('marked-area.svg', sample('marked-area.svg'));
    expect(await codes()).toEqual([]);
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

  it('gives an editor that pulls what a change on disk brings, also where it asks before that is read', async () => {
    const files = { 'merganser.card': equipment, 'one.card': card };
    const client = await Client.start({ files, capabilities: { textDocument: { diagnostic: {} } } });
    const pulled = async () => {
      const report = await client.request<DocumentDiagnosticReport>('textDocument/diagnostic', 'one.card');
      return report.kind === 'full' ? report.items.map(({ code }) => code) : undefined;
    };
    expect(await pulled()).not.toContain('name.unknown');
    await client.writeFile('one.card', card.replace('set ear-defenders on', 'set ears on'));
    expect(await pulled()).toContain('name.unknown');
    await client.stop();
  });

  describe('a card', () => {
    const text = (times: number) => `kind lamp { off, on }
item lamp : lamp "the lamp" normally on
card c "C" {
  revision "A" crew mechanic "Mechanic"
  accept card.missing-field because "The office numbers the cards." by "A writer"
  step set lamp off
  step set lantern off
${'  step "Look at the lamp properly, and say what is seen there."\n'.repeat(times)}}
`;
    const all = ['name.unknown', 'prose.vague', 'safety.left-changed'];
    const codesOf = (diagnostics: readonly Diagnostic[]) => [...new Set(diagnostics.map(({ code }) => code))].sort();
    const opened = async (times: number) => {
      const client = await Client.start({ options: { findings: 'push' } });
      await client.open('a.card', text(times));
      await client.untilFindings('a.card', codesOf, all);
      return client;
    };

    it('is told in one go where it is short', async () => {
      const client = await opened(1);
      expect(client.published).toHaveLength(1);
      await client.stop();
    });

    it('is told in two where it is long and open: what reading it shows, then all', async () => {
      const client = await opened(400);
      expect(client.published.map(({ diagnostics }) => codesOf(diagnostics))).toEqual([['name.unknown'], all]);
      const at = text(400).indexOf('  step set lantern off');
      await client.edit('a.card', at, at, '  step set torch off\n');
      await client.told(() => client.published.length === 4 || undefined);
      const [soon, newest] = client.published.slice(2).map(({ diagnostics }) => diagnostics);
      expect(soon?.filter(({ code }) => code === 'name.unknown')).toHaveLength(2);
      const places = (diagnostics: readonly Diagnostic[] = []) =>
        diagnostics.map(({ code, range }) => `${range.start.line}:${range.start.character} ${code}`);
      expect(places(soon), 'what was told before has moved with its text').toEqual(places(newest));
      const letter = client.textOf('a.card').indexOf('properly');
      await client.edit('a.card', letter, letter, 'x');
      await client.findings('a.card');
      expect(client.published, 'after a letter nearly all is known').toHaveLength(5);
      await client.stop();
    });

    it('is told in one go where nobody has opened it', async () => {
      const client = await Client.start({ files: { 'a.card': text(400) }, options: { findings: 'push' } });
      await client.untilFindings('a.card', codesOf, all);
      expect(client.published).toHaveLength(1);
      await client.stop();
    });
  });

  it('goes from the path of a use to the file, shipped ones too, and nowhere where there is none', async () => {
    const text = 'use "merganser.card"\nuse "std:kinds"\nuse "lost.card"\n';
    const client = await Client.start({ files: { 'merganser.card': equipment } });
    await client.open('one.card', text);
    const from = (line: number) =>
      client.request<{ uri: string } | null>('textDocument/definition', 'one.card', {
        position: { line, character: 7 },
      });
    expect((await from(0))?.uri).toBe(client.uri('merganser.card'));
    expect((await from(1))?.uri).toContain('kinds');
    expect(await from(2)).toBeNull();
    await client.stop();
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
    await client.untilFindings('one.card', (findings) => findings.some(({ severity }) => severity === 3), true);
    await client.stop();
  });

  it('has several roots, which come and go', async () => {
    const files = {
      'here/a.card': 'card a "A" { step set nothing on }',
      'there/b.card': 'card b "B" { step set nothing on }',
    };
    const client = await Client.start({ files, root: 'here', capabilities: { workspace: { workspaceFolders: true } } });
    expect((await client.findings('here/a.card')).length).toBeGreaterThan(0);
    expect(client.published.some(({ uri }) => uri === client.uri('there/b.card'))).toBe(false);
    const there = { uri: client.uri('there'), name: 'there' };
    await client.connection.sendNotification('workspace/didChangeWorkspaceFolders', {
      event: { added: [there], removed: [] },
    });
    expect((await client.findings('there/b.card')).length).toBeGreaterThan(0);
    client.published.length = 0;
    await client.connection.sendNotification('workspace/didChangeWorkspaceFolders', {
      event: { added: [], removed: [there] },
    });
    expect(await client.findings('there/b.card')).toEqual([]);
    await client.stop();
  });
});
