/** What was done before and still stands, over all the paths of a card. */
import type {
  Accept,
  Action,
  Card,
  Do,
  Flow,
  Label,
  Repeat,
  Sign,
  Stage,
  Statement,
  Step,
} from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import type { Has } from './card.ts';
import type { HandledItem } from './hands.ts';

/** What is followed: what begins to stand, and what takes it away. */
export interface Followed {
  readonly begins: (handled: HandledItem) => boolean;
  readonly ends: (later: HandledItem, earlier: HandledItem) => boolean;
}

export interface Standing {
  /** For each item that is handled, what stands just before that on some path. */
  readonly before: ReadonlyMap<HandledItem, ReadonlySet<HandledItem>>;
  /** What stands on some path where a stage, or the card, ends. */
  readonly atEndOf: ReadonlyMap<Stage | Card, ReadonlySet<HandledItem>>;
}

/** On one sort of machine. The ways of a branch do not replace each other; what stands in all of them, or behind them, replaces what was before. */
export function standing(card: Card, all: readonly HandledItem[], has: Has, followed: Followed): Standing {
  const walk = new Walk(card, all, has, followed);
  while (walk.findsMore()) {}
  return walk;
}

/** What stands where a stage ends and another one follows, with the first such stage. */
export function standingOver(card: Card, { atEndOf }: Standing): ReadonlyMap<HandledItem, Stage> {
  const over = new Map<HandledItem, Stage>();
  for (const part of card.body) {
    if (part.type !== 'stage' || part === lastStage(card)) continue;
    for (const one of atEndOf.get(part) ?? []) if (!over.has(one)) over.set(one, part);
  }
  return over;
}

export function lastStage({ body }: Card): Stage | undefined {
  return body.findLast((part): part is Stage => part.type === 'stage' && !part.whenStopped);
}

/** What stands on the paths that lead here; undefined where none does. */
type Stands = ReadonlySet<HandledItem> | undefined;

/** What comes from elsewhere: to a label, once more into a loop, out of what is done, to a stop. */
type Arrivals = Map<Label | Repeat | 'finish' | 'stop', Set<HandledItem>>;

class Walk implements Standing {
  readonly before = new Map<HandledItem, Set<HandledItem>>();
  readonly atEndOf = new Map<Stage | Card, Set<HandledItem>>();
  private readonly handled: ReadonlyMap<object, HandledItem>;
  /** Of the card and of each thing that it does, as labels are their own; a stop in a stage for stops is no way into it. */
  private readonly arrivals = new Map<Card | Do | Stage, Arrivals>();
  private here: Arrivals;
  private stops: Arrivals;
  /** The ways out of each `keep` that is in force. */
  private keeps: readonly ((stands: Stands) => void)[] = [];
  private hasGrown = false;

  constructor(
    private readonly card: Card,
    all: readonly HandledItem[],
    private readonly has: Has,
    private readonly followed: Followed,
  ) {
    this.handled = new Map(all.map((handled) => [handled.change, handled]));
    this.here = this.arrivalsIn(card);
    this.stops = this.here;
  }

  /** Goes through the card; whether something led to a place that it had passed by then, or may have. */
  findsMore(): boolean {
    this.hasGrown = false;
    if (this.handled.size === 0) return false;
    const last = this.along(this.card.body, new Set());
    note(this.atEndOf, this.card, joined(last, this.here.get('finish')));
    this.afterStops();
    return this.hasGrown;
  }

  private afterStops(): void {
    const { here, stops } = this;
    let at: Stands = stops.get('stop');
    for (const part of this.card.body) {
      if (part.type !== 'stage' || !part.whenStopped || !this.has(part)) continue;
      this.here = this.arrivalsIn(part);
      this.stops = this.here;
      at = this.along(part.body, at);
    }
    this.here = here;
    this.stops = stops;
  }

  private along(body: readonly (Stage | Statement)[], from: Stands): Stands {
    const { keeps } = this;
    const last = body.reduce((at, part) => this.past(part, at), from);
    this.keeps = keeps;
    return last;
  }

  private past(part: Stage | Statement, from: Stands): Stands {
    if (part.type === 'stage' && part.whenStopped) return from;
    const isLedTo = (part.type === 'stage' || part.type === 'step') && part.label;
    const at = isLedTo ? joined(from, this.here.get(isLedTo)) : from;
    return this.has(part) ? this.through(part, at) : at;
  }

