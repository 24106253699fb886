/**
 * Whole folders: what is kept, what is worked out on threads, and which part is looked at. `CARDS=1000` tries as many cards as a
 * large shop has.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, existsSync, readdirSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Worker } from 'node:worker_threads';
import { describe, expect, it, test, vi } from 'vitest';
import { keptFolder } from '../../client/command-line/folder/kept.ts';
import type { Machine } from '../../client/command-line/surroundings.ts';
import { cardFolder, plant } from '../support/card-folder.ts';
import { cleanCard, type Folder, faultyCard, folder } from './support.ts';

const count = Number(process.env.CARDS ?? 24);

function folderOf(cards: Readonly<Record<string, string>>): Folder {
  const here = folder();
  for (const [name, text] of Object.entries(cards)) here.write(name, text);
  return here;
}

const json = ['check', '.', '--format', 'json'];
const fresh = [...json, '--no-cache'];

const entries = (here: Folder) => {
  const at = join(here.path, keptFolder);
  return existsSync(at) ? readdirSync(at).filter((name) => name !== '.gitignore') : [];
};

/** As `npm run build` makes it. */
const startThread: Machine['startThread'] = (data) => new Worker(resolve('dist/cli.cjs'), { workerData: data });

test(`${count} cards give the same answers worked out here, on threads, kept, and kept in part`, {
  timeout: 10_000 * count,
}, async () => {
  const here = folderOf(cardFolder(count, 12));
  const plainly = await here.run(fresh);
  expect(JSON.parse(plainly.out).findings.length).toBeGreaterThan(count / 10);
  expect(await here.run([...fresh, '--threads', '2'], '.', { startThread })).toEqual(plainly);
  expect(entries(here)).toEqual([]);
  expect(await here.run([...json, '--threads', '2'], '.', { startThread })).toEqual(plainly);
  expect(entries(here).length).toBeGreaterThan(count);
  expect(await here.run(json)).toEqual(plainly);
  for (const name of entries(here).filter((_, index) => index % 3 === 0)) rmSync(join(here.path, keptFolder, name));
  expect(await here.run(json)).toEqual(plainly);
});

describe('what is kept', () => {
  const two = () => folder().write('a.card', faultyCard).write('b.card', cleanCard);

  /** Which cards are worked out anew, told by which entries are written again. */
  async function again(here: Folder, more: Partial<Machine> = {}) {
    const before = new Map(entries(here).map((name) => [name, here.read(join(keptFolder, name))]));
    for (const name of before.keys()) here.write(join(keptFolder, name), `${before.get(name)}`);
    const ran = await here.run(json, '.', more);
    const written = entries(here).filter((name) => here.read(join(keptFolder, name)) !== before.get(name));
    return { ran, written: written.length };
  }

  it('is nothing of one card alone, nor of standard input', async () => {
    const here = two();
    await here.run(['check', 'a.card']);
    expect(entries(here)).toEqual([]);
  });

  it('is passed over by Git', async () => {
    const here = two();
    await here.run(json);
    expect(here.read(`${keptFolder}/.gitignore`)).toBe('*\n');
  });

  it('is used again as long as nothing has changed', async () => {
    const here = two();
    const first = await here.run(json);
    expect(await again(here)).toEqual({ ran: first, written: 0 });
  });

  test.each<[string, (here: Folder) => unknown, Partial<Machine>]>([
    ['the card', (here) => here.write('a.card', `${faultyCard}\n`), {}],
    ['the settings', (here) => here.write('cardwright.json', '{ "levels": { "safety": "warning" } }'), {}],
    ['this program', () => {}, { program: () => 'another' }],
  ])('is worked out anew where %s changed', async (_, change, more) => {
    const here = two();
    await here.run(json);
    change(here);
    const { ran, written } = await again(here, more);
    expect(ran).toEqual(await here.run(fresh, '.', more));
    expect(written).toBeGreaterThan(0);
  });

  it('is worked out anew where the equipment changed, came or went, or a figure did', async () => {
    const here = folderOf(cardFolder(3, 12));
    here.write('d.card', cleanCard.replace('step', 'figure "hose.svg" "The hose"\n  step'));
    const codes = async () => {
      const kept = await here.run(json);
      expect(kept).toEqual(await here.run(fresh));
      return new Set(JSON.parse(kept.out).findings.map(({ code }: { code: string }) => code));
    };
    expect(await codes()).toContain('figure.unusable');
    here.write('hose.svg', '<svg xmlns="http://www.w3.org/2000/svg"/>');
    expect(await codes()).not.toContain('figure.unusable');
    here.write('plant.card', plant.replace('valve-1 open', 'valve-2 open'));
    expect(await codes()).toContain('safety.rule');
    rmSync(join(here.path, 'plant.card'));
    expect(await codes()).toContain('name.unknown');
    here.write('plant.card', plant);
    expect(await codes()).not.toContain('name.unknown');
  });

  test.each([
    ['cut off', (text: string) => text.slice(0, -20)],
    ['altered', (text: string) => text.replace('safety.left-changed', 'safety.left-changee')],
    ['empty', () => ''],
  ])('is not believed where it is %s', async (_, damage) => {
    const here = two();
    const first = await here.run(json);
    for (const name of entries(here)) {
      const path = join(keptFolder, name);
      here.write(path, damage(here.read(path)));
    }
    expect(await here.run(json)).toEqual(first);
  });

  it('is left out where its folder cannot be written', async () => {
    const here = two().write('.cache', 'a file');
    expect(await here.run(json)).toEqual(await here.run(fresh));
  });
});

