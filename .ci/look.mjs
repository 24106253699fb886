// Looks at the sources without running them. Each look counts as one test.
import { succeeds } from './run.mjs';

const looks = {
  'format and lint': ['biome', 'ci', '--colors=off', '--error-on-warnings', '.'],
  types: ['tsc', '--noEmit', '-p', '.'],
  'import arrows': ['depcruise', '--config', '.dependency-cruiser.cjs', 'shared', 'grammar', 'server', 'client'],
};

export function look() {
  const failed = Object.entries(looks).filter(([name, [program, ...args]]) => {
    console.log(`\n── ${name}`);
    return !succeeds(`node_modules/.bin/${program}`, args);
  });
  return { passed: Object.keys(looks).length - failed.length, failed: failed.map(([name]) => name) };
}
