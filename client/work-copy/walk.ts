/** Where a job stands, worked out from its entries: which moves are next, what was entered, what runs and what has run. */
import type { Job, JobLine, Move, MoveIndex, Unit } from '../../shared/job.ts';
import { type Entry, type OfKeep, standing } from './entries.ts';
import { ItemStates } from './item-states.ts';
import { Readings } from './known.ts';
import { namesAfter } from './people.ts';
import type { Use } from './rests.ts';
import { type Judged, type LineState, noEntry, type Visit, type Walk, type WentOn } from './state.ts';

/** Somebody's place in the card. */
interface Cursor {
  readonly at: MoveIndex;
  /** The forks whose lanes it is in, the outermost first. */
  readonly forks: readonly MoveIndex[];
}

/** More moves than these without anything to do is a loop that the card never leaves: then nothing is next. */
const mostAutomaticMoves = 100_000;

export function walk(job: Job, entries: readonly Entry[]): Walk {
  const walker = new Walker(job);
  for (const entry of standing(entries)) walker.apply(entry);
  return walker.state();
}

/** What each entry that still counts has made of the job. */
export function* walked(job: Job, entries: readonly Entry[]): Generator<{ entry: Entry; before: Walk; after: Walk }> {
  const walker = new Walker(job);
  let before = walker.state();
  for (const entry of standing(entries)) {
    walker.apply(entry);
    const after = walker.state();
    yield { entry, before, after };
    before = after;
  }
}

class Walker {
  #cursors: Cursor[] = [];
  readonly #opened = new Set<MoveIndex>();
  /** How often a unit was done before its turn and has not had its turn since. */
  readonly #ahead = new Map<MoveIndex, number>();
  readonly #visits = new Map<MoveIndex, Visit[]>();
  readonly #lines = new Map<MoveIndex, Map<number, LineState>>();
  readonly #keeps = new Map<MoveIndex, Readonly<Record<number, Judged>>>();
  readonly #items = new ItemStates();
  readonly #rounds = new Map<MoveIndex, number>();
  readonly #uses: Use[][];
  readonly #readings: Readings;
  #owesReason = false;
  readonly #wentOn: WentOn[] = [];
  #head: Extract<Entry, { type: 'head' }> | undefined;
  #names: readonly string[] = [];
  #finish: Extract<Entry, { type: 'finish' }> | undefined;

  constructor(private readonly job: Job) {
    this.#uses = job.duties.map(() => []);
    this.#readings = new Readings(job);
    this.#arrive({ at: job.start, forks: [] });
  }

