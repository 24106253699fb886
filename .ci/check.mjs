// `npm run check`: format, lint, types and import arrows, without the tests.
import { ensureInstalled } from './install.mjs';
import { look } from './look.mjs';

ensureInstalled();
const { failed } = look();
for (const name of failed) console.error(`Failed: ${name}`);
process.exit(failed.length === 0 ? 0 : 1);
