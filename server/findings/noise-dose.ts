import type { Hazard, Item } from '../../shared/card.ts';
import { exact } from '../../shared/exact.ts';
import type { Fix } from '../../shared/finding.ts';
import type { NoiseCriterion } from '../../shared/settings.ts';
import { thingsIn } from '../proof/meaning/things.ts';
import type { Dose } from '../proof/time/doses.ts';
import type { CardFacts, FindingSort } from './finding.ts';
import { actionsIn, changesItem, statementsIn, stateName } from './support/card.ts';
import { shortenTo } from './support/duties.ts';
import { insertAfter, type TextOf } from './support/edits.ts';
import { protectFirst } from './support/hazards.ts';
import { bringAboutBefore } from './support/mends.ts';
import { toSet } from './support/needed.ts';
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
    whatToDo:
      'Shorten the time near the noise, move somebody away from it, or wear better protection. Quick fixes put protection on before the noise begins, and shorten a run to what is allowed, where that is enough.',
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
  *inCard(facts) {
    const { proof, settings } = facts;
    for (const fact of proof.doses) {
      if (fact.percent <= 100) continue;
      const figure = `${fact.atLeast ? 'at least ' : ''}${Math.max(101, Math.round(fact.percent))} %`;
      yield foundOn(
        fact,
        `${fact.role.label} gets ${figure} of the noise that a working day allows. Shorten the time near it, or protect better.`,
        { source: sources[settings.noiseCriterion], fixes: [...protections(facts), ...shorter(fact, facts)] },
      );
    }
  },
};

const noisy = ({ card }: CardFacts): readonly Hazard[] => card.equipment.hazards.filter(({ noise }) => noise);

/** Wears what a noise names as its protection; for a noise that names none, what there is to wear. Whether it is enough is tried before it is offered. */
function protections(facts: CardFacts): Fix[] {
  const named = facts.proof.unprotected.filter(({ hazard }) => hazard.noise);
  const unnamed = noisy(facts).filter(({ protect }) => !protect);
  const worn = facts.card.equipment.items.filter(({ reduces, kind }) => reduces && kind.states.length === 2);
  return [
    ...named.flatMap((fact) => protectFirst(fact, facts) ?? []),
    ...unnamed.flatMap((hazard) => worn.flatMap((item) => wear(item, hazard, facts) ?? [])),
  ];
}

/** Names something to wear as the protection of a hazard, and puts it on before the hazard begins where no step does. */
function wear(item: Item, hazard: Hazard, facts: CardFacts): Fix | undefined {
  if (item.normally === undefined) return undefined;
  const state = 1 - item.normally;
  const items = thingsIn(hazard.condition).items;
  const statements = [...statementsIn(facts.card.body)].filter((one) => one.type !== 'stage');
  const begins = statements.find((one) => [...items].some((moved) => changesItem(one, moved)));
  if (!begins) return undefined;
  const named = { title: `Name ${item.label} as protection`, edits: [nameIn(hazard, item, state, facts.textOf)] };
  if (statements.some((one) => changesItem(one, item))) return named;
  const fix = bringAboutBefore(begins.place, toSet([{ item, state }]), facts, [...items]);
  return fix && { title: `${named.title}. ${fix.title}`, edits: [...named.edits, ...fix.edits] };
}

/** `protect ITEM STATE` behind all else that a hazard says. */
function nameIn({ place }: Hazard, item: Item, state: number, textOf: TextOf) {
  const text = textOf(place.file);
  const said = /^(?:"(?:\\.|[^"\\])*"|\/\/.*|\/\*[\s\S]*?\*\/|[^"}])*(?=\})/u.exec(text.slice(place.start))?.[0] ?? '';
  const end = place.start + said.trimEnd().length;
  return insertAfter(
    { file: place.file, start: end - 1, end },
    `protect ${item.name} ${stateName(item, state)}`,
    textOf,
  );
}

/** The only run beside the noise, shortened to its share of the dose, in whole minutes where it has some. */
function shorter({ percent, atLeast }: Dose, facts: CardFacts): Fix[] {
  const { items } = thingsIn(...noisy(facts).map(({ condition }) => condition));
  const [run, ...others] = [...actionsIn(facts.card.body)].filter((one) => one.type === 'run' && items.has(one.item));
  if (run?.type !== 'run' || others.length > 0 || atLeast || !run.length?.most) return [];
  const allowed = Math.floor((run.length.most.valueOf() * 100) / percent);
  const whole = allowed < 600 ? allowed : allowed - (allowed % 60);
  return whole > 0 ? shortenTo(exact(whole), run, facts.textOf) : [];
}
