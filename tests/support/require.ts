/** A bundle resolves a `require` in the midst of a module; where modules run as they are, this does. */
import { createRequire } from 'node:module';

globalThis.require ??= createRequire(import.meta.url);
