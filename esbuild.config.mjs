// Builds dist/: a bundle for every entry point, and the files that are made from the sources.
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';
import { bundles } from './.ci/bundles.mjs';
import { foldersIn, noticesOf } from './.ci/licences.mjs';
import { loadSources } from './.ci/load.mjs';

rmSync('dist', { recursive: true, force: true });
mkdirSync('dist');
const built = await Promise.all(bundles.map((bundle) => build(bundle)));
writeFileSync('dist/third-party-notices.txt', noticesOf(foldersIn(built.map(({ metafile }) => metafile))));

const { settingsSchema, textmateGrammar } = await loadSources(`
  export { settingsSchema } from './shared/settings-schema.ts';
  export { textmateGrammar } from './grammar/textmate.ts';
`);
writeFileSync('dist/settings.schema.json', JSON.stringify(settingsSchema(), null, 2));
writeFileSync('dist/cardwright.tmLanguage.json', JSON.stringify(textmateGrammar(), null, 2));
