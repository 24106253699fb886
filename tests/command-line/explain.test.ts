import { expect, test } from 'vitest';
import { findingSorts } from '../../server/api.ts';
import { folder } from './support.ts';

test.each(findingSorts.map(({ code }) => code))('%s has a page', (code) => {
  const { code: ended, out } = folder().run(['explain', code]);
  expect(ended).toBe(0);
  expect(out).toContain('What to do\n');
});

test('a family lists its findings', () => {
  expect(folder().run(['explain', 'unit']).out).toBe(
    'unit.mismatch (error): A unit of something else\nunit.unknown (error): A unit that is none\n',
  );
});

test('a code that is none gives exit code 2 and the codes that there are', () => {
  const { code, errors } = folder().run(['explain', 'safety.rules']);
  expect(code).toBe(2);
  expect(errors).toContain('There is no finding "safety.rules".');
  expect(errors).toContain('safety.rule,');
});

test('a rulebook and each rule of it has a page, with its source and the change that breaks it', () => {
  expect(folder().run(['explain', 'std:lockout']).out).toContain('29 CFR 1910.147(d)(1)');
  const { code, out } = folder().run(['explain', 'std:lockout/prepare-first']);
  expect(code).toBe(0);
  expect(out).toContain('29 CFR 1910.147(d)(1)');
  expect(out).toContain('- step by fitter  set lockout-preparation done');
  expect(folder().run(['explain', 'std:lockout/no-such-rule']).code).toBe(2);
});
