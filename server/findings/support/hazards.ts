import type { Hazard } from '../../../shared/card.ts';
import { itemsIn } from '../../../shared/conditions.ts';
import type { Fix } from '../../../shared/finding.ts';
import { capital } from '../../../shared/text.ts';
import type { HazardBegins } from '../../proof/questions/hazard-begins.ts';
import type { Unprotected } from '../../proof/questions/unprotected.ts';
import { insertBefore, type TextOf } from './edits.ts';
import { bringAboutBefore, type MendedCard } from './mends.ts';
import { neededFor, staysSo } from './needed.ts';

export function beginning(hazard: Hazard): string {
  return `${capital(hazard.label)} begins`;
}

/**
 * Writes the admonition of a hazard before the statement at which it begins, and where it begins unannounced before that: there it
 * would come too late otherwise.
 */
export function admonish(begins: HazardBegins, textOf: TextOf, unannounced: readonly HazardBegins[] = []): Fix {
  const { hazard, statement } = begins;
  const admonition = `${hazard.level} ${hazard.name}`;
  const before = unannounced
    .filter((other) => other.hazard === hazard && other.statement.file === statement.file)
    .map((other) => other.statement.start)
    .filter((start) => start < statement.start);
  const starts = [...new Set([...before, statement.start])];
  return {
    title: `Insert: ${admonition}${starts.length > 1 ? `, here and at ${starts.length - 1} before` : ''}`,
    edits: starts.map((start) => insertBefore({ ...statement, start }, admonition, textOf)),
  };
}

/** Puts the protection on before the hazard begins, and takes it off again. Undefined where writing steps does not do it. */
export function protectFirst({ hazard, place, unmet }: Unprotected, card: MendedCard): Fix | undefined {
  const needed = hazard.protect && neededFor(hazard.protect, unmet);
  return needed && staysSo(needed) ? bringAboutBefore(place, needed, card, itemsIn(hazard.condition)) : undefined;
}
