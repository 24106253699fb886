/** Step numbers: one run of numbers through the whole card, so that "step 14" needs no stage to be found. */
import { blocksOf, type Part } from '../../shared/blocks.ts';
import type { Card, Label, Step, Which } from '../../shared/card.ts';
import { holds, type Place } from '../../shared/text.ts';

export type { Part };

export interface Range {
  readonly first: number;
  readonly last: number;
}

/** Where a `go to` leads: the next step at or after its label, and the stage that the label stands on, if it does. */
export interface Target {
  /** Absent where no step follows. */
  readonly step?: number;
  readonly stage?: string;
}

export interface Numbering {
  readonly count: number;
  readonly numberOf: (step: Step) => number;
  /** Undefined where this card for this machine has no such label. */
  readonly targetOf: (label: Label) => Target | undefined;
  /** The numbers of the steps in these statements; undefined where there are none. */
  readonly rangeOf: (parts: readonly Part[]) => Range | undefined;
  /** The steps whose text holds this place: several where a procedure is done several times. */
  readonly stepsAt: (place: Place) => readonly number[];
  /** The numbers of the steps whose text lies inside this place; undefined where there are none. */
  readonly rangeAt: (place: Place) => Range | undefined;
  /** The first step of this card that stands after a place of the same file. */
  readonly firstAfter: (place: Place) => number | undefined;
}

/** The statements inside a part, in the order in which they are printed. */
export function partsInside(part: Part): readonly Part[] {
  return blocksOf(part).flat();
}

/** Whether a restriction lets a part be on the card for this machine; a card for all machines keeps everything. */
export function isFor(only: Which | undefined, configuration: ReadonlyMap<string, string> | undefined): boolean {
  if (only === undefined || configuration === undefined) return true;
  return only.parts.every(({ variant, values }) => {
    const value = configuration.get(variant.name);
    return value === undefined || values.includes(value);
  });
}

export function onlyOf(part: Part): Which | undefined {
  return 'only' in part ? part.only : undefined;
}

/** The parts in the order in which they are printed: what is done when the card is stopped stands on the last page. */
export function inPrintedOrder(card: Card): readonly Part[] {
  const isLast = (part: Part) => part.type === 'stage' && part.whenStopped;
  return [...card.body.filter((part) => !isLast(part)), ...card.body.filter(isLast)];
}

export function numberSteps(card: Card, configuration: ReadonlyMap<string, string> | undefined): Numbering {
  const steps: Step[] = [];
  const numbers = new Map<Step, number>();
  const labels = new Map<Label, { before: number; stage?: string }>();
  const visit = (part: Part): void => {
    if (!isFor(onlyOf(part), configuration)) return;
    if (part.type === 'stage' && part.label) labels.set(part.label, { before: steps.length, stage: part.title });
    if (part.type === 'mend') labels.set(part.label, { before: steps.length });
    if (part.type === 'step') {
      if (part.label) labels.set(part.label, { before: steps.length });
      steps.push(part);
      numbers.set(part, steps.length);
    }
    partsInside(part).forEach(visit);
  };
  inPrintedOrder(card).forEach(visit);

  const numberOf = (step: Step) => numbers.get(step) ?? 0;
  const targetOf = (label: Label): Target | undefined => {
    const found = labels.get(label);
    if (found === undefined) return undefined;
    const step = found.before < steps.length ? { step: found.before + 1 } : {};
    return found.stage === undefined ? step : { ...step, stage: found.stage };
  };
  const rangeOf = (parts: readonly Part[]): Range | undefined => {
    return rangeFrom(parts.flatMap(stepsIn).flatMap((step) => numbers.get(step) ?? []));
  };
  const rangeAt = (place: Place) => rangeFrom(steps.filter((step) => holds(place, step.place)).map(numberOf));
  const firstAfter = ({ file, end }: Place) => {
    const next = steps.find((step) => step.place.file === file && step.place.start >= end);
    return next && numberOf(next);
  };
  const stepsAt = (place: Place) => steps.filter((step) => holds(step.place, place)).map(numberOf);
  return { count: steps.length, numberOf, targetOf, rangeOf, stepsAt, rangeAt, firstAfter };
}

function rangeFrom(numbers: readonly number[]): Range | undefined {
  return numbers.length === 0 ? undefined : { first: Math.min(...numbers), last: Math.max(...numbers) };
}

function stepsIn(part: Part): readonly Step[] {
  return part.type === 'step' ? [part] : partsInside(part).flatMap(stepsIn);
}
