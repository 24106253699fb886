/** Of the mutants that change no answer, those of limits, intervals and quantities. */
import type { Equivalent } from './equivalent.ts';

export const equivalentLimits: readonly Equivalent[] = [
  {
    file: 'server/findings/support/limits.ts',
    line: 'return value.equals(value.floor());',
    replacement: 'value.ceil()',
    why: 'A number equals the whole one below it where it equals the one above it.',
  },
  {
    file: 'server/findings/support/limits.ts',
    line: 'if (edge && end && (!found || isWider(edge, found.edge, side))) found = { widest: limit, end, edge };',
    replacement: '((edge) || (end))',
    why: 'A bound has an edge on a side where it has an end.',
  },
  {
    file: 'shared/interval.ts',
    line: 'const low = compareLows(a.low, b.low) >= 0 ? a.low : b.low;',
    replacement: '((compareLows(a.low, b.low)) > (0))',
    why: 'The two ends are equal there.',
  },
  {
    file: 'server/findings/support/limits.ts',
    line: "if (low && lowest && compareLows(low, lowest.edge) < 0) ends.push({ side: 'low', ...lowest });",
    replacement: "ends.unshift({ side: 'low', ...lowest })",
    why: 'The list is empty there.',
  },
  {
    file: 'shared/interval.ts',
    line: 'const low = compareLows(a.low, b.low) >= 0 ? a.low : b.low;',
    replacement: '1',
    why: 'The two ends are equal there.',
  },
  {
    file: 'shared/interval.ts',
    line: 'const high = compareHighs(a.high, b.high) <= 0 ? a.high : b.high;',
    replacement: '((compareHighs(a.high, b.high)) < (0))',
    why: 'The two ends are equal there.',
  },
  {
    file: 'shared/interval.ts',
    line: 'if (compareLows(next, turned(high)) < 0) next = turned(high);',
    replacement: '1',
    why: 'The two ends are equal there.',
  },
  {
    file: 'shared/quantity.ts',
    line: 'if (value.equals(0)) return 0;',
    replacement: '1',
    why: 'Zero is written the same to any number of places.',
  },
  {
    file: 'server/findings/limit-in-text.ts',
    line: 'const named = quantities.length > 0 ? gaugesNamed(sentence, namingsIn(bound.equipment)) : [];',
    replacement: '((quantities.length) >= (0))',
    why: 'Where a sentence has no quantity nobody looks at the gauges that it names.',
  },
  {
    file: 'server/proof/meaning/supply.ts',
    line: 'for (let size = 1; size <= mostChanged && tried < mostTried; size++) {',
    replacement: '((tried) <= (mostTried))',
    why: 'A limit of what is kept or tried: at the number itself either is right.',
  },
  {
    file: 'server/findings/limit-conflict.ts',
    line: 'if (apart > 0.051) return false;',
    replacement: ';',
    why: 'The exact figures, which are compared then, say the same and take longer.',
  },
  {
    file: 'shared/interval.ts',
    line: 'const high = compareHighs(a.high, b.high) <= 0 ? a.high : b.high;',
    replacement: '((compareHighs(a.high, b.high)) < (0))',
    why: 'Two ends that are alike are the same end.',
  },
  {
    file: 'server/findings/limit-conflict.ts',
    line: 'if (apart > 0.051) return false;',
    replacement: '((apart) >= (0.051))',
    why: 'What is so far apart is compared exactly then, and is no slip either.',
  },
];
