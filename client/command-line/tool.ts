import manifest from '../../package.json' with { type: 'json' };
import type { Tool } from '../../server/api.ts';
import type { Surroundings } from './surroundings.ts';

/** What this program makes of a card, whatever the card says. */
export function toolOf({ workCopy }: Surroundings): Tool {
  return { version: manifest.version, workCopy: workCopy() };
}
