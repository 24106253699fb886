// Runs other programs and says in one line what went wrong.
import { spawnSync } from 'node:child_process';

/** Runs a program with its output passed on; true where it ends with exit code 0. */
export function succeeds(program, args, environment = {}) {
  const result = spawnSync(program, args, {
    stdio: ['ignore', 'inherit', 'inherit'],
    env: { ...process.env, ...environment },
  });
  if (result.error) console.error(`Could not run ${program}: ${result.error.message}`);
  return result.status === 0;
}

/** Runs a program; where it fails, the whole command ends there. */
export function run(program, args, environment) {
  if (succeeds(program, args, environment)) return;
  console.error(`Stopped: "${[program, ...args].join(' ')}" failed.`);
  process.exit(1);
}

/** The path of a program of that name, or undefined where this machine has none. */
export function findProgram(...names) {
  for (const name of names) {
    const found = spawnSync('sh', ['-c', `command -v "${name}"`], { encoding: 'utf8' });
    if (found.status === 0) return found.stdout.trim();
  }
  return undefined;
}
