/** What every part of the renderer needs at hand. Made once for a card. */

import type { Card, Stage } from '../../shared/card.ts';
import type { Finding } from '../../shared/finding.ts';
import type { MoveIndex } from '../../shared/job.ts';
import { boundWords } from '../../shared/quantity.ts';
import { holds, isSamePlace, type Place } from '../../shared/text.ts';
import type { RenderInput } from './input.ts';
import { fixedWords } from './language/fixed-words.ts';
import type { FixedWords } from './language/words.ts';
import { inPrintedOrder, isFor, type Numbering, numberSteps, type Part, partsInside } from './numbering.ts';

export interface Context {
  readonly input: RenderInput;
  readonly words: FixedWords;
  readonly numbering: Numbering;
  /** The stages for whoever stops. */
  readonly stopStages: readonly Stage[];
  /** The level of the next heading. */
  readonly level: number;
  /** How often what is being rendered is done: the product of the repeats around it. */
  readonly rounds: number;
  readonly isDraft: boolean;
  /** The script of the work copy. A draft has none: nobody is to work with it. */
  readonly workCopy?: string;
  /** The readings at which a gauge is first asked to be within these bounds: those show its scale. */
  readonly firstReadings: ReadonlySet<object>;
  /** For the work copy: the move of its program that is shown at a part, and which machines a part is only for (as in `Job.onlys`). */
  readonly anchors: ReadonlyMap<object, MoveIndex>;
  readonly onlys: ReadonlyMap<object, number>;
}

/** What is needed to say a quantity, also where no card is at hand. */
export interface Speech {
  readonly words: FixedWords;
  readonly input: Pick<RenderInput, 'settings'>;
}

export function contextOf(input: RenderInput): Context {
  const { card, configuration } = input;
  const isDraft = input.findings.some(({ level }) => level === 'error') || isLowered(input);
  const stages = card.body.filter((part): part is Stage => part.type === 'stage' && isFor(part.only, configuration));
  return {
    input,
    words: fixedWords(card.language?.text),
    numbering: numberSteps(card, configuration),
    stopStages: stages.filter((stage) => stage.whenStopped),
    level: 2,
    rounds: 1,
    anchors: new Map(),
    onlys: new Map(),
    firstReadings: firstReadings(card),
    isDraft,
    ...(input.workCopy !== undefined && !isDraft && { workCopy: input.workCopy }),
  };
}

/** The attributes that tell a preview where a block stands in the text. */
export function positionOf(place: Place, { input }: Context): Readonly<Record<string, string | number>> {
  return input.withPositions ? { 'data-file': place.file, 'data-offset': place.start, 'data-end': place.end } : {};
}

/** A bar stands beside what is otherwise than in the revision that the card is held against. */
export function barOf(place: Place, { input: { since } }: Context): { readonly className?: string[] } {
  const isChanged = since?.changes.some(
    ({ now, inside, reliedOnAt = [] }) =>
      (now && (inside ? holds(now, place) : isSamePlace(now, place))) ||
      reliedOnAt.some((step) => isSamePlace(step, place)),
  );
  return isChanged ? { className: ['is-changed'] } : {};
}

/** The attributes by which the work copy finds where a move is shown, and what is not for every machine. */
export function anchorOf(part: object, { anchors, onlys }: Context): Readonly<Record<string, number>> {
  const move = anchors.get(part);
  const only = onlys.get(part);
  return { ...(move !== undefined && { 'data-move': move }), ...(only !== undefined && { 'data-only': only }) };
}

/** A card without errors may be used with its warnings, by whoever has read them; a draft lists all at its end. */
export function openWarnings({ isDraft, input }: Context): readonly Finding[] {
  return isDraft ? [] : input.findings.filter(({ level }) => level === 'warning');
}

function isLowered({ lowered = [] }: RenderInput): boolean {
  return lowered.length > 0;
}

function firstReadings(card: Card): ReadonlySet<object> {
  const seen = new Set<string>();
  const first = new Set<object>();
  const visit = (part: Part): void => {
    for (const action of part.type === 'step' ? part.actions : []) {
      if (action.type !== 'read' && action.type !== 'bring') continue;
      const { asked, gauge } = action;
      if (asked?.type !== 'bound' && asked?.type !== 'limit') continue;
      const bound = asked.type === 'bound' ? asked.bound : asked.limit.bound;
      const key = bound && `${gauge.name} ${boundWords(bound)}`;
      if (key === undefined || seen.has(key)) continue;
      seen.add(key);
      first.add(action);
    }
    for (const inner of partsInside(part)) visit(inner);
  };
  for (const part of inPrintedOrder(card)) visit(part);
  return first;
}
