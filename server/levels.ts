/** What the settings make of the levels of findings. */
import type { Level } from '../shared/finding.ts';
import type { Levels, Settings } from '../shared/settings.ts';
import type { SettingsProblem } from '../shared/settings-reading.ts';
import { nearest } from './binding/nearest.ts';
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
  return (!isFixed(code) && key !== undefined && levels[key]) || level;
}

function isFixed(code: string): boolean {
  return code.startsWith('syntax.') || code === internal.code || code === settingsUnusable.code;
}

function familyOf(code: string): string {
  return code.split('.')[0] ?? '';
}

/** The entry that is about a code: its own, or that of its family. */
function keyFor(code: string, levels: Levels): string | undefined {
  return [code, familyOf(code)].find((key) => Object.hasOwn(levels, key));
}

function isBelow(one: Shown, other: Shown): boolean {
  return order.indexOf(one) < order.indexOf(other);
}

/**
 * What the settings switch off, or lower below its own level, of the checks that stand for safety: errors and warnings. Each as
 * it stands in the settings: `safety: off`.
 */
export function loweredChecks({ levels }: Pick<Settings, 'levels'>): readonly string[] {
  if (Object.keys(levels).length === 0) return [];
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

/** What is written among the levels and changes none: a slip of the pen there would leave a check as it is without a word. */
export function levelProblems({ levels = {} }: Partial<Pick<Settings, 'levels'>>): readonly SettingsProblem[] {
  const codes = allFindings.map(({ code }) => code);
  const changeable = new Set(codes.filter((code) => !isFixed(code)).flatMap((code) => [code, familyOf(code)]));
  const written = Object.keys(levels).filter((key) => !changeable.has(key));
  return written.map((key) => ({ key, message: whyNoLevel(key, codes, changeable) }));
}

function whyNoLevel(key: string, codes: readonly string[], changeable: ReadonlySet<string>): string {
  if (codes.some((code) => code === key || familyOf(code) === key)) return `The level of "${key}" cannot be changed.`;
  const [meant] = nearest(key, changeable);
  return `There is no finding "${key}"${meant === undefined ? '.' : `: did you mean "${meant}"?`} It changes nothing.`;
}
