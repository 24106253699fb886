/** The settings for the editor's page and as the schema of `cardwright.json`, made from their table. */
import { levels, recordNames, type Shape, settingKeys, settingsTable } from './settings.ts';

export type JsonSchema = { readonly [key: string]: unknown };

const text = { type: 'string' };
const texts = { type: 'array', items: text };
const ownRecordSchema = {
  type: 'object',
  properties: { title: text, meaning: text, fields: texts, signatures: texts },
  additionalProperties: false,
};

function schemaOf(shape: Shape): JsonSchema {
  switch (shape.type) {
    case 'choice':
      return { type: 'string', enum: Object.keys(shape.values), enumDescriptions: Object.values(shape.values) };
    case 'whole number':
      return { type: 'integer', minimum: shape.minimum, maximum: shape.maximum };
    case 'words':
      return { type: 'array', items: { type: 'string' }, uniqueItems: true };
    case 'words instead':
      return { type: 'object', additionalProperties: text };
    case 'file':
      return { type: 'string' };
    case 'some of':
      return {
        type: 'array',
        items: { type: 'string', enum: Object.keys(shape.values), enumDescriptions: Object.values(shape.values) },
        uniqueItems: true,
      };
    case 'levels':
      return { type: 'object', additionalProperties: { type: 'string', enum: levels } };
    case 'record':
      return { anyOf: [{ type: 'string', enum: recordNames }, ownRecordSchema] };
  }
}

function properties(prefix: string, withOrder = false): JsonSchema {
  return Object.fromEntries(
    settingKeys.map((key, order) => {
      const row = settingsTable[key];
      const property = { ...schemaOf(row.shape), default: row.default, markdownDescription: row.help };
      return [`${prefix}${key}`, withOrder ? { ...property, order } : property];
    }),
  );
}

/** `contributes.configuration` of package.json, listed in the order of the table. */
export function editorConfiguration(): JsonSchema {
  return { title: 'Cardwright', properties: properties('cardwright.', true) };
}

/** `capabilities.untrustedWorkspaces` of package.json: an editor itself leaves these out while it does not trust a workspace. */
export function untrustedWorkspaces(): JsonSchema {
  return {
    supported: 'limited',
    description:
      'Until you trust the folder, its settings may only raise the levels of findings, and choose units, paper and hints.',
    restrictedConfigurations: settingKeys
      .filter((key) => settingsTable[key].onlyTrusted)
      .map((key) => `cardwright.${key}`),
  };
}

/** The schema of `cardwright.json`, which holds the same settings for a folder and all below it. */
export function settingsSchema(): JsonSchema {
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: 'Settings of Cardwright for this folder and those below it',
    type: 'object',
    properties: { $schema: { type: 'string' }, ...properties('') },
    additionalProperties: false,
  };
}
