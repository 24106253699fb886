import { createRequire } from 'node:module';
import Ajv from 'ajv-draft-04';
import addFormats from 'ajv-formats';
import { expect, test } from 'vitest';
import { cleanCard, faultyCard, folder } from './support.ts';

const schema = createRequire(import.meta.url)('@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json');

/** The schema of SARIF 2.1.0, as published by OASIS. */
function problemsOf(log: unknown): unknown {
  const ajv = new Ajv({ strict: false, allErrors: true, unicodeRegExp: false });
  addFormats(ajv as never);
  const validate = ajv.compile(schema);
  validate(log);
  return validate.errors;
}

test.each([
  ['a clean card', cleanCard],
  ['a card with a path and a fix', faultyCard],
  ['a text that does not parse', 'card wash "Wash" { step set '],
])('%s gives a valid log', async (_, text) => {
  const log = JSON.parse((await folder().write('a card.card', text).run(['check', '.', '--format', 'sarif'])).out);
  expect(problemsOf(log)).toBeNull();
});

test('a result has its rule, its place, its path and its fix', async () => {
  const log = JSON.parse(
    (await folder().write('a card.card', faultyCard).run(['check', '.', '--format', 'sarif'])).out,
  );
  const [run] = log.runs;
  const [result] = run.results;
  expect(run.tool.driver.rules[result.ruleIndex].id).toBe('safety.left-changed');
  expect(result.level).toBe('error');
  expect(result.locations[0].physicalLocation).toEqual({
    artifactLocation: { uri: 'a%20card.card', uriBaseId: 'FOLDER' },
    region: { startLine: 7, startColumn: 8, endLine: 7, endColumn: 27 },
  });
  expect(result.codeFlows[0].threadFlows[0].locations.length).toBeGreaterThan(0);
  expect(result.fixes[0].artifactChanges[0].replacements[0].insertedContent.text).toContain('step set ignition closed');
});

test.each([
  ['a#b?c.card', 'a%23b%3Fc.card'],
  ['100%25.card', '100%2525.card'],
  ["in: a/ä [b] & 'c'.card", "in%3A%20a/%C3%A4%20%5Bb%5D%20%26%20'c'.card"],
  ['a\u202Eb.card', 'a%E2%80%AEb.card'],
])('the address of "%s" is escaped', async (file, uri) => {
  const log = JSON.parse((await folder().write(file, faultyCard).run(['check', '.', '--format', 'sarif'])).out);
  const [location] = log.runs[0].results[0].locations;
  expect(location.physicalLocation.artifactLocation).toEqual({ uri, uriBaseId: 'FOLDER' });
  expect(decodeURIComponent(new URL(uri, 'file:///there/').pathname)).toBe(`/there/${file}`);
  expect(problemsOf(log)).toBeNull();
});
