import type { Equipment, Gauge } from '../../shared/card.ts';
import { exact } from '../../shared/exact.ts';
import type { Fix } from '../../shared/finding.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { quantityWords, senseOf } from '../../shared/quantity.ts';
import { matchesOf, type Place } from '../../shared/text.ts';
import { findUnit, type Quantity } from '../../shared/units.ts';
import type { FileFacts, FindingSort, Found } from './finding.ts';
import { replace } from './support/edits.ts';
import { boundsOf, isRoundedFrom } from './support/limits.ts';
import { type Prose, proseOf } from './support/prose.ts';
import { type Sentence, sentencesOf, within } from './support/sentences.ts';
import { alternatives } from './support/words.ts';

export const limitInText: FindingSort = {
  code: 'limit.in-text',
  level: 'warning',
  reads: ['words', 'bounds'],
  title: 'A figure in prose that is not the limit',
  help: {
    what: 'A sentence names a gauge that has limits, and beside it a quantity that is none of their ends. A figure converted to another unit and rounded counts as equal.',
    why: 'The prose and the limit were written at two times, and one has been changed since.',
    whatToDo: 'Write {gauge.limit} in the text: it prints the limit itself. Or correct the figure.',
  },
  sources: [],
  examples: [
    {
      given: `gauge pressure "wash pressure" in psi { limit spray 40 psi to 60 psi }`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Keep the wash pressure below 65 psi."
  //                                 ^^^^^^ limit.in-text
  step read pressure in spray
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Keep the wash pressure at {pressure.spray}."
  step read pressure in spray
}`,
    },
  ],
  inTexts: {
    texts: ({ parsed, bound }) => (namingsIn(bound.equipment).length === 0 ? new Map() : proseOf(parsed.file)),
    inText: ({ text }: Prose, facts) =>
      sentencesOf(text, facts.parsed.text).flatMap((sentence) => [...otherFigures(sentence, facts)]),
  },
};

function* otherFigures(sentence: Sentence, { file, bound }: FileFacts): Iterable<Found> {
  const quantities = [...quantitiesIn(sentence.text)];
  const named = quantities.length > 0 ? gaugesNamed(sentence, namingsIn(bound.equipment)) : [];
  for (const { quantity, index, length } of quantities) {
    const meant = named.filter((gauge) => gauge.unit.dimension === quantity.unit.dimension);
    if (meant.length === 0 || meant.some((gauge) => isLimit(quantity, gauge))) continue;
    const place = { file, ...within(sentence, index, length) };
    const inOneString = place.end - place.start === length;
    yield {
      place,
      message: `${quantityWords(quantity)} is no limit of ${alternatives(meant.map(limitsInWords))}. Correct it, or write the limit as a slot.`,
      fixes: inOneString ? meant.flatMap((gauge) => corrections(gauge, place, sentence.text.slice(0, index))) : [],
    };
  }
}

/** How a sentence may name a gauge. */
interface Naming {
  readonly gauge: Gauge;
  readonly slot: RegExp;
  readonly label: string;
}

const namings = new WeakMap<Equipment, readonly Naming[]>();

/** Of the gauges that have a limit, the longest label first. */
function namingsIn(equipment: Equipment): readonly Naming[] {
  return getOrInsert(namings, equipment, () =>
    equipment.gauges
      .filter(({ limits }) => limits.length > 0)
      .map(namingOf)
      .sort((a, b) => b.label.length - a.label.length),
  );
}

function namingOf(gauge: Gauge): Naming {
  const slot = new RegExp(`\\{\\s*${gauge.name}\\s*[.}]`, 'u');
  return { gauge, slot, label: gauge.label.toLowerCase() };
}

/** The gauges that a sentence names, by slot or by label; a label within a longer one that is named too does not count. */
function gaugesNamed({ text }: Sentence, longestFirst: readonly Naming[]): Gauge[] {
  let rest = text.toLowerCase();
  const named = longestFirst.filter(({ slot, label }) => {
    const labelled = label !== '' && rest.includes(label);
    if (labelled) rest = rest.replaceAll(label, ' ');
    return labelled || slot.test(text);
  });
  return named.map(({ gauge }) => gauge);
}

/** `65 psi`, `40 to 60 psi`: each number with the unit that follows it or its range. */
const figure =
  /(?<![\p{L}\p{N}.,-])(-?\d+(?:\.\d+)?)(?:\s*(?:to|and|-|–)\s*(-?\d+(?:\.\d+)?))?\s*([%°\p{L}][\p{L}\p{N}°%/.·-]*)/gu;

function* quantitiesIn(text: string): Iterable<{ quantity: Quantity; index: number; length: number }> {
  for (const { 0: whole, 1: first, 2: second, 3: unitText = '', index } of matchesOf(figure, text)) {
    const symbol = unitText.replace(/[.\-/]+$/, '');
    const unit = findUnit(symbol);
    if (!unit) continue;
    const length = whole.length - (unitText.length - symbol.length);
    for (const number of [first, second]) if (number) yield { quantity: { value: exact(number), unit }, index, length };
  }
}

function isLimit(quantity: Quantity, gauge: Gauge): boolean {
  const sense = senseOf(gauge);
  return gauge.limits.flatMap(boundsOf).some((bound) =>
    [bound.low, bound.high, bound.exactly, bound.tolerance].some((end) => {
      if (!end) return false;
      if (end.unit === quantity.unit) return end.value.equals(quantity.value);
      return isRoundedFrom(quantity, end, sense);
    }),
  );
}

/** The limit itself, with the words that a bound begins with; or the figure of one of its ends. */
function corrections(gauge: Gauge, place: Place, before: string): Fix[] {
  const bound = boundWords.exec(before)?.[0] ?? '';
  const slots = gauge.limits.map(({ name, bound: own }) => {
    const written = `${own?.low && own.high ? 'at ' : ''}{${gauge.name}.${name}}`;
    return {
      title: `Write the limit: ${written}`,
      edits: [replace({ ...place, start: place.start - bound.length }, written)],
    };
  });
  const figures = endsOf(gauge).map((end) => ({ title: `Change to ${end}`, edits: [replace(place, end)] }));
  return [...slots, ...figures];
}

const boundWords =
  /\b(?:(?:at|to|of|and|is|be) )?(?:at (?:least|most)|no (?:more|less) than|not (?:more|less) than|up to|above|below|over|under|between|from|at) $/i;

function limitsInWords(gauge: Gauge): string {
  return `${gauge.label} (${endsOf(gauge).join(', ')})`;
}

function endsOf(gauge: Gauge): string[] {
  const ends = gauge.limits.flatMap(boundsOf).flatMap(({ low, high }) => [low, high]);
  return [...new Set(ends.flatMap((end) => (end ? quantityWords(end) : [])))];
}
