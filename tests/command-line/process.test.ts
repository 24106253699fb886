/** The command line as a process: what only pipes, disks and signals show. */
import { type ChildProcess, execFileSync, spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmodSync, cpSync, existsSync, lstatSync, mkdirSync, readdirSync, statSync, symlinkSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { format } from '../../server/api.ts';
import { cleanCard, type Folder, faultyCard, folder } from './support.ts';

/** As `npm run build` makes it. */
const program = resolve('dist/cli.cjs');

function run(args: readonly string[], at: Folder, input?: string) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
    cwd: at.path,
    encoding: 'utf8',
    ...(input !== undefined && { input }),
  });
  return { code: status, out: stdout, errors: stderr };
}

const shell = (line: string, at: Folder) =>
  spawnSync('bash', ['-c', line], {
    cwd: at.path,
    encoding: 'utf8',
    env: { ...process.env, CARDWRIGHT: `${process.execPath} ${program}` },
  });

describe('what is read', () => {
  it('is standard input, as -, as its device, and a pipe that the shell names', () => {
    const here = folder().write('a.card', faultyCard);
    expect(run(['check', '-'], here, faultyCard)).toMatchObject({ code: 1 });
    expect(run(['check', '-'], here, cleanCard)).toMatchObject({ code: 0, out: expect.stringContaining('1 card') });
    for (const line of [
      '$CARDWRIGHT check /dev/stdin < a.card',
      'cat a.card | $CARDWRIGHT check /dev/stdin',
      '$CARDWRIGHT check <(cat a.card)',
    ]) {
      const { status, stdout } = shell(line, here);
      expect({ line, status, found: stdout.includes('safety.left-changed') }).toEqual({ line, status: 1, found: true });
    }
  });

  it('is never nothing: an empty input is no clean card', () => {
    expect(run(['check', '-'], folder(), '')).toMatchObject({
      code: 2,
      errors: expect.stringContaining('nothing to check'),
    });
  });
});

