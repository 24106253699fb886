/** The rulebooks that are shipped. Their texts are in our own language. */
import { aviationGroundRun } from './aviation-ground-run.ts';
import { duty } from './duty.ts';
import { handTools } from './hand-tools.ts';
import kinds from './kinds.card';
import { lockout } from './lockout.ts';
import { noise } from './noise.ts';
import { record } from './record.ts';
import type { Rulebook } from './rulebook.ts';
import { signals } from './signals.ts';
import { writing } from './writing.ts';

export const allRulebooks: readonly Rulebook[] = [
  {
    name: 'std:kinds',
    text: kinds,
    about:
      'The kinds that every machine has. They are in scope in every file; a kind of the same name in a file stands before them.',
  },
  lockout,
  noise,
  duty,
  aviationGroundRun,
  record,
  signals,
  writing,
  handTools,
];

/** Their texts by the name that a `use` gives them. */
export const rulebooks: ReadonlyMap<string, string> = new Map(allRulebooks.map(({ name, text }) => [name, text]));