  private through(part: Stage | Statement, at: Stands): Stands {
    switch (part.type) {
      case 'step':
        return this.step(part, at);
      case 'stage': {
        const end = this.along(part.body, at);
        note(this.atEndOf, part, end);
        return end;
      }
      case 'if':
        return joined(this.along(part.body, at), this.along(part.otherwise ?? [], at));
      case 'choose':
        return part.ways.map((way) => this.along(way.body, at)).reduce(joined, undefined);
      case 'repeat':
        return this.repeat(part, at);
      case 'together':
        // Any lane may be the first. Where two drive one item, that has a finding of its own.
        for (const lane of part.lanes) this.along(lane.body, at);
        return part.lanes.reduce((before, lane) => this.along(lane.body, before), at);
      case 'for-each':
        return part.rounds.reduce((before, round) => this.along(round, before), at);
      case 'do':
        return this.done(part, at);
      case 'mend':
        return joined(at, this.along(part.body, this.here.get(part.label)));
      case 'go':
      case 'stop':
      case 'finish':
        this.leave(part, at);
        return undefined;
      case 'keep': {
        const { here } = this;
        this.keeps = [...this.keeps, (stands) => this.leave(part.otherwise, stands, here)];
        return at;
      }
      case 'admonition':
      case 'sign':
      case 'accept':
      case 'figure':
        return at;
    }
  }

  private repeat(repeat: Repeat, at: Stands): Stands {
    const end = this.along(repeat.body, joined(at, this.here.get(repeat)));
    if (repeat.times > 1) this.arrive(this.here, repeat, end);
    if (repeat.until) this.leave(repeat.otherwise, end);
    return end;
  }

  private done(doing: Do, at: Stands): Stands {
    const { here } = this;
    this.here = this.arrivalsIn(doing);
    const last = joined(this.along(doing.body, at), this.here.get('finish'));
    this.here = here;
    return last;
  }

  private step({ actions }: Step, from: Stands): Stands {
    let at = from;
    for (const leave of this.keeps) leave(at);
    for (const action of actions) {
      for (const otherwise of elsesOf(action)) this.leave(otherwise, at);
      const changes = action.type === 'set' || action.type === 'ensure' ? action.changes : [];
      for (const change of changes) at = this.handle(this.handled.get(change), at);
    }
    return at;
  }

  private handle(handled: HandledItem | undefined, at: Stands): Stands {
    if (!handled || !at) return at;
    note(this.before, handled, at);
    const { begins, ends } = this.followed;
    const left = [...at].filter((earlier) => !ends(handled, earlier));
    return new Set(begins(handled) ? [...left, handled] : left);
  }

  private leave(flow: Flow | undefined, at: Stands, here = this.here): void {
    if (!flow || flow.type === 'stop') this.arrive(this.stops, 'stop', at);
    else if (flow.type === 'finish') this.arrive(here, 'finish', at);
    else if (flow.target) this.arrive(here, flow.target, at);
  }

  private arrive(arrivals: Arrivals, where: Label | Repeat | 'finish' | 'stop', at: Stands): void {
    const before = arrivals.get(where)?.size;
    note(arrivals, where, at);
    this.hasGrown ||= arrivals.get(where)?.size !== before;
  }

  private arrivalsIn(part: Card | Do | Stage): Arrivals {
    return getOrInsert(this.arrivals, part, () => new Map());
  }
}

function joined(one: Stands, other: Stands): Stands {
  return one && other ? new Set([...one, ...other]) : (one ?? other);
}

function note<Key>(all: Map<Key, Set<HandledItem>>, key: Key, stands: Stands): void {
  if (!stands) return;
  const known = getOrInsert(all, key, () => new Set());
  for (const one of stands) known.add(one);
}

/** Where it leads when it fails, undefined for a stop. */
function elsesOf(action: Action | Sign | Accept): readonly (Flow | undefined)[] {
  switch (action.type) {
    case 'check':
    case 'bring':
      return [action.otherwise];
    case 'read':
      return action.asked ? [action.otherwise] : [];
    case 'wait':
      return action.until ? [action.until.otherwise] : [];
    case 'run':
      return [...action.watches, ...(action.until ? [action.until] : [])].map(({ otherwise }) => otherwise);
    case 'set':
    case 'ensure':
    case 'tighten':
    case 'record':
    case 'sign':
    case 'accept':
      return [];
  }
}
