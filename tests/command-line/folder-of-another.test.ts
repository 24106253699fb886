/** A folder that somebody else has made, with links, pipes, settings of Git and files in the way: nothing is run, hidden or lost. */
import { execFileSync } from 'node:child_process';
import { chownSync, lstatSync, mkdirSync, readdirSync, statSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, test } from 'vitest';
import { keptFolder } from '../../client/command-line/folder/kept.ts';
import { cleanCard, type Folder, faultyCard, folder } from './support.ts';

const git = (here: Folder, ...args: readonly string[]) =>
  execFileSync('git', ['-c', 'user.name=a', '-c', 'user.email=a@b', ...args], { cwd: here.path, stdio: 'pipe' });

function committed(files: Readonly<Record<string, string>>): Folder {
  const here = folder();
  for (const [name, text] of Object.entries(files)) here.write(name, text);
  git(here, 'init', '--quiet');
  git(here, 'add', '--all', '--force');
  git(here, 'commit', '--quiet', '-m', 'All');
  return here;
}

const accepted = faultyCard.replace(
  'step set',
  'accept safety.left-changed because "It stays pulled in the shop." by "R. Amsel"\n  step set',
);

describe('settings of Git', () => {
  const lures = {
    'core.fsmonitor': 'touch ran; true',
    'core.hooksPath': 'hooks',
    'filter.a=b.clean': 'touch ran; cat',
    'filter.a=b.smudge': 'touch ran; cat',
    'diff.other.textconv': 'touch ran; cat',
    'diff.other.command': 'touch ran',
  };

  test.each([[['check', '.', '--changed']], [['report', '.']]])('start no program: %j', async (args) => {
    const attributes = '*.card filter=a=b diff=other\n';
    const here = committed({ 'a.card': accepted, '.gitattributes': attributes });
    here.write('hooks/post-index-change', '#!/bin/sh\ntouch ran\n');
    execFileSync('chmod', ['+x', join(here.path, 'hooks/post-index-change')]);
    for (const [key, value] of Object.entries(lures)) git(here, 'config', key, value);
    here.write('a.card', `${accepted}// more\n`);
    const { code, out } = await here.run(args);
    expect({ code, out }).toMatchObject({ code: 0, out: expect.stringMatching(/1 card|report\.html/) });
    expect(readdirSync(here.path)).not.toContain('ran');
  });
});

describe('what Git knows nothing of counts as changed', () => {
  const cards = ({ out }: { readonly out: string }) =>
    JSON.parse(out).summary.coverage.map(({ card }: { card: string }) => card);

  it('a repository inside, and a file outside', async () => {
    const here = committed({ 'here/a.card': cleanCard });
    here.write('here/inner/b.card', cleanCard.replace('wash', 'inner'));
    for (const args of [
      ['init', '--quiet'],
      ['add', '.'],
      ['commit', '--quiet', '-m', 'All'],
    ])
      git(here, '-C', 'here/inner', ...args);
    const outside = folder().write('c.card', cleanCard.replace('wash', 'outside'));
    const ran = await here.run(['check', 'here', outside.path, '--changed', '--format', 'json']);
    expect(cards(ran).sort()).toEqual(['inner', 'outside']);
  });
});

describe('what is kept of a check', () => {
  const two = () => folder().write('a.card', faultyCard).write('b.card', cleanCard);

  it('is written over no file that a link in its place leads to', async () => {
    const elsewhere = folder().write('mine', 'mine');
    const here = two();
    await here.run(['check', '.']);
    for (const name of readdirSync(join(here.path, keptFolder))) {
      execFileSync('ln', ['-sf', join(elsewhere.path, 'mine'), join(here.path, keptFolder, name)]);
    }
    expect(await here.run(['check', '.'])).toMatchObject({ code: 1 });
    expect(elsewhere.read('mine')).toBe('mine');
  });

  it.each(['.cache', keptFolder])('is not written where %s is a link to a folder elsewhere', async (link) => {
    const elsewhere = folder();
    const here = two();
    if (link !== '.cache') mkdirSync(join(here.path, '.cache'));
    symlinkSync(elsewhere.path, join(here.path, link));
    expect(await here.run(['check', '.'])).toMatchObject({ code: 1 });
    expect(execFileSync('find', [elsewhere.path, '-type', 'f'], { encoding: 'utf8' })).toBe('');
  });

  it('is not believed where it came with the cards', async () => {
    const here = two();
    await here.run(['check', '.']);
    git(here, 'init', '--quiet');
    git(here, 'add', '--all', '--force');
    expect(await here.run(['check', '.'])).toMatchObject({ code: 1, errors: expect.stringContaining('not used') });
  });
});

