/** What the settings switch off, or lower below its own level, of the checks that stand for safety: errors and warnings. */
import type { Settings } from '../shared/settings.ts';
import { allFindings } from './findings/all.ts';

const order = ['off', 'hint', 'warning', 'error'];

/** Each as it stands in the settings: `safety: off`. */
export function loweredChecks({ levels }: Pick<Settings, 'levels'>): readonly string[] {
  const lowered = allFindings.flatMap(({ code, level }) => {
    if (level === 'hint') return [];
    const [family = ''] = code.split('.');
    const key = code in levels ? code : family;
    const to = levels[key];
    return to !== undefined && order.indexOf(to) < order.indexOf(level) ? [`${key}: ${to}`] : [];
  });
  return [...new Set(lowered)];
}
