import type { Rulebook } from './rulebook.ts';
import text from './writing.card';

export const writing: Rulebook = {
  name: 'std:writing',
  text,
  about:
    'How sentences of steps and admonitions are written, after ASD-STE100 and DOE-STD-1029-92, each point at its finding. They know English, and are silent on a card whose “language” is another one. The longest sentence, the vague words and the verbs are settings; so is whose verbs are taken where the two disagree (“writingProfile”). A shop’s own words stand in a file that “wordList” names, a word or `WORD -> INSTEAD` in each line, or in `cardwright.json` itself (“approvedWords”, “notApprovedWords”). Alternatives, timed and repeated steps are statements of the language (`choose`, `wait`, `repeat`), which print a box for each; in prose it is told where they leave something open (`prose.course`).',
  good: `card top-up "Top up the gearbox" {
  number   "G-1"
  revision "A" on 2026-03-02
  crew     fitter "Fitter"

  warning "Hot oil burns. Wear gloves."
  step by fitter  "Unscrew the filler plug."
  step by fitter  "If the oil is below the plug, add oil up to its edge."
  step by fitter  "Screw the plug back in."
}
`,
  findings: [
    'prose.long-sentence',
    'prose.several-actions',
    'prose.condition-last',
    'prose.course',
    'prose.imperative',
    'prose.noun-cluster',
    'prose.word',
    'prose.vague',
    'prose.action-in-admonition',
    'prose.admonition-order',
  ],
};
