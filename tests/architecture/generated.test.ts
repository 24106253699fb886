import { readFileSync } from 'node:fs';
import Ajv from 'ajv';
import { expect, test } from 'vitest';
import manifest from '../../package.json' with { type: 'json' };
import { allFindings } from '../../server/findings/all.ts';
import { reference } from '../../server/findings/support/help.ts';
import { rulebooksReference } from '../../server/rulebooks/page.ts';
import { defaultSettings } from '../../shared/settings.ts';
import { editorConfiguration, settingsSchema, untrustedWorkspaces } from '../../shared/settings-schema.ts';

test('the reference of findings is made from their files: run `npm run generate`', () => {
  expect(readFileSync('server/findings/README.md', 'utf8')).toBe(reference(allFindings));
});

test('the reference of rulebooks is made from their texts: run `npm run generate`', () => {
  expect(readFileSync('server/rulebooks/README.md', 'utf8')).toBe(rulebooksReference());
});

test('the settings of the extension are made from the table: run `npm run generate`', () => {
  expect(manifest.contributes.configuration).toEqual(editorConfiguration());
  expect(manifest.capabilities.untrustedWorkspaces).toEqual(untrustedWorkspaces());
});

test('the defaults fit the schema of cardwright.json', () => {
  const validate = new Ajv({ strict: false }).compile(settingsSchema());
  expect(validate(defaultSettings)).toBe(true);
  expect(validate({ secondUnits: 'imperial' })).toBe(false);
});
