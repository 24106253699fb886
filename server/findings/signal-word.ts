import type { AdmonitionLevel, Hazard } from '../../shared/card.ts';
import type { FindingSort } from './finding.ts';

const source = 'ANSI Z535.4-2007, 4.14';

export const signalWord: FindingSort = {
  code: 'signal.word',
  level: 'warning',
  title: 'A hazard has another signal word than its harm asks for',
  help: {
    what: 'A file that uses “std:signals” has a hazard whose signal word is not that of ANSI Z535.4 for what it will or could do: “will kill” is danger, “could kill” warning, “could injure” caution, and what damages things only is a note. A hazard that does not say what it can do is told as well.',
    why: 'The word tells at a glance how bad it gets. One that cries too loud is not heard the next time.',
    whatToDo: 'Write the word that is named, or say better what the hazard can do (“kill” is death or serious injury).',
  },
  sources: [
    { title: 'ANSI Z535.4-2007, 4.14.1 to 4.14.4 (older editions use caution for damage too)', status: 'seen' },
  ],
  examples: [
    {
      given: 'use "std:signals"\nitem oven : heater "the oven" normally off',
      bad: `hazard heat "heat" while oven on { could injure warning "Hot racks burn. Wear gloves." }
//     ^^^^ signal.word`,
      good: `hazard heat "heat" while oven on { could injure caution "Hot racks burn. Wear gloves." }`,
    },
  ],
  *inFile({ bound }) {
    if (!bound.files.includes('std:signals')) return;
    for (const hazard of bound.equipment.hazards) {
      const { place, label, level } = hazard;
      const asked = askedFor(hazard);
      if (asked === level) continue;
      const message =
        asked === undefined
          ? `It is not said what ${label} can do. Write “will” or “could” and “kill”, “injure” or “damage” before “${level}”.`
          : `What ${harmInWords(hazard)} has the signal word ${asked}, and ${label} has ${level}. Write “${asked}”, or say better what it can do.`;
      yield { place, message, source };
    }
  },
};

/** The table says nothing of a minor injury that is sure to come; it gets the word of one that may. */
function askedFor({ harm }: Hazard): AdmonitionLevel | undefined {
  if (harm === undefined) return undefined;
  if (harm.outcome === 'damage') return 'note';
  if (harm.outcome === 'injure') return 'caution';
  return harm.likelihood === 'will' ? 'danger' : 'warning';
}

function harmInWords({ harm }: Hazard): string {
  return `${harm?.likelihood} ${harm?.outcome}`;
}
