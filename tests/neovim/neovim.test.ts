/** The server with a client that we did not write: the one built into neovim. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { builtServer } from '../server/lsp/support/client.ts';

const text = `item drain : valve "the drain" normally closed
item the-cover : cover "the cover" normally fitted
rule drained "Drained first" {
  before the-cover removed
  require drain open
}
card clean "Clean" {
  number "N-1" revision "A" on 2026-01-01
  crew fitter "Fitter"
  stage "Open" {
    step set the-cover removed
    step set the-cover fitted
  }
}
`;

const hasNeovim = spawnSync('nvim', ['--version']).status === 0;
if (!hasNeovim && process.env.CI === 'true') throw new Error('Neovim is missing: install it.');

it.skipIf(!hasNeovim)('shows findings, mends them, and renames in neovim', () => {
  const folder = mkdtempSync(join(tmpdir(), 'cardwright-neovim-'));
  const output = join(folder, 'result.json');
  writeFileSync(join(folder, 'clean.card'), text);
  const lua = join(import.meta.dirname, 'client.lua');
  const run = spawnSync('nvim', ['--clean', '--headless', '-c', `luafile ${lua}`, 'clean.card'], {
    cwd: folder,
    encoding: 'utf8',
    timeout: 500_000,
    env: {
      ...process.env,
      HOME: folder,
      XDG_STATE_HOME: folder,
      CARDWRIGHT_OUTPUT: output,
      CARDWRIGHT_NODE: process.execPath,
      CARDWRIGHT_SERVER: builtServer(),
    },
  });
  expect(run.error).toBeUndefined();
  const result = JSON.parse(readFileSync(output, 'utf8'));
  expect(result).toMatchObject({ appeared: true, before: ['safety.rule'], mended: true });
  expect(result.fix).toContain('set drain open');
  expect(result.hover.contents.value).toContain('**the cover**');
  expect(result.definition.range.start).toEqual({ line: 1, character: 5 });
  expect(result.symbols.map(({ name }: { name: string }) => name)).toEqual(['drain', 'the-cover', 'drained', 'clean']);
  expect(result.text).toContain('item outlet : valve');
  expect(result.text).toContain('require outlet open');
  expect(result.text).not.toMatch(/\bdrain (open|closed)/);
  rmSync(folder, { recursive: true, force: true });
});