describe('what cannot be read is told, with exit code 2', () => {
  test.each(['/nowhere', 'cardwright.json'])('settings that are a link to %s', async (target) => {
    const here = folder().write('a.card', cleanCard);
    symlinkSync(target, join(here.path, 'cardwright.json'));
    expect(await here.run(['check', 'a.card'])).toMatchObject({
      code: 2,
      errors: expect.stringContaining('cardwright.json cannot be read'),
    });
  });

  test.each([
    ['a pipe', (path: string) => void execFileSync('mkfifo', [path])],
    ['a folder', (path: string) => void mkdirSync(path)],
    ['a device', (path: string) => symlinkSync('/dev/zero', path)],
    ['a link that leads nowhere', (path: string) => symlinkSync('/nowhere', path)],
  ])('%s among released cards', async (_, make) => {
    const here = folder().write('a.card', cleanCard).write('released/x.html', 'no card');
    make(join(here.path, 'released/y.html'));
    for (const args of [
      ['release', 'a.card', '--to', 'released'],
      ['report', 'a.card', '--released', 'released'],
    ])
      expect(await here.run(args)).toMatchObject({
        code: 2,
        errors: expect.stringContaining('y.html" cannot be read'),
      });
  });

  it('a path that is longer than the system takes', async () => {
    const long = 'a'.repeat(5000);
    const here = folder().write('a.card', cleanCard);
    for (const args of [
      ['check', long],
      ['format', `${long}/*.card`],
      ['export', 'a.card', '--to', long],
      ['report', 'a.card', '--to', long],
      ['verify', long],
    ])
      expect(await here.run(args)).toMatchObject({ code: 2, errors: expect.stringMatching(/./) });
  });

  it('a key without an end', async () => {
    const here = folder().write('a.card', cleanCard);
    expect(await here.run(['release', 'a.card', '--to', 'out', '--key', '/dev/zero'])).toMatchObject({ code: 2 });
  });
});

describe('what is written', () => {
  it('is no report over a file that is none', async () => {
    const here = folder().write('a.card', cleanCard).write('mine.html', 'mine');
    await here.run(['export', 'a.card']);
    for (const there of ['a.card', 'mine.html', 'wash.html']) {
      const before = here.read(there);
      expect(await here.run(['report', 'a.card', '--to', there])).toMatchObject({
        code: 2,
        errors: expect.stringContaining('is there already and is no report'),
      });
      expect(here.read(there)).toBe(before);
    }
    for (const _ of [1, 2]) expect(await here.run(['report', 'a.card'])).toMatchObject({ code: 0 });
  });

  it('is no card over a report', async () => {
    const here = folder().write('a.card', cleanCard);
    await here.run(['report', 'a.card', '--to', 'wash.html']);
    expect(await here.run(['export', 'a.card'])).toMatchObject({ code: 2 });
  });

  it('is said, where what comes after it cannot be', async () => {
    const spread = cleanCard.replaceAll('  ', '      ');
    const here = folder().write('a.card', spread);
    here.write(`b/${'b'.repeat(245)}.card`, spread);
    const { code, out, errors } = await here.run(['format', '--write', 'a.card', 'b']);
    expect({ code, out, told: errors.includes('is as it was') }).toEqual({ code: 2, out: 'a.card\n', told: true });
  });

  it('belongs to whom it belonged', async ({ skip }) => {
    if (process.getuid?.() !== 0) return skip('needs the right to give files away');
    const here = folder().write('a.card', cleanCard.replaceAll('  ', '      '));
    chownSync(join(here.path, 'a.card'), 1234, 2345);
    expect(await here.run(['format', '--write', 'a.card'])).toMatchObject({ code: 0 });
    expect(statSync(join(here.path, 'a.card'))).toMatchObject({ uid: 1234, gid: 2345 });
    expect(lstatSync(join(here.path, 'a.card')).isFile()).toBe(true);
  });
});
