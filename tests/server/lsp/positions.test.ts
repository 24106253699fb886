import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FileNames } from '../../../server/lsp/file-names.ts';
import { toOffset, toPosition, toRange, toSpan } from '../../../server/lsp/positions.ts';
import { LineTable } from '../../../shared/text.ts';

describe('positions', () => {
  const text = 'step "é 🛠"\r\nstep\n';

  it('counts columns in UTF-16 units and takes any line end', () => {
    const lines = new LineTable(text);
    expect(toPosition(lines, 10)).toEqual({ line: 0, character: 10 });
    expect(toPosition(lines, text.indexOf('step', 1))).toEqual({ line: 1, character: 0 });
  });

  it('moves what lies outside to the nearest end', () => {
    const lines = new LineTable(text);
    expect(toOffset(lines, { line: 0, character: 99 })).toBe(11);
    expect(toOffset(lines, { line: 99, character: 0 })).toBe(text.length);
  });

  it('comes back to the same span, in any text', () => {
    const texts = fc.string({ unit: fc.constantFrom('a', '\n', '\r\n', '🛠', 'é') });
    fc.assert(
      fc.property(texts, fc.nat(), fc.nat(), (text, one, other) => {
        const lines = new LineTable(text);
        // A place between CR and LF is none that an editor can name.
        const offsets = [one, other]
          .map((n) => n % (text.length + 1))
          .map((n) => (text.slice(n - 1, n + 1) === '\r\n' ? n - 1 : n));
        const [start = 0, end = 0] = offsets.sort((a, b) => a - b);
        expect(toSpan(lines, toRange(lines, { start, end }))).toEqual({ start, end });
      }),
    );
  });
});

describe('names of files', () => {
  it('are the same however the editor escapes them, and go back as the editor wrote them', () => {
    const names = new FileNames(() => false);
    const uri = 'file:///c%3A/cards/left%20wash.card';
    expect(names.fileOf(uri)).toBe('file:///c:/cards/left wash.card');
    expect(names.fileOf('file:///c:/cards/left%20wash.card')).toBe('file:///c:/cards/left wash.card');
    expect(names.uriOf('file:///c:/cards/other one.card')).toBe('file:///c:/cards/other%20one.card');
    expect(names.uriOf('file:///a/#1.card')).toBe('file:///a/%231.card');
    names.fileOf('file:///c%3A/a.card');
    names.fileOfListed('file:///c:/a.card');
    expect(names.uriOf('file:///c:/a.card')).toBe('file:///c%3A/a.card');
    expect(names.uriOf('std:kinds')).toBe('cardwright-std:/kinds.card');
    expect(names.fileOf('cardwright-std:/kinds.card')).toBe('std:kinds');
    expect(names.fileOf('file:///50%.card')).toBe('file:///50%.card');
  });

  it('go back as a document was opened, however else the editor spells it meanwhile', () => {
    const open = new Set(['file:///a%28.card']);
    const names = new FileNames((uri) => open.has(uri));
    for (const uri of ['file:///a%28.card', 'file:///a(.card']) names.fileOf(uri);
    expect(names.uriOf('file:///a(.card')).toBe('file:///a%28.card');
    open.clear();
    names.fileOf('file:///a(.card');
    expect(names.uriOf('file:///a(.card')).toBe('file:///a(.card');
  });
});