describe('what is written', () => {
  it('ends quietly where its reader has seen enough, and with a message where the output is full', () => {
    const here = folder();
    for (let count = 0; count < 60; count++) here.write(`c${count}.card`, faultyCard.replace('"2"', `"${count}"`));
    const closed = shell('set -o pipefail; $CARDWRIGHT check . | head -1', here);
    expect(closed.stderr).toBe('');
    expect(closed.stdout.split('\n')).toHaveLength(2);
    const full = shell('$CARDWRIGHT check . > /dev/full', here);
    expect({ code: full.status, errors: full.stderr }).toMatchObject({
      code: 2,
      errors: expect.stringContaining('could not be written'),
    });
    expect(full.stderr).not.toMatch(/ at .*\(/);
  });

  it('keeps the mode and the link of what it formats', () => {
    const here = folder().write('real/a.card', cleanCard.replaceAll('  ', '      '));
    chmodSync(join(here.path, 'real/a.card'), 0o640);
    symlinkSync('real/a.card', join(here.path, 'link.card'));
    expect(run(['format', '--write', 'link.card'], here)).toMatchObject({ code: 0, out: 'link.card\n' });
    expect(here.read('real/a.card')).toBe(format(cleanCard));
    expect(lstatSync(join(here.path, 'link.card')).isSymbolicLink()).toBe(true);
    expect(statSync(join(here.path, 'real/a.card')).mode & 0o777).toBe(0o640);
    expect(readdirSync(join(here.path, 'real'))).toEqual(['a.card']);
  });

  it('leaves the old text on a full disk, and says so', ({ skip }) => {
    const here = folder();
    const disk = join(here.path, 'disk');
    mkdirSync(disk);
    if (spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', disk]).status !== 0)
      return skip('needs the right to mount');
    try {
      const text = cleanCard.replaceAll('  ', '      ');
      here.write('disk/a.card', text);
      spawnSync('bash', ['-c', `cat /dev/zero > ${disk}/filler`]);
      expect(run(['format', '--write', 'disk/a.card'], here)).toMatchObject({
        code: 2,
        errors: expect.stringContaining('the disk is full'),
      });
      expect(here.read('disk/a.card')).toBe(text);
      expect(readdirSync(disk).sort()).toEqual(['a.card', 'filler']);
    } finally {
      execFileSync('umount', [disk]);
    }
  });

  it('is the old text or the new one, whenever the process is killed', async () => {
    const steps = Array.from({ length: 3_000 }, (_, index) => `      step    "Look at part ${index}."`).join('\n');
    const old = cleanCard.replace(/\}\s*$/, `${steps}\n}\n`);
    const done = folder().write('a.card', old);
    run(['format', '--write', 'a.card'], done);
    const formatted = done.read('a.card');
    for (let moment = 0; moment < 10; moment++) {
      const here = folder().write('a.card', old);
      const child = spawn(process.execPath, [program, 'format', '--write', 'a.card'], {
        cwd: here.path,
        stdio: 'ignore',
      });
      setTimeout(() => child.kill('SIGKILL'), 120 + moment * 60);
      await ended(child);
      expect([old, formatted]).toContain(here.read('a.card'));
    }
  });

  it('replaces no file that is not ours, and gives no card the name of another or of a device', async () => {
    const here = folder()
      .write('out/wash.html', '<p>My notes</p>')
      .write('a.card', cleanCard)
      .write('b/b.card', cleanCard.replace('card wash', 'card Wash').replace('"1"', '"8"'))
      .write('b/c.card', cleanCard.replace('card wash', 'card con').replace('"1"', '"9"'))
      .write('b/d.card', cleanCard.replace('"1"', '"7"'));
    here.write('work-copy.js', '');
    const refused = await here.run(['export', 'a.card', '--to', 'out']);
    expect(refused).toMatchObject({ code: 2, errors: expect.stringContaining('is there already') });
    expect(here.read('out/wash.html')).toBe('<p>My notes</p>');
    expect(await here.run(['export', 'b', '--to', 'new'])).toMatchObject({ code: 0 });
    expect(readdirSync(join(here.path, 'new')).sort()).toEqual(['Wash.html', 'con-2.html', 'wash-2.html']);
    expect(await here.run(['export', 'b', '--to', 'new'])).toMatchObject({ code: 0 });
    expect(existsSync(join(here.path, 'new/Wash.html'))).toBe(true);
  });
});

describe('a release', () => {
  it('has the same bytes under another locale, in another time zone and folder', () => {
    const inEurope = { LC_ALL: 'C', TZ: 'UTC' };
    const inTurkish = { LC_ALL: 'tr_TR.UTF-8', LANG: 'tr_TR.UTF-8', TZ: 'Pacific/Kiritimati' };
    const ran = (args: readonly string[], cwd: string, more: NodeJS.ProcessEnv) =>
      spawnSync(process.execPath, args, { cwd, encoding: 'utf8', env: { ...process.env, ...more } }).stdout;
    const tells = ['-p', '[(0.5).toLocaleString(), new Date(0).getHours()].join()'];
    expect([ran(tells, '.', inEurope), ran(tells, '.', inTurkish)]).toEqual(['0.5,0\n', '0,5,13\n']);
    const released = (below: string, more: NodeJS.ProcessEnv) => {
      const here = folder();
      for (const world of ['merganser', 'heron-dyke'])
        cpSync(`samples/${world}`, join(here.path, below, world), { recursive: true });
      ran([program, 'release', '.', '--to', join(here.path, 'out')], join(here.path, below), more);
      const names = readdirSync(join(here.path, 'out')).sort();
      return names.map((name) => [name, digest(here.read(`out/${name}`))]);
    };
    const one = released('.', inEurope);
    expect(one.length).toBeGreaterThan(5);
    expect(released('another/folder', inTurkish)).toEqual(one);
  });
});

function digest(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}

function ended(child: ChildProcess): Promise<void> {
  return new Promise((done) => child.on('exit', () => done()));
}
