import type { FindingSort } from './finding.ts';

export const acceptUnused: FindingSort = {
  code: 'accept.unused',
  level: 'warning',
  notUnderstood: true,
  title: 'An acceptance that silences nothing',
  help: {
    what: 'An “accept” names a finding that does not stand in its step, stage or card, or one that cannot be accepted.',
    why: 'It is printed on the card as an accepted deviation, and would silence the next one unseen.',
    whatToDo: 'Take it out, or move it to the step, stage or card with the finding.',
  },
  sources: [],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step { accept prose.vague because "The hose says how much." }
  //     ^ accept.unused
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Let sufficient water run." { accept prose.vague because "The hose says how much." }
}`,
    },
  ],
};
