import { expect, test } from 'vitest';
import { findingSorts } from '../../server/api.ts';
import { folder } from './support.ts';

test.each(findingSorts.map(({ code }) => code))('%s has a page', async (code) => {
  const { code: ended, out } = await folder().run(['explain', code]);
  expect(ended).toBe(0);
  expect(out).toContain('What to do\n');
});

test('a family lists its findings', async () => {
  expect((await folder().run(['explain', 'unit'])).out).toBe(
    'unit.mismatch (error): A unit of something else\nunit.unknown (error): A unit that is none\n',
  );
});

test('a code that is none gives exit code 2 and the codes that there are', async () => {
  const { code, errors } = await folder().run(['explain', 'safety.rules']);
  expect(code).toBe(2);
  expect(errors).toContain('There is no finding "safety.rules".');
  expect(errors).toContain('safety.rule,');
});

test('a rulebook and each rule of it has a page, with its source and the change that breaks it', async () => {
  expect((await folder().run(['explain', 'std:lockout'])).out).toContain('29 CFR 1910.147(d)(1)');
  const { code, out } = await folder().run(['explain', 'std:lockout/prepare-first']);
  expect(code).toBe(0);
  expect(out).toContain('29 CFR 1910.147(d)(1)');
  expect(out).toContain('- step by fitter  set lockout-preparation done');
  expect((await folder().run(['explain', 'std:lockout/no-such-rule'])).code).toBe(2);
});

test('the page of the kinds that are shipped shows them with their states', async () => {
  expect((await folder().run(['explain', 'std:kinds'])).out).toMatch(/^kind door \{ closed .*, open .* \}$/m);
});
