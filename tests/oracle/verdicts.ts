/** What the oracle has seen on the runs of one card. */
import type { Place } from '../../shared/text.ts';

/** One thing that goes wrong: its code, where a writer would mend it, and the name of the rule, hazard or item that it is about. */
export interface Verdict {
  readonly code: string;
  /** `file:start-end` */
  readonly place: string;
  readonly subject: string;
}

/** A card is done where what it assumes is not so. */
export const NOT_ASSUMED = 'safety.not-assumed';

export function placeKey(place: Place): string {
  return `${place.file}:${place.start}-${place.end}`;
}

/** A step, as a card comes to it: in its own text, or by what it does at a place. */
export function comingTo(step: string, doing: Place | undefined): string {
  return doing ? `${placeKey(doing)} ${step}` : step;
}

export function placeOfKey(key: string): Place {
  const [, file = '', start, end] = /^(.*):(\d+)-(\d+)$/.exec(key) ?? [];
  return { file, start: Number(start), end: Number(end) };
}

function keyOfVerdict({ code, place, subject }: Verdict): string {
  return [code, place, subject].join('\n');
}

/** What is so from the start, and whatever the path cannot tell from it, is told at the first `set`, `run` or `wait`. */
export type BrokenBefore = 'no' | 'told' | 'to be told at the first touch';

export class Sightings {
  private readonly broken = new Set<string>();
  /** What came about by itself, at an action that touched nothing of it. */
  private readonly drifted = new Set<string>();
  /** What came about by itself on a path that knows the least, and is told at its first touch, since it may have been so from the start. */
  private readonly putOff = new Set<string>();
  /** Hazards, as `id@place`, of which an admonition came too late on some run. */
  private readonly announcedLate = new Set<string>();
  private readonly began = new Map<string, string>();
  /** Likewise hazards that began by themselves, as `id@place`. */
  private readonly beganBefore = new Map<string, string>();
  private readonly beganByItself = new Map<string, string>();
  /** What was broken in some start already, as `code subject`. */
  readonly sinceStart = new Set<string>();
  /** Watchers, as `code subject`, that may break by themselves and were followed on paths. */
  readonly strict = new Set<string>();
  /** Watchers, as `code subject`, that may break by themselves on more paths than could be followed. */
  readonly lenient = new Set<string>();
  /** Steps that some run enters, as `comingTo` them. */
  readonly entered = new Set<string>();
  /** Each asked condition that passed, and that failed, on some run. */
  readonly passed = new Set<string>();
  readonly failed = new Set<string>();
  /** Each `set` of an item that changed it, and that found it so, on some run. */
  readonly changing = new Set<string>();
  readonly idle = new Set<string>();
  /** Which `set` of an item came last before another one of it, or before the end: the item and both places. */
  readonly reaching = new Set<string>();

  /** By watcher: whether what it asks may be broken already, for all that is known on the path that is being followed. */
  brokenBefore: readonly BrokenBefore[] = [];

  /** Adds what was seen on paths, as what must be told or as what may be. */
  addPaths(paths: Sightings, sort: 'must' | 'may'): void {
    const [broken, began] = sort === 'must' ? [this.broken, this.began] : [this.drifted, this.beganByItself];
    for (const line of [...paths.broken, ...paths.drifted]) broken.add(line);
    for (const line of paths.putOff) (sort === 'must' ? this.putOff : this.drifted).add(line);
    for (const [at, subject] of [...paths.began, ...paths.beganByItself]) began.set(at, subject);
    for (const [at, subject] of paths.beganBefore)
      (sort === 'must' ? this.beganBefore : this.beganByItself).set(at, subject);
    for (const at of paths.announcedLate) this.announcedLate.add(at);
  }

  noteReach(item: string, from: string, to: string): void {
    if (from !== '') this.reaching.add([item, from, to].join('\n'));
  }

  broke(code: string, place: string, subject: string, byItself = false): void {
    (byItself ? this.drifted : this.broken).add(keyOfVerdict({ code, place, subject }));
  }

  brokeBefore(code: string, place: string, subject: string): void {
    this.putOff.add(keyOfVerdict({ code, place, subject }));
  }

  went(place: string, passes: boolean, fails: boolean): void {
    if (passes) this.passed.add(place);
    if (fails) this.failed.add(place);
  }

  beganUnannounced(hazardAtPlace: string, subject: string, how: 'by an action' | 'by itself' | 'put off'): void {
    const began = { 'by an action': this.began, 'by itself': this.beganByItself, 'put off': this.beganBefore }[how];
    began.set(hazardAtPlace, subject);
  }

  announced(hazardAtPlace: string): void {
    this.announcedLate.add(hazardAtPlace);
  }

  verdicts(): readonly Verdict[] {
    return this.collect(this.broken, this.began);
  }

  /** What must be told there, unless a path that knows more tells it where it comes about. */
  verdictsPutOff(): readonly Verdict[] {
    return this.collect(
      new Set([...this.putOff].filter((line) => !this.broken.has(line))),
      new Map([...this.beganBefore].filter(([at]) => !this.began.has(at))),
    );
  }

  /** What comes about by itself at places where it may have come about before, as far as the path knows: it may be told there. */
  verdictsThatMayBeTold(): readonly Verdict[] {
    const must = new Set(this.verdicts().map(keyOfVerdict));
    return this.collect(this.drifted, this.beganByItself).filter((verdict) => !must.has(keyOfVerdict(verdict)));
  }

  private collect(lines: ReadonlySet<string>, began: ReadonlyMap<string, string>): readonly Verdict[] {
    const broken = [...lines].map((line) => {
      const [code = '', place = '', subject = ''] = line.split('\n');
      return { code, place, subject };
    });
    const unannounced = [...began].map(([hazardAtPlace, subject]) => ({
      code: this.announcedLate.has(hazardAtPlace) ? 'safety.warning-late' : 'safety.warning-missing',
      place: hazardAtPlace.slice(hazardAtPlace.indexOf('@') + 1),
      subject,
    }));
    return [...broken, ...unannounced];
  }
}
