import type { Hazard } from '../../../shared/card.ts';
import type { Fix } from '../../../shared/finding.ts';
import type { HazardBegins } from '../../proof/facts.ts';
import { insertBefore, type TextOf } from './edits.ts';
import { capital } from './words.ts';

export function beginning(hazard: Hazard): string {
  return `${capital(hazard.label)} begins`;
}

/** Writes the admonition of a hazard before the statement at which it begins. */
export function admonish({ hazard, statement }: HazardBegins, textOf: TextOf): Fix {
  const admonition = `${hazard.level} ${hazard.name}`;
  return { title: `Insert: ${admonition}`, edits: [insertBefore(statement, admonition, textOf)] };
}
