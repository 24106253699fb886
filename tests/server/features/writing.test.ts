import { describe, expect, it } from 'vitest';
import { openWorkspace } from '../../../server/api.ts';
import { exportCard, preview } from '../../../server/features/card-page.ts';
import { fixAll } from '../../../server/features/fix-all.ts';
import { formatTyped } from '../../../server/features/format-typed.ts';
import { truthOf } from '../../../server/features/situation/truth.ts';
import { soundFixes } from '../../../server/sound-fixes.ts';
import type { Condition } from '../../../shared/card.ts';
import type { Finding, TextEdit } from '../../../shared/finding.ts';
import { finish } from '../../../shared/parts.ts';
import { defaultSettings } from '../../../shared/settings.ts';
import { card, open, plant } from './support.ts';

function apply(
  text: string,
  edits: readonly { readonly start: number; readonly end: number; readonly newText: string }[],
): string {
  return [...edits]
    .sort((a, b) => b.start - a.start)
    .reduce((now, { start, end, newText }) => now.slice(0, start) + newText + now.slice(end), text);
}

describe('formatting while typing', () => {
  it('brings the line that was ended into order, and leaves the new one to the writer', () => {
    const { snapshot, offset } = open('item   pump:switch   "the pump"\n$0\n\n\nitem  other : switch\n');
    expect(apply(snapshot.text, formatTyped(snapshot, offset, '\n'))).toBe(
      'item pump : switch "the pump"\n\n\n\nitem  other : switch\n',
    );
  });

  it('brings the line of a closed block into order', () => {
    const { snapshot, offset } = open(
      'rule r "R" {\n  before   main-switch on\n    require oil in working\n     }$0\n',
    );
    const after = apply(snapshot.text, formatTyped(snapshot, offset, '}'));
    expect(after).toBe('rule r "R" {\n  before   main-switch on\n    require oil in working\n}\n');
  });

  it('puts a closing brace under the line that it closes, where more is still open', () => {
    const before = 'card c "C" {\n  stage "One" {\n    step "Look."\n    }';
    const dedented = before.replace(/ {4}\}$/, '  }');
    const closed = open(`${before}$0`);
    expect(apply(closed.snapshot.text, formatTyped(closed.snapshot, closed.offset, '}'))).toBe(dedented);
    const ended = open(`${before}\n    $0`);
    expect(apply(ended.snapshot.text, formatTyped(ended.snapshot, ended.offset, '\n'))).toBe(`${dedented}\n  `);
  });

  it.each([
    ['step "Look.\n  $0"\n', 'step "Look."\n  \n'],
    ['step "\n$0"', 'step ""\n'],
    ['step "Look at \\"A.\n$0"\nstep "B."\n', 'step "Look at \\"A."\n\nstep "B."\n'],
    ['step "Look at\n$0the lid."\n', undefined],
    ['step "Look." // "\n$0"\n', undefined],
    ['step "Look."\n$0"', undefined],
  ])('a text that was left before its quotation mark ends with its line: %j', (marked, expected) => {
    const { snapshot, offset } = open(marked);
    const after = apply(snapshot.text, formatTyped(snapshot, offset, '\n'));
    expect(after).toBe(expected ?? snapshot.text);
  });

  it('ends no line and joins none', () => {
    const { snapshot, offset } = open('kind k {\n  a, b\n}$0 kind l { c }\n');
    expect(formatTyped(snapshot, offset, '}').filter(({ newText }) => newText.includes('\n'))).toEqual([]);
  });

  it('leaves columns to the whole text: those of one line fit none', () => {
    const { snapshot, offset } = open(
      'item pump : switch "the pump" at "bay"\nitem other-one : switch "the other pump" at "hall"\n$0\n',
    );
    expect(formatTyped(snapshot, offset, '\n')).toEqual([]);
  });
});

describe('mending all slips of the pen', () => {
  const place = (start: number, end: number) => ({ file: '/here.card', start, end });
  const finding = (code: string, start: number, fixes: number) => {
    const edits: TextEdit[] = [{ place: place(start, start + 2), newText: 'x' }];
    const fix = { title: 'Mend', edits };
    return {
      code,
      level: 'error',
      place: place(start, start + 2),
      message: '',
      path: [],
      fixes: Array(fixes).fill(fix),
    } as const;
  };

  const taken = (findings: readonly Finding[], file = '/here.card') =>
    finish(
      fixAll(findings, file, function* ({ fixes }) {
        yield;
        return fixes;
      }),
    );

  it('takes what has one plain mend, and of two that touch the first', () => {
    const findings = [finding('syntax.missing', 0, 1), finding('syntax.text', 1, 1), finding('accept.unused', 10, 1)];
    expect(taken(findings).map(({ place: { start } }) => start)).toEqual([0, 10]);
  });

  it('leaves what changes the job, what has several mends, and other files', () => {
    expect(taken([finding('safety.rule', 0, 1), finding('syntax.missing', 5, 2)])).toEqual([]);
    expect(taken([finding('syntax.missing', 0, 1)], '/there.card')).toEqual([]);
  });

  const machine = 'kind valve { closed "Close {}", open "Open {}" }\nitem v : valve "the valve" normally closed\n';
  const head = 'card c "C" {\n  number "1" revision "A" crew a "Ann"\n';
  const withFixes = (text: string) => {
    const { workspace, check } = openWorkspace({ readText: (file) => (file === '/here.card' ? text : undefined) });
    const { findings } = check(['/here.card']);
    const sound = (one: Finding) => soundFixes(one, workspace, () => defaultSettings);
    return { fixes: findings.flatMap(({ fixes }) => fixes), edits: finish(fixAll(findings, '/here.card', sound)) };
  };

  it.each([
    ['a sign before an action', `${machine}${head}  ^ set v open\n  step set v closed\n}\n`],
    [
      'a comment with one stroke',
      `${machine}${head}  step set v open\n  /         ^^^^ duty.takes\n  step set v closed\n}\n`,
    ],
    ['another sign for a brace', 'supply electricity "electricity" ^\n  source grid\n  link grid -> v\n}\n'],
    [
      'the last state once more for the last brace',
      `${machine}${head}  step set v open\n  step set v closed\nclosed\n`,
    ],
  ])('leaves what is not sound: %s', (_, text) => {
    const { fixes, edits } = withFixes(text);
    expect(fixes.length).toBeGreaterThan(0);
    expect(edits).toEqual([]);
  });

  it('makes what is sound', () => {
    const text = `${machine}${head}  step "Look.\n  step set v open;\n  step set v closed\n}\n`;
    const { edits } = withFixes(text);
    expect(
      apply(
        text,
        edits.map(({ place, newText }) => ({ ...place, newText })),
      ),
    ).toBe(text.replace('Look.', 'Look."').replace(';', ''));
  });
});

