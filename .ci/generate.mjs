// `npm run generate`: writes what is made from the sources and kept in the repository. A test fails where one of them is stale.
import { readFileSync, writeFileSync } from 'node:fs';
import { loadSources } from './load.mjs';
import { recipesPage } from './recipes.mjs';

const { allFindings, reference, rulebooksReference, editorConfiguration, untrustedWorkspaces, withTables } =
  await loadSources(`
  export { allFindings } from './server/findings/all.ts';
  export { reference } from './server/findings/support/help.ts';
  export { rulebooksReference } from './server/rulebooks/page.ts';
  export { editorConfiguration, untrustedWorkspaces } from './shared/settings-schema.ts';
  export { withTables } from './grammar/reference.ts';
`);

writeFileSync('server/findings/README.md', reference(allFindings));

writeFileSync('server/rulebooks/README.md', rulebooksReference());

const language = 'grammar/README.md';
writeFileSync(language, withTables(readFileSync(language, 'utf8')));

writeFileSync('samples/recipes/README.md', recipesPage('samples/recipes'));

const manifest = JSON.parse(readFileSync('package.json', 'utf8'));
manifest.capabilities = { ...manifest.capabilities, untrustedWorkspaces: untrustedWorkspaces() };
manifest.contributes = { ...manifest.contributes, configuration: editorConfiguration() };
writeFileSync('package.json', `${JSON.stringify(manifest, null, 2)}\n`);
