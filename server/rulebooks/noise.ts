import text from './noise.card';
import type { Rulebook } from './rulebook.ts';

export const noise: Rulebook = {
  name: 'std:noise',
  text,
  about:
    'The noise dose of each role over the longest path, after 29 CFR 1910.95, appendix A, or another criterion by the setting “noiseCriterion”. Protection takes off half of its rating less 7 dB. The formula counts, not the rounded table G-16: 6 h 3 min at 92 dBA pass.',
  good: `item mill  : motor "the mill"   normally stopped
item muffs : worn  "ear muffs"  normally away reduces 25 dB

hazard milling "the noise of the mill" while mill running {
  level 100 dBA
  warning "Noise can damage your hearing. Wear ear muffs."
  protect muffs on
}

card grind "Grind a batch" {
  number   "M-1"
  revision "A" on 2026-03-02
  crew     miller "Miller"

  warning milling
  step by miller  takes 1 min  set muffs on
  step by miller  run mill running for 5 h
  step by miller  takes 1 min  set muffs away
}
`,
  findings: ['noise.dose'],
};