describe('the card of a file', () => {
  function pageOf(statements: string, more = '') {
    const files: Readonly<Record<string, string>> = { '/plant.card': plant, '/here.card': card(statements) + more };
    const api = openWorkspace({ readText: (file) => files[file] });
    const snapshot = api.workspace.snapshot('/here.card');
    if (!snapshot) throw new Error('There is no text.');
    const { findings, accepted } = api.check(['/here.card']);
    return { workspace: api.workspace, snapshot, findings, accepted, settings: defaultSettings };
  }

  it('is shown whole, for a choice of machines, and by name where there are several', () => {
    const context = pageOf(
      'step only unit 2 to 3 "Look."\nstep "Leave."',
      'variant unit 1 to 3\ncard other "Other" { }\n',
    );
    const page = finish(preview(context, {}));
    expect(page.cards.map(({ name }) => name)).toEqual(['serve', 'other']);
    expect(page.configurations.map(({ label, values }) => [label, values])).toEqual([
      ['unit 1', { unit: '1' }],
      ['unit 2 to 3', { unit: '2' }],
    ]);
    expect(finish(preview(context, { configuration: { unit: '1' } })).body).not.toContain('Look.');
    expect(finish(preview(context, { configuration: { unit: '2' } })).body).toContain('>unit 2 to 3<');
    expect(finish(preview(context, { card: 'other' })).body).toContain('Other');
  });

  it('says so where a file has none', () => {
    const { workspace, settings } = pageOf('');
    const snapshot = workspace.snapshot('/plant.card');
    const page = snapshot && finish(preview({ workspace, snapshot, findings: [], accepted: [], settings }, {}));
    expect(page?.body).toContain('no card in this file');
    expect(
      snapshot && finish(exportCard({ workspace, snapshot, findings: [], accepted: [], settings }, { draft: true })),
    ).toEqual({
      type: 'no-card',
    });
  });

  it('leaves the card at the cursor, or else the one that is shown, and asks where neither says which', () => {
    const several = pageOf('step by fitter "Look."', 'card other "Other" { }\n');
    const fileName = (wanted: { card?: string; offset?: number }) =>
      finish(exportCard(several, { ...wanted, draft: true }));
    const offset = several.snapshot.text.indexOf('card other') + 3;
    expect(fileName({ offset })).toMatchObject({ type: 'card', fileName: 'other.html' });
    expect(fileName({ offset, card: 'serve' })).toMatchObject({ fileName: 'other.html' });
    expect(fileName({ card: 'other' })).toMatchObject({ fileName: 'other.html' });
    expect(fileName({})).toMatchObject({ type: 'several', cards: [{ name: 'serve' }, { name: 'other' }] });
  });

  it('leaves with errors only as a draft', () => {
    const faulty = pageOf('step by nobody "Look."');
    expect(finish(exportCard(faulty, { draft: false }))).toEqual({ type: 'refused', errors: 1 });
    expect(finish(exportCard(faulty, { draft: true }))).toMatchObject({ type: 'card', fileName: 'serve.html' });
    expect(finish(exportCard(pageOf('step by fitter "Look."'), { draft: false }))).toMatchObject({ type: 'card' });
  });
});

describe('what is sure where items are known by their possible states', () => {
  const { items } = open(card('')).snapshot.bound.equipment;
  const [first, second] = items;
  const place = { file: '', start: 0, end: 0 };
  const is = (item: (typeof items)[0] | undefined, state: number): Condition => {
    if (!item) throw new Error('There is no such item.');
    return { type: 'state', item, state, place };
  };
  const truth = (condition: Condition) => truthOf(condition, (item) => (item === first ? [1] : [0, 1]));

  it.each<[string, Condition, string]>([
    ['the only state', is(first, 1), 'yes'],
    ['another state', is(first, 0), 'no'],
    ['one of two', is(second, 0), 'either'],
    ['sure and either', { type: 'and', terms: [is(first, 1), is(second, 0)], place }, 'either'],
    ['out of the question and either', { type: 'and', terms: [is(first, 0), is(second, 0)], place }, 'no'],
    ['sure or either', { type: 'or', terms: [is(first, 1), is(second, 0)], place }, 'yes'],
    ['not what is out of the question', { type: 'not', term: is(first, 0), place }, 'yes'],
    ['what is open', { type: 'open', place }, 'either'],
  ])('%s', (_, condition, expected) => expect(truth(condition)).toBe(expected));
});
