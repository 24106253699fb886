import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';
import { expect, it, test } from 'vitest';
import { canBeWiped } from '../../client/command-line/status-line.ts';
import { cleanCard, type Folder, faultyCard, folder } from './support.ts';

const threeCards = () =>
  folder().write('a.card', cleanCard).write('b.card', faultyCard).write('c.card', cleanCard.replace('"1"', '"3"'));

/** What a terminal has been sent and what stands on its last line at the end, without the result. */
async function told(
  args: readonly string[],
  here: Folder,
): Promise<{ readonly lines: readonly string[]; readonly left: string }> {
  let sent = '';
  await here.run(args, '.', { status: (text) => (sent += text), complain: (text) => (sent += text) });
  const lines = sent.split('\r\u001B[K');
  return { lines: lines.filter((line) => line !== ''), left: lines.at(-1) ?? '' };
}

test('a check of several files tells a terminal which it is at, and leaves nothing of it', async () => {
  expect(await told(['check', '.'], threeCards())).toEqual({
    lines: ['Checking file 1 of 3 …', 'Checking file 2 of 3 …', 'Checking file 3 of 3 …'],
    left: '',
  });
});

test('so does an export, and what it complains of stands on a line of its own', async () => {
  expect(await told(['export', '.'], threeCards())).toEqual({
    lines: [
      'Proving and rendering file 1 of 3 …',
      'Proving and rendering file 2 of 3 …',
      '"Wash" has an error and is not for use. See "cardwright check", or write a draft with --draft.\n',
      'Proving and rendering file 3 of 3 …',
    ],
    left: '',
  });
});

test('one file is not worth a line', async () => {
  expect((await told(['check', 'a.card'], threeCards())).lines).toEqual([]);
});

it.each([
  [true, {}, true],
  [true, { TERM: 'xterm-256color' }, true],
  [true, { TERM: 'dumb' }, false],
  [true, { CI: 'true' }, false],
  [true, { NO_COLOR: '1' }, false],
  [undefined, {}, false],
])('terminal %s in %o: told %s', (isTerminal, environment, is) => {
  expect(canBeWiped(isTerminal, environment)).toBe(is);
});

test('a real terminal is told, and a pipe is not', ({ skip }) => {
  const here = threeCards();
  const line = `${process.execPath} ${resolve('dist/cli.cjs')} check .`;
  const { CI: _, NO_COLOR: __, ...env }: NodeJS.ProcessEnv = { ...process.env, TERM: 'xterm' };
  const run = (command: string, args: readonly string[]) =>
    spawnSync(command, args, { cwd: here.path, encoding: 'utf8', env });
  const inTerminal = run('script', ['--quiet', '--command', line, '/dev/null']);
  if (inTerminal.error) return skip('needs the command script');
  expect(inTerminal.stdout).toContain('Checking file 3 of 3');
  const piped = run('bash', ['-c', line]);
  expect(piped.stdout + piped.stderr).not.toContain('Checking');
});
