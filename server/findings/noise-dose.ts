import type { NoiseCriterion } from '../../shared/settings.ts';
import type { FindingSort } from './finding.ts';
import { foundOn } from './support/words.ts';

const sources: Readonly<Record<NoiseCriterion, string>> = {
  '90 dBA, 5 dB': '29 CFR 1910.95, appendix A',
  '85 dBA, 3 dB': 'NIOSH criteria for a recommended standard, 85 dBA with 3 dB',
  '87 dBA, 3 dB': 'National Joint Council of Canada, occupational health and safety directive, 8.13',
};

export const noiseDose: FindingSort = {
  code: 'noise.dose',
  level: 'warning',
  title: 'A role gets more noise over the card than a working day allows',
  help: {
    what: 'The noise dose of a role over the longest path of the card is above 100 %, with what is worn taken off: (N - 7) / 2 dB for a noise reduction rating N. Of several noises at once the loudest counts, and less than 80 dBA at the ear counts nothing. The setting “noiseCriterion” says how much a whole day may bring: 90 dBA and half the time for each 5 dB more, or 85 or 87 dBA with 3 dB.',
    why: 'At 100 % the noise of a whole working day is used up by this one card.',
    whatToDo: 'Shorten the time near the noise, move somebody away from it, or wear better protection.',
  },
  sources: [
    {
      title: '29 CFR 1910.95, appendix A: T = 8 / 2^((L - 90) / 5) hours, D = 100 (C1/T1 + C2/T2 + …)',
      status: 'seen',
    },
    { title: 'NIOSH: T = 480 / 2^((L - 85) / 3) minutes', status: 'seen' },
    {
      title: 'National Joint Council of Canada, occupational health and safety directive, 8.13: 8 h at 87 dBA',
      status: 'seen',
    },
    {
      title: '29 CFR 1910.95, appendix B: rating less 7 dB for A-weighted levels, halved in the field',
      status: 'seen',
    },
  ],
  examples: [
    {
      given: `kind cart { stopped "Stop {}", running "Start {}" }
item power-cart : cart "the power cart" normally stopped
hazard noise "noise" while power-cart running { level 105 dBA warning "Noise can damage your hearing." }`,
      bad: `card power "Power" {
  // ^^^^^ noise.dose
  number "1" revision "A" crew mechanic "Mechanic"
  warning noise
  step run power-cart running for 70 min
}`,
      good: `card power "Power" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning noise
  step run power-cart running for 50 min
}`,
    },
  ],
  *inCard({ proof, settings }) {
    for (const fact of proof.doses) {
      if (fact.percent <= 100) continue;
      const figure = `${fact.atLeast ? 'at least ' : ''}${Math.max(101, Math.round(fact.percent))} %`;
      yield foundOn(
        fact,
        `${fact.role.label} gets ${figure} of the noise that a working day allows. Shorten the time near it, or protect better.`,
        { source: sources[settings.noiseCriterion] },
      );
    }
  },
};
