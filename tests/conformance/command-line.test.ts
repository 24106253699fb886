/** The program as it is built, run as a process: exit codes, what it prints, and what it makes of files of every sort. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';

const clean = `card wash "Wash" {
  number "1"
  revision "A"
  crew mechanic "Mechanic"
  step "Look at the hose."
}
`;
const vague = clean.replace('at the hose', 'at sufficient hoses');
const faulty = `item ignition : breaker "the ignition breaker" normally closed
rule dead "Dead first" {
  before ignition pulled
  require not ignition closed
  source "Handbook, 3.2"
}
card wash "Wäsche 🚿" {
  number "2" revision "A" crew mechanic "Mechanic"
  step "🚿 Look." set ignition pulled
}
`;

const program = mkdtempSync(join(tmpdir(), 'cardwright-program-'));
const cli = join(program, 'cli.cjs');

beforeAll(async () => {
  const bundled = { bundle: true, loader: { '.card': 'text' }, logLevel: 'warning' } as const;
  await build({
    ...bundled,
    entryPoints: ['client/command-line/main.ts'],
    outfile: cli,
    platform: 'node',
    format: 'cjs',
    alias: { fdir: './node_modules/fdir/dist/index.cjs' },
  });
  await build({ ...bundled, entryPoints: ['client/work-copy/page.ts'], outfile: join(program, 'work-copy.js') });
});
afterAll(() => rmSync(program, { recursive: true }));

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cardwright-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

function write(file: string, content: string | Uint8Array) {
  mkdirSync(dirname(join(folder, file)), { recursive: true });
  writeFileSync(join(folder, file), content);
}

function run(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [cli, ...args], { cwd: folder, encoding: 'utf8' });
  return { code: status, out: stdout, errors: stderr };
}

describe('check', () => {
  test('ends with 0 where nothing is wrong, 1 at an error, 2 where it could not run', () => {
    write('a.card', clean);
    write('b.card', faulty);
    expect(run('check', 'a.card').code).toBe(0);
    expect(run('check', 'a.card', 'b.card').code).toBe(1);
    expect(run('check', 'none.card').code).toBe(2);
    expect(run('check').code).toBe(2);
    expect(run('check', 'a.card', '--format', 'yaml').code).toBe(2);
  });

  test('takes a hint for no failure, unless it is strict', () => {
    write('a.card', vague);
    expect(run('check', 'a.card')).toMatchObject({ code: 0, out: expect.stringContaining('prose.vague') });
    expect(run('check', 'a.card', '--strict').code).toBe(1);
  });

  test('prints one object of the agreed shape, and nothing beside it', () => {
    write('sub/b.card', faulty);
    const { out, errors } = run('check', 'sub', '--format', 'json');
    expect(errors).toBe('');
    const report = JSON.parse(out);
    expect(Object.keys(report)).toEqual(['findings', 'summary']);
    expect(report.summary).toEqual({
      files: 1,
      cards: 1,
      errors: 2,
      warnings: 0,
      hints: 0,
      coverage: expect.any(Array),
    });
    const [broken, left] = report.findings;
    const place = { file: 'sub/b.card', line: 9, column: 19, endLine: 9, endColumn: 38 };
    expect(broken).toEqual({
      ...place,
      code: 'safety.left-changed',
      level: 'error',
      message: expect.any(String),
      path: expect.any(Array),
      fixes: expect.any(Array),
    });
    expect(left).toMatchObject({ ...place, code: 'safety.rule', rule: 'dead', source: 'Handbook, 3.2' });
    for (const step of broken.path)
      expect(step).toEqual({ file: 'sub/b.card', line: expect.any(Number), text: expect.any(String) });
    for (const fix of broken.fixes) expect(fix).toEqual({ title: expect.any(String) });
  });

  test('prints an empty list where nothing is wrong', () => {
    write('a.card', clean);
    expect(JSON.parse(run('check', 'a.card', '--format', 'json').out)).toEqual({
      findings: [],
      summary: { files: 1, cards: 1, errors: 0, warnings: 0, hints: 0, coverage: expect.any(Array) },
    });
  });

  test('shows the line, the place and the path', () => {
    write('b.card', faulty);
    const { out } = run('check', 'b.card');
    expect(out).toContain('b.card:9:19: error safety.rule');
    expect(out).toContain('9 |   step "🚿 Look." set ignition pulled');
    expect(out).toContain('path:');
  });

  test('writes SARIF 2.1.0', () => {
    write('b.card', faulty);
    const log = JSON.parse(run('check', 'b.card', '--format', 'sarif').out);
    expect(log).toMatchObject({ version: '2.1.0', runs: [{ columnKind: 'utf16CodeUnits' }] });
    expect(log.runs[0].results.map(({ ruleId, level }: Record<string, string>) => [ruleId, level])).toEqual([
      ['safety.left-changed', 'error'],
      ['safety.rule', 'error'],
    ]);
  });

  test('searches a folder, and says so where no card is in it', () => {
    write('deep/er/a.card', clean);
    mkdirSync(join(folder, 'empty'));
    expect(run('check', '.').out).toContain('1 card');
    expect(run('check', 'empty').code).toBe(2);
  });

  test('says of a binary file that it is no text', () => {
    write('a.card', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 0xff]));
    expect(run('check', 'a.card')).toMatchObject({ code: 2, errors: expect.stringContaining('no text') });
  });

  test('reads a file with a byte order mark and Windows line ends as any other', () => {
    write('b.card', faulty);
    const plain = run('check', 'b.card', '--format', 'json').out;
    write('b.card', `\uFEFF${faulty.replaceAll('\n', '\r\n')}`);
    expect(run('check', 'b.card', '--format', 'json').out).toBe(plain);
  });

  test.each([
    ['a text', clean.replace('Look at the hose.', 'Look at the hose. '.repeat(290_000))],
    [
      'one step after the other',
      clean.replaceAll('\n', ' ').replace('step "Look at the hose."', 'step "Look." '.repeat(1000)).padEnd(5_000_000),
    ],
    ['nonsense', 'x'.repeat(5_000_000)],
  ])('reads a line of 5 MB: %s', (_, text) => {
    write('a.card', text);
    const { code, out, errors } = run('check', 'a.card');
    expect(out.length).toBeLessThan(2000);
    expect([0, 1]).toContain(code);
    expect(errors).toBe('');
  });
});

describe('export', () => {
  test('writes one file for each card, that asks for nothing from outside', () => {
    write('a.card', clean + clean.replace('wash', 'rinse').replace('"1"', '"2"'));
    expect(run('export', 'a.card', '--to', 'out').code).toBe(0);
    for (const name of ['wash', 'rinse']) {
      const html = readFileSync(join(folder, 'out', `${name}.html`), 'utf8');
      expect(html).toContain('Look at the hose.');
      expect(html).not.toMatch(/(?:src|href)="?(?:https?:)?\/\//);
    }
  });

  test('refuses a card with errors, unless it is a draft', () => {
    write('b.card', faulty);
    expect(run('export', 'b.card').code).toBe(1);
    expect(existsSync(join(folder, 'wash.html'))).toBe(false);
    expect(run('export', 'b.card', '--draft').code).toBe(0);
    expect(readFileSync(join(folder, 'wash.html'), 'utf8')).toMatch(/draft/i);
  });

  test('lets a card with hints pass', () => {
    write('a.card', vague);
    expect(run('export', 'a.card').code).toBe(0);
  });
});

describe('format', () => {
  const untidy = clean.replaceAll('\n', '\n\n').replaceAll('  ', '      ');

  test('prints, checks, or writes the usual layout', () => {
    write('a.card', untidy);
    const { code, out } = run('format', 'a.card');
    expect(code).toBe(0);
    expect(readFileSync(join(folder, 'a.card'), 'utf8')).toBe(untidy);
    expect(run('format', 'a.card', '--check').code).toBe(1);
    expect(run('format', 'a.card', '--write').code).toBe(0);
    expect(readFileSync(join(folder, 'a.card'), 'utf8')).toBe(out);
    expect(run('format', 'a.card', '--check').code).toBe(0);
  });
});

describe('explain', () => {
  test('says what a finding means', () => {
    expect(run('explain', 'safety.rule')).toMatchObject({ code: 0, out: expect.stringContaining('What to do') });
    expect(run('explain', 'safety.rool').code).toBe(2);
  });
});
