/** Runs `host/suite.ts` inside the extension host of the real editor. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { buildSync } from 'esbuild';
import { globSync } from 'tinyglobby';
import { expect, it } from 'vitest';
import { canRunEditor, openEditor } from './support/editor.ts';

const root = resolve(import.meta.dirname, '../..');
const sample = (name: string) => readFileSync(join(root, 'samples/merganser', name), 'utf8');

const files = {
  'merganser.card': sample('merganser.card'),
  'rinse.card': sample('rinse.card'),
  'marked-area.svg': sample('marked-area.svg'),
  'parts.card': 'item left-valve : valve "the left valve" normally closed\n',
  'faulty.card': `use "parts.card"
procedure look(which: valve) "Look at it" { step check which closed }
card round "Look round" {
  number "R-1" revision "A" on 2026-02-03
  crew fitter "Fitter"
  stage "Round" {
    step by fitter set left-valv closed
    do look(left-valve)
  }
}
`,
  'slips.card': 'card c "C" { number "1" revision "A" on 2026-01-01 crew m "M"\n  stage "S" {\n    step "Look."\n}\n',
  'untidy.card': 'item   left-valve:valve   "the left valve"\n\n\n\nitem right-valve :valve "the right valve"',
};

it.skipIf(!canRunEditor)('keeps every promise inside the extension host', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'cardwright-host-'));
  buildSync({
    entryPoints: [join(import.meta.dirname, 'host/suite.ts')],
    outfile: join(folder, 'index.js'),
    bundle: true,
    platform: 'node',
    format: 'cjs',
    external: ['vscode'],
  });
  const log: string[] = [];
  let ended: (code: number) => void = () => {};
  const exitCode = new Promise<number>((resolveCode) => {
    ended = resolveCode;
  });
  const remote = (port: number, path: string) => `vscode-remote://127.0.0.1:${port}${path}`;
  const editor = await openEditor({
    files,
    install: false,
    prepare: async (page) => {
      await page.exposeFunction('codeAutomationExit', ended);
      await page.exposeFunction('codeAutomationLog', (_: string, args: unknown[]) =>
        log.push(args.map(String).join(' ')),
      );
    },
    query: (port) => {
      const development = process.env.EXTENSION ?? root;
      const payload = [
        ['extensionDevelopmentPath', remote(port, development)],
        ['extensionTestsPath', remote(port, join(folder, 'index'))],
      ];
      return `&payload=${encodeURIComponent(JSON.stringify(payload))}`;
    },
  });
  const code = await exitCode;
  const logs = globSync('**/*Cardwright.log', { cwd: join(editor.workspace, '../user-data/logs'), absolute: true });
  const said = logs.map((path) => readFileSync(path, 'utf8')).join('\n');
  await editor.close();
  rmSync(folder, { recursive: true, force: true });
  const told = log.filter((line) => /passed: |failed: /.test(line));
  expect(told.filter((line) => line.includes('failed: ')).join('\n'), said).toBe('');
  expect(told.length).toBeGreaterThan(10);
  expect(code).toBe(0);
});