describe('a part of the files', () => {
  const checked = ({ out }: { readonly out: string }) =>
    JSON.parse(out).summary.coverage.map(({ card }: { card: string }) => card);

  it('is each in its turn, and all of them together are all', async () => {
    const here = folderOf(cardFolder(5, 8));
    const parts = [];
    for (const shard of ['1/3', '2/3', '3/3']) parts.push(checked(await here.run([...json, '--shard', shard])));
    expect(parts.flat().sort()).toEqual(['c1', 'c2', 'c3', 'c4', 'c5']);
    expect(parts.every((part) => part.length > 0 && part.length < 5)).toBe(true);
  });

  it('is kept for the run that makes one report of all', async () => {
    const here = folderOf(cardFolder(4, 8));
    for (const shard of ['1/2', '2/2']) await here.run(['check', '.', '--shard', shard]);
    const kept = new Map(entries(here).map((name) => [name, here.read(join(keptFolder, name))]));
    const sarif = await here.run(['check', '.', '--format', 'sarif']);
    expect(sarif).toEqual(await here.run(['check', '.', '--format', 'sarif', '--no-cache']));
    for (const [name, text] of kept) expect(here.read(join(keptFolder, name))).toBe(text);
  });

  test.each(['0/2', '3/2', '2', 'x/y'])('cannot be "%s"', async (shard) => {
    expect(await folder().write('a.card', cleanCard).run(['check', '.', '--shard', shard])).toMatchObject({ code: 2 });
  });

  const git = (here: Folder, ...args: readonly string[]) =>
    execFileSync('git', ['-c', 'user.name=a', '-c', 'user.email=a@b', ...args], { cwd: here.path });

  function committed(cards: Readonly<Record<string, string>>): Folder {
    const here = folderOf(cards);
    git(here, 'init', '--quiet');
    git(here, 'add', '.');
    git(here, 'commit', '--quiet', '-m', 'All');
    return here;
  }

  const changed = async (here: Folder, below = '.', ...since: readonly string[]) =>
    checked(await here.run([...json, '--changed', ...since], below));

  it('is what Git says has changed, and all cards that use it', async () => {
    const here = committed({
      ...Object.fromEntries(Object.entries(cardFolder(2, 8)).map(([name, text]) => [`shop/${name}`, text])),
      'shop/wash.card': cleanCard.replace('step', 'figure "hose.svg" "The hose"\n  step'),
      'shop/hose.svg': '<svg xmlns="http://www.w3.org/2000/svg"/>',
    });
    expect(await changed(here)).toEqual([]);
    here.write('shop/cards-2.card', `${here.read('shop/cards-2.card')}\n`);
    expect(await changed(here, 'shop')).toEqual(['c2']);
    here.write('shop/plant.card', `${plant}\n`);
    expect(await changed(here)).toEqual(['c1', 'c2']);
    here.write('shop/hose.svg', '<svg xmlns="http://www.w3.org/2000/svg"> </svg>');
    expect(await changed(here)).toEqual(['c1', 'c2', 'wash']);
    git(here, 'commit', '--quiet', '-a', '-m', 'More');
    expect(await changed(here)).toEqual([]);
    expect(await changed(here, '.', 'HEAD~1')).toEqual(['c1', 'c2', 'wash']);
    here.write('cardwright.json', '{}');
    expect(await changed(here)).toEqual(['c1', 'c2', 'wash']);
  });

  it('as the line in .git/hooks/pre-commit lets a clean commit through, the first one too, and stops one with an error', () => {
    const here = folder().write('a.card', cleanCard);
    git(here, 'init', '--quiet');
    here.write(
      '.git/hooks/pre-commit',
      `#!/bin/sh\n"${process.execPath}" "${resolve('dist/cli.cjs')}" check . --changed\n`,
    );
    chmodSync(join(here.path, '.git/hooks/pre-commit'), 0o755);
    const commit = () => {
      git(here, 'add', '.');
      const { status, stderr } = spawnSync(
        'git',
        ['-c', 'user.name=a', '-c', 'user.email=a@b', 'commit', '-m', 'More'],
        {
          cwd: here.path,
          encoding: 'utf8',
        },
      );
      return { status, found: stderr.includes('safety.left-changed') };
    };
    expect(commit()).toMatchObject({ status: 0 });
    here.write('b.card', faultyCard);
    expect(commit()).toEqual({ status: 1, found: true });
    here.write('b.card', cleanCard.replace('"1"', '"2"').replace('card wash', 'card dry'));
    expect(commit()).toMatchObject({ status: 0 });
  });

  it('needs a commit that there is, and says so', async () => {
    const here = committed({ 'a.card': cleanCard });
    for (const since of ['no-such-branch', '--output=x'])
      expect(await here.run(['check', '.', `--changed=${since}`])).toMatchObject({
        code: 2,
        errors: expect.stringContaining('Git cannot say what has changed'),
      });
    expect(readdirSync(here.path)).not.toContain('x');
  });
});

test('a watch checks again what changed, until it is ended', async () => {
  const here = folder().write('a.card', cleanCard);
  const end = new AbortController();
  let told = '';
  const watching = here.run(['check', '.', '--watch'], '.', {
    ends: end.signal,
    write: (text) => {
      told += text;
    },
    complain: (text) => {
      told += text;
    },
  });
  const until = (words: RegExp) => vi.waitFor(() => expect(told).toMatch(words), { timeout: 20_000 });
  await until(/0 errors[\s\S]*Waiting/);
  here.write('a.card', faultyCard);
  await until(/1 error[\s\S]*Waiting/);
  here.write('b.card', cleanCard);
  await until(/in 2 files[\s\S]*Waiting/);
  end.abort();
  expect((await watching).code).toBe(1);
});
