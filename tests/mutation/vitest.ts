/**
 * As much of vitest as the suite's tests use, in one process and in one file: a mutant is bundled with it in place of vitest, and
 * is done with before vitest itself would have started. The expectations are vitest's own.
 */
import { chai, type ExpectStatic, JestAsymmetricMatchers, JestChaiExpect, JestExtend } from '@vitest/expect';

for (const plugin of [JestExtend, JestChaiExpect, JestAsymmetricMatchers]) chai.use(plugin);

export const expect = chai.expect as unknown as ExpectStatic;

export interface Test {
  readonly name: string;
  readonly run: () => void | Promise<void>;
}

/** Every test of the files that were imported, in their order. */
export const tests: Test[] = [];

type Body = (...values: readonly unknown[]) => void | Promise<void>;
type Register = (name: string, body: Body) => void;

let outer = '';

const register: Register = (name, run) => {
  tests.push({ name: `${outer}${name}`, run });
};

/** What fails now and is told so must go on failing. */
const registerFailing: Register = (name, run) =>
  register(name, async () => {
    const failed = await Promise.resolve()
      .then(() => run())
      .then(
        () => false,
        () => true,
      );
    if (!failed) throw new Error(`${name} passes now`);
  });

const group: Register = (name, body) => {
  const before = outer;
  outer = `${before}${name} › `;
  body();
  outer = before;
};

function each(each: Register) {
  return (table: readonly unknown[]) => (name: string, body: Body) =>
    table.forEach((row, index) => {
      each(`${name} [${index}]`, () => (Array.isArray(row) ? body(...row) : body(row)));
    });
}

const runIf = (wanted: unknown): Register => (wanted ? register : () => {});

/** A limit of time, where the test has one, is left to the runner. */
const registerWithOptions = (name: string, body: Body | object, bodyAfterOptions?: Body) =>
  register(name, bodyAfterOptions ?? (body as Body));

export const test = Object.assign(registerWithOptions, { each: each(register), fails: registerFailing, runIf });
export const it = test;
export const describe = Object.assign(group, { each: each(group) });