  state(): Walk {
    const moves = this.#cursors.map(({ at }) => at);
    const end = moves.map((at) => this.job.moves[at]).find((move) => move?.type === 'end');
    const uses = this.#uses.map((ofItem) => [...ofItem]);
    const next = moves.filter((at) => isShown(this.job.moves[at]));
    return {
      next,
      readings: this.#readings,
      owesReason: this.#owesReason,
      wentOn: [...this.#wentOn],
      opened: this.#opened,
      visits: this.#visits,
      lines: new Map(this.#lines),
      keeps: new Map(this.#keeps),
      names: this.#names,
      ...this.#items.now(),
      rounds: this.#rounds,
      uses,
      ...(end?.type === 'end' && { ended: end.stopped ? 'stopped' : 'finished' }),
      ...(this.#head && { head: this.#head }),
      ...(this.#finish && { finish: this.#finish }),
    };
  }

  apply(entry: Entry): void {
    switch (entry.type) {
      case 'open':
        this.#opened.add(entry.move);
        return;
      case 'tick':
      case 'leave-out':
        this.#tick(entry);
        return;
      case 'begin':
        this.#begin(entry);
        return;
      case 'did':
        this.#did(entry);
        return;
      case 'end':
        this.#end(entry);
        return;
      case 'watch':
        this.#watch(entry, entry);
        return;
      case 'keep':
        this.#keep(entry, { passed: entry.passed, from: entry.from });
        return;
      case 'anyway':
        this.#goOnAnyway(entry);
        return;
      case 'answer': {
        const move = this.job.moves[entry.move];
        if (move?.type === 'ask' && this.#isAt(entry.move)) this.#goOn(entry.move, entry.yes ? move.yes : move.no);
        return;
      }
      case 'choose': {
        const move = this.job.moves[entry.move];
        if (move?.type === 'choose' && this.#isAt(entry.move))
          this.#goOn(entry.move, move.ways[entry.way]?.to ?? entry.move);
        return;
      }
      case 'exit':
        if (!this.#isAt(entry.move) && !this.#opened.has(entry.move)) return;
        this.#leave(entry.move, entry.at);
        this.#goOn(entry.move, entry.to);
        return;
      case 'stop':
        for (const move of [...this.#lines.keys(), ...this.#opened]) this.#leave(move, entry.at);
        this.#cursors = [];
        this.#readings.clear();
        this.#owesReason = true;
        this.#arrive({ at: this.job.stop, forks: [] });
        return;
      case 'why-stopped':
        this.#owesReason = false;
        return;
      case 'head':
        this.#beginWith(entry);
        return;
      case 'hand-over':
        this.#names = namesAfter(entry, this.#names);
        return;
      case 'finish':
        this.#finish = entry;
        return;
      case 'read-in':
      case 'settle':
      case 'loaded':
      case 'undo':
        return;
      default:
        this.#enter(entry);
    }
  }

  /** It is the first entry: which way the card goes first may hang on the machine. */
  #beginWith(head: Extract<Entry, { type: 'head' }>): void {
    const isFirst = this.#head === undefined && this.#visits.size === 0;
    this.#head = head;
    this.#names = namesAfter(head, this.#names);
    if (!isFirst) return;
    this.#cursors = [];
    this.#rounds.clear();
    this.#arrive({ at: this.job.start, forks: [] });
  }

  /** Whoever leaves a unit without ticking it begins it anew when coming back. */
  #leave(move: MoveIndex, at: number): void {
    this.#endRuns(move, at);
    this.#readings.leave(move);
    this.#lines.delete(move);
    this.#keeps.delete(move);
    this.#opened.delete(move);
  }

  /** What is written down at a line. A new value takes the place of an older one, and of what was said about that. */
  #enter(entry: Extract<Entry, { type: 'check' | 'reading' | 'note' | 'fields' | 'sign' }>): void {
    switch (entry.type) {
      case 'check':
        this.#items.checked(this.#lineOf(entry), entry);
        this.#setLine(entry, {
          ...this.#line(entry),
          passed: entry.passed,
          from: entry.from,
          late: entry.late && 'ran out',
          anyway: undefined,
        });
        return;
      case 'reading': {
        const { value, unit, limit, inside, parts } = entry;
        const { began, ended } = this.#line(entry);
        const late = this.#lateBy(entry, began, ended ?? entry.at);
        this.#setLine(entry, { began, ended, value, unit, limit, parts, late, inside, passed: late ? false : inside });
        this.#readings.enter(entry);
        return;
      }
      case 'note':
        this.#setLine(entry, { value: entry.value });
        return;
      case 'fields':
        this.#setLine(entry, { values: entry.values, passed: entry.passed });
        return;
      case 'sign':
        this.#setLine(entry, { value: entry.name });
    }
  }

  /** Two people answer for one thing that is not as it must be, and for no other. */
  #goOnAnyway(entry: Extract<Entry, { type: 'anyway' }>): void {
    const { at, move, reason, name } = entry;
    const anyway = { reason, name };
    if ('keep' in entry) {
      const { keep } = entry;
      const judged = this.#keeps.get(move)?.[keep];
      this.#keep({ move, keep }, { ...judged, anyway });
      this.#wentOn.push({ at, move, ...anyway, keep, from: judged?.from });
      return;
    }
    const line = this.#line(entry);
    if (entry.watch === undefined) this.#setLine(entry, { ...line, anyway });
    else this.#watch({ ...entry, watch: entry.watch }, { ...line.watches[entry.watch], anyway });
    this.#wentOn.push({ at, move, ...anyway });
  }

  /** By how much something was brought about too late. */
  #lateBy(at: { move: MoveIndex; line: number }, began: number | undefined, ended: number): number | undefined {
    const line = this.#lineOf(at);
    const within = line?.type === 'reading' ? line.within : undefined;
    if (began === undefined || within === undefined) return undefined;
    return ended - began > within ? ended - began - within : undefined;
  }

  // -------------------------------------------------------------- units

  #tick(entry: Extract<Entry, { type: 'tick' | 'leave-out' }>): void {
    const unit = this.job.moves[entry.move];
    if (unit?.type !== 'unit') return;
    this.#endRuns(entry.move, entry.at);
    this.#readings.leave(entry.move);
    const visit: Visit = {
      at: entry.at,
      leftOut: entry.type === 'leave-out',
      lines: this.#lines.get(entry.move) ?? new Map(),
      ...(entry.reason !== undefined && { reason: entry.reason }),
    };
    this.#visits.set(entry.move, [...(this.#visits.get(entry.move) ?? []), visit]);
    const { at, move, reason = '', name } = entry;
    if (name !== undefined) this.#wentOn.push({ at, move, reason, name, isUnchecked: true });
    this.#lines.delete(entry.move);
    this.#keeps.delete(entry.move);
    if (!visit.leftOut) this.#changeRuns(unit, entry, visit.lines);
    const wasOpened = this.#opened.delete(entry.move);
    if (this.#cursors.some(({ at }) => at === entry.move)) this.#goOn(entry.move, unit.next);
    else if (wasOpened) this.#ahead.set(entry.move, (this.#ahead.get(entry.move) ?? 0) + 1);
  }

  #line({ move, line }: { move: MoveIndex; line: number }): LineState {
    return this.#lines.get(move)?.get(line) ?? noEntry;
  }

  #setLine(where: { move: MoveIndex; line: number }, state: Partial<LineState>): void {
    const lines = new Map(this.#lines.get(where.move));
    lines.set(where.line, { ...noEntry, ...state });
    this.#lines.set(where.move, lines);
  }

  // -------------------------------------------------------------- runs

  #begin(entry: Extract<Entry, { type: 'begin' }>): void {
    const { reason, at } = entry;
    this.#setLine(entry, { began: at, ...(reason !== undefined && { reason }) });
    this.#readings.end(this.#lineOf(entry)?.ends);
    const duty = this.#dutyOf(entry);
    if (duty !== undefined) this.#uses[duty]?.push({ from: at });
    this.#items.begin(this.#lineOf(entry), entry);
  }

  #end(entry: Extract<Entry, { type: 'end' }>): void {
    const { reason, at } = entry;
    this.#setLine(entry, { ...this.#line(entry), ended: at, ...(reason !== undefined && { reason }) });
    this.#readings.end(this.#lineOf(entry)?.ends);
    const duty = this.#dutyOf(entry);
    if (duty !== undefined) this.#endUse(duty, at);
    this.#items.end(entry);
  }

