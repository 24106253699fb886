/** The rulebooks that are shipped, by the name that a `use` gives them. Their texts are in our own language. */
import { kinds } from './kinds.ts';

export const rulebooks: ReadonlyMap<string, string> = new Map([['std:kinds', kinds]]);
