/** Where a run stands: what is still to be done, innermost first. A frame is never changed; going on makes a new one. */
import type { Do, Keep, Label, Repeat, Run, Stage, Statement, Step, Together } from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { type Sight, sightKey } from './sights.ts';

export type Frame =
  /** The next statement of a list. The list of a lane has the keeps that were in force where the lanes parted, and the `do` around them. */
  | {
      readonly type: 'list';
      readonly list: readonly (Stage | Statement)[];
      readonly index: number;
      readonly outside?: readonly KeepHere[];
      readonly around?: DoFrame;
      readonly under?: Frame;
    }
  /** The next action of a step. */
  | {
      readonly type: 'actions';
      readonly step: Step;
      readonly index: number;
      readonly change: number;
      readonly under?: Frame;
    }
  /** A run that has begun, with how its item stood before. Once its `until` is answered it ends, and nothing comes in between. */
  | {
      readonly type: 'run';
      readonly run: Run;
      readonly state: number;
      readonly setAt: string;
      readonly answer?: 'passes' | 'fails';
      readonly under?: Frame;
    }
  /** A round of a repeat is being done. */
  | { readonly type: 'repeat'; readonly repeat: Repeat; readonly round: number; readonly under?: Frame }
  /** A procedure or card is being done; `finish` comes back here. */
  | { readonly type: 'do'; readonly statement: Do; readonly under?: Frame }
  | {
      readonly type: 'together';
      readonly together: Together;
      readonly lanes: readonly LaneThread[];
      readonly under?: Frame;
    };

export type DoFrame = Extract<Frame, { type: 'do' }>;

/** A `keep` in force, and the `do` that a `finish` in its `else` goes back from. */
export interface KeepHere {
  readonly keep: Keep;
  readonly back?: DoFrame;
}

/** One pair of hands: what it still has to do, and its clock. */
export interface Thread {
  readonly frame?: Frame;
  readonly now: number;
}

/** One of several, with what it knows of times. */
export interface LaneThread extends Thread {
  readonly sight: Sight;
}

export function listFrame(list: readonly (Stage | Statement)[], under: Frame | undefined, index = 0): Frame {
  return { type: 'list', list, index, ...(under && { under }) };
}

export function laneFrame(
  list: readonly Statement[],
  outside: readonly KeepHere[],
  around: DoFrame | undefined,
): Frame {
  return { type: 'list', list, index: 0, outside, ...(around && { around }) };
}

/** The innermost `do` that a `finish` here goes back from, also where that lies around the lanes. */
export function enclosingDo(frame: Frame | undefined): DoFrame | undefined {
  for (let at = frame; at; at = at.under) {
    if (at.type === 'do') return at;
    if (at.type === 'list' && at.around) return at.around;
  }
  return undefined;
}

/** What the card itself does, in its own text, in which this place is. */
export function outermostDo(frame: Frame | undefined): DoFrame | undefined {
  const inner = enclosingDo(frame);
  return inner && (outermostDo(inner.under) ?? inner);
}

export function isUnder(frame: Frame | undefined, sought: Frame): boolean {
  for (let at = frame; at; at = at.under) if (at === sought) return true;
  return false;
}

/** Every `keep` that stands before here in a list that this place is in, the outermost first. */
export function keepsHere(frame: Frame | undefined): readonly KeepHere[] {
  const keeps: KeepHere[] = [];
  for (let at = frame; at; at = at.under) {
    if (at.type !== 'list') continue;
    const back = enclosingDo(at);
    const here = at.list.slice(0, at.index).filter((statement): statement is Keep => statement.type === 'keep');
    keeps.unshift(...(at.outside ?? []), ...here.map((keep) => ({ keep, ...(back && { back }) })));
  }
  return keeps;
}

/** The frame that does the statement with this label next: it stands in a list that is being done, or in a stage of one. */
export function frameAtLabel(frame: Frame | undefined, label: Label): Frame | undefined {
  for (let at = frame; at; at = at.under) {
    if (at.type !== 'list') continue;
    const { list, under } = at;
    const mend = list.findIndex((statement) => statement.type === 'mend' && statement.label === label);
    const mended = list[mend];
    if (mended?.type === 'mend') return listFrame(mended.body, { ...at, index: mend + 1 });
    const index = indexOfLabel(list, label);
    if (index >= 0) return { ...at, index };
    const stageIndex = list.findIndex(
      (statement) => statement.type === 'stage' && indexOfLabel(statement.body, label) >= 0,
    );
    const stage = list[stageIndex];
    if (stage?.type === 'stage')
      return listFrame(stage.body, listFrame(list, under, stageIndex + 1), indexOfLabel(stage.body, label));
  }
  return undefined;
}

function indexOfLabel(list: readonly (Stage | Statement)[], label: Label): number {
  return list.findIndex(
    (statement) => (statement.type === 'stage' || statement.type === 'step') && statement.label === label,
  );
}

/** Some lanes run at once here. */
export function hasLanes(frame: Frame | undefined): boolean {
  for (let at = frame; at; at = at.under) if (at.type === 'together') return true;
  return false;
}

/** Numbers for things, so that equal frames have equal keys. */
export class Names {
  private readonly numbers = new Map<object, number>();

  of(thing: object): number {
    return getOrInsert(this.numbers, thing, () => this.numbers.size);
  }
}

/** With `states` a run keeps what its item was before apart; without, it is only said where the thread stands. */
export function threadKey(thread: Thread, names: Names, states: 'with states' | 'place only' = 'with states'): string {
  let key = `${thread.now}`;
  for (let at = thread.frame; at; at = at.under) key += `;${frameKey(at, names, states)}`;
  return key;
}

function laneKey(lane: LaneThread, names: Names, states: 'with states' | 'place only'): string {
  return `${threadKey(lane, names, states)}${states === 'with states' ? sightKey(lane) : ''}`;
}

function frameKey(frame: Frame, names: Names, states: 'with states' | 'place only'): string {
  switch (frame.type) {
    case 'list':
      return `l${names.of(frame.list)}.${frame.index}`;
    case 'actions':
      return `a${names.of(frame.step)}.${frame.index}.${frame.change}`;
    case 'run':
      return `r${names.of(frame.run)}${frame.answer ?? ''}${states === 'with states' ? `.${frame.state}.${frame.setAt}` : ''}`;
    case 'repeat':
      return `n${names.of(frame.repeat)}.${frame.round}`;
    case 'do':
      return `d${names.of(frame.statement)}`;
    case 'together':
      return `t(${frame.lanes.map((lane) => laneKey(lane, names, states)).join('|')})`;
  }
}