  #watch(at: { move: MoveIndex; line: number; watch: number }, { passed, from, anyway }: Judged): void {
    const state = this.#line(at);
    this.#setLine(at, { ...state, watches: { ...state.watches, [at.watch]: { passed, from, anyway } } });
  }

  #keep({ move, keep }: OfKeep, judged: Judged): void {
    this.#keeps.set(move, { ...this.#keeps.get(move), [keep]: judged });
  }

  #lineOf({ move, line }: { move: MoveIndex; line: number }): JobLine | undefined {
    const unit = this.job.moves[move];
    return unit?.type === 'unit' ? unit.lines[line] : undefined;
  }

  #dutyOf(at: { move: MoveIndex; line: number }): number | undefined {
    const found = this.#lineOf(at);
    return found?.type === 'run' ? found.duty : undefined;
  }

  /** Whoever leaves a unit has ended what ran in it. */
  #endRuns(move: MoveIndex, at: number): void {
    for (const [line, state] of this.#lines.get(move) ?? []) {
      if (state.began === undefined || state.ended !== undefined) continue;
      this.#setLine({ move, line }, { ...state, ended: at });
      const duty = this.#dutyOf({ move, line });
      if (duty !== undefined) this.#endUse(duty, at);
      this.#items.end({ move, line });
    }
  }

  #did(entry: Extract<Entry, { type: 'did' }>): void {
    const line = this.#lineOf(entry);
    this.#setLine(entry, { began: entry.at, ended: entry.at });
    this.#readings.end(line?.ends);
    if (line) this.#changeRun(line, entry.at);
    this.#items.bring(line, entry);
  }

  /** What was not ticked by itself is done when its unit is ticked. */
  #changeRuns(unit: Unit, tick: { move: MoveIndex; at: number }, done: Visit['lines']): void {
    for (const [index, line] of unit.lines.entries()) {
      if (done.has(index) || line.type !== 'do') continue;
      this.#changeRun(line, tick.at);
      this.#items.bring(line, tick);
    }
  }

  /** A `set` that puts an item into a duty's state begins a run, and one out of it ends it. */
  #changeRun(line: JobLine, at: number): void {
    if (line.type !== 'do') return;
    for (const duty of line.rests ?? []) this.#endUse(duty, at);
    for (const duty of line.uses ?? []) this.#uses[duty]?.push({ from: at });
  }

  #endUse(duty: number, at: number): void {
    const uses = this.#uses[duty];
    const last = uses?.[uses.length - 1];
    if (uses && last && last.to === undefined) uses[uses.length - 1] = { from: last.from, to: at };
  }

  // -------------------------------------------------------------- ways

  #isAt(move: MoveIndex): boolean {
    return this.#cursors.some(({ at }) => at === move);
  }

  /** Moves the cursor that is at `from`; where none is, the one that somebody left to do this first. */
  #goOn(from: MoveIndex, to: MoveIndex): void {
    const cursor = this.#cursors.find(({ at }) => at === from) ?? this.#cursors[0];
    if (cursor === undefined) return;
    this.#cursors = this.#cursors.filter((other) => other !== cursor);
    this.#leaveLoops(from, to);
    this.#arrive({ ...cursor, at: to });
  }

  /** Follows the moves that need nobody, until somebody has something to do. */
  #arrive(cursor: Cursor): void {
    let here = cursor;
    for (let count = 0; count < mostAutomaticMoves; count++) {
      const on = this.#pass(here);
      if (on === undefined) return;
      this.#leaveLoops(here.at, on.at);
      here = on;
    }
  }

  /** Where a cursor goes on from here by itself; undefined where it stays or was put away. */
  #pass(cursor: Cursor): Cursor | undefined {
    const move = this.job.moves[cursor.at] as Move;
    switch (move.type) {
      case 'pass':
        this.#readings.end(move.ends);
        return { ...cursor, at: move.next };
      case 'stop':
        this.#cursors = [];
        this.#owesReason = true;
        return { at: move.next, forks: [] };
      case 'loop':
        return { ...cursor, at: this.#nextRound(cursor.at, move) };
      case 'only':
        return { ...cursor, at: isFor(this.job, move.only, this.#head?.machine) ? move.yes : move.no };
      case 'fork':
        for (const lane of move.lanes) this.#arrive({ at: lane, forks: [...cursor.forks, cursor.at] });
        return undefined;
      case 'join':
        return this.#join(cursor, move);
      case 'end':
        this.#cursors = [{ ...cursor, forks: [] }];
        return undefined;
      case 'unit':
        if (this.#takeAhead(cursor.at)) return { ...cursor, at: move.next };
        break;
      default:
    }
    this.#cursors.push(cursor);
    return undefined;
  }

  #nextRound(at: MoveIndex, loop: Extract<Move, { type: 'loop' }>): MoveIndex {
    const round = (this.#rounds.get(at) ?? 0) + 1;
    if (round > 1) this.#readings.end(loop.ends);
    if (round > loop.times) return loop.after;
    this.#rounds.set(at, round);
    return loop.body;
  }

  /** The last lane to arrive takes the card on. */
  #join(cursor: Cursor, { fork, next }: Extract<Move, { type: 'join' }>): Cursor | undefined {
    const lanes = this.job.moves[fork];
    const waiting = this.#cursors.filter(({ at }) => at === cursor.at);
    if (lanes?.type === 'fork' && waiting.length + 1 < lanes.lanes.length) {
      this.#cursors.push(cursor);
      return undefined;
    }
    this.#cursors = this.#cursors.filter(({ at }) => at !== cursor.at);
    return { at: next, forks: cursor.forks.filter((own) => own !== fork) };
  }

  #takeAhead(at: MoveIndex): boolean {
    const count = this.#ahead.get(at) ?? 0;
    if (count > 0) this.#ahead.set(at, count - 1);
    return count > 0;
  }

  /** A loop that is left begins with its first round when it is come to again. */
  #leaveLoops(from: MoveIndex, to: MoveIndex): void {
    for (const at of this.#rounds.keys()) {
      const loop = this.job.moves[at];
      if (loop?.type !== 'loop') continue;
      const isIn = (move: MoveIndex) => at <= move && move < loop.end;
      if (isIn(from) && !isIn(to)) this.#rounds.delete(at);
    }
  }
}

/** Where nobody has said which machine it is, everything is for it. */
export function isFor({ onlys }: Job, only: number, machine: readonly number[] | undefined): boolean {
  return (
    machine === undefined || (onlys[only] ?? []).every(({ variant, values }) => values.includes(machine[variant] ?? -1))
  );
}

function isShown(move: Move | undefined): boolean {
  return move?.type === 'unit' || move?.type === 'ask' || move?.type === 'choose';
}
