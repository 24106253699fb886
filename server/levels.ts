/** What the settings make of the levels of findings. */
import type { Level } from '../shared/finding.ts';
import type { Levels, Settings } from '../shared/settings.ts';
import { allFindings } from './findings/all.ts';
import { internal } from './findings/internal.ts';
import { settingsUnusable } from './findings/settings-unusable.ts';

type Shown = Level | 'off';

const order: readonly Shown[] = ['off', 'hint', 'warning', 'error'];

interface Rated {
  readonly code: string;
  readonly level: Level;
}

/** The level at which a finding is shown. What does not parse and what could not be looked at stay what they are. */
export function shownLevel({ code, level }: Rated, levels: Levels): Shown {
  const key = keyFor(code, levels);
  const isFixed = code.startsWith('syntax.') || code === internal.code || code === settingsUnusable.code;
  return (!isFixed && key !== undefined && levels[key]) || level;
}

/** The entry that is about a code: its own, or that of its family. */
function keyFor(code: string, levels: Levels): string | undefined {
  return [code, code.split('.')[0] ?? ''].find((key) => Object.hasOwn(levels, key));
}

function isBelow(one: Shown, other: Shown): boolean {
  return order.indexOf(one) < order.indexOf(other);
}

/**
 * What the settings switch off, or lower below its own level, of the checks that stand for safety: errors and warnings. Each as
 * it stands in the settings: `safety: off`.
 */
export function loweredChecks({ levels }: Pick<Settings, 'levels'>): readonly string[] {
  const lowered = allFindings.filter((sort) => sort.level !== 'hint' && isBelow(shownLevel(sort, levels), sort.level));
  return [...new Set(lowered.map((sort) => `${keyFor(sort.code, levels)}: ${shownLevel(sort, levels)}`))];
}

/** Levels, with what others add to them and nothing that those take away. */
export function raisedLevels(levels: Levels, others: Levels): Levels {
  const raised = allFindings.filter(
    (sort) => keyFor(sort.code, others) !== undefined && isBelow(shownLevel(sort, levels), shownLevel(sort, others)),
  );
  return { ...levels, ...Object.fromEntries(raised.map((sort) => [sort.code, shownLevel(sort, others)])) };
}
