/** One version of a file, with all that follows from it. Each stage is made when it is first asked for, and once. */

import { pathAt } from '../grammar/navigate.ts';
import { type ChangedToken, changedToken, writeToken } from '../grammar/one-token.ts';
import { parse } from '../grammar/parse.ts';
import type { Parsed, Text } from '../grammar/syntax.ts';
import type { Card, Gauge } from '../shared/card.ts';
import { finish, type InParts, Once } from '../shared/parts.ts';
import { LineTable } from '../shared/text.ts';
import { type Bound, bind, bindBoundAlone } from './binding/bind.ts';
import { FoundSoFar } from './found-so-far.ts';
import { MovingPlaces } from './moving.ts';
import { carrier } from './proof/carry.ts';
import type { Proof, ProofOptions } from './proof/facts.ts';
import { Prover } from './proof/prove.ts';

/** One version of a text by itself. */
export class Source {
  private madeParsed: Parsed | undefined;
  private madeLines: LineTable | undefined;

  constructor(readonly text: string) {}

  get parsed(): Parsed {
    this.madeParsed ??= parse(this.text);
    return this.madeParsed;
  }

  get isParsed(): boolean {
    return this.madeParsed !== undefined;
  }

  /** Takes over the tree of another version, whose words have become those of this one. */
  takeOver({ parsed }: Source): void {
    this.madeParsed = { ...parsed, text: this.text };
  }

  get lines(): LineTable {
    this.madeLines ??= new LineTable(this.text);
    return this.madeLines;
  }
}

/** A proof, and the card that it was made of. */
interface Proving {
  readonly card: Card;
  readonly options: ProofOptions;
  readonly prover: Prover;
  readonly proof: Once<Proof>;
}

function isMadeWith({ options }: Proving, { stateBound, noiseCriterion }: ProofOptions): boolean {
  return options.stateBound === stateBound && options.noiseCriterion === noiseCriterion;
}

// Each by itself: what is proved anew must not hold on to the version before, which holds on to the one before that.

function provedAnew(card: Card, options: ProofOptions) {
  const prover = new Prover(card, options);
  const proof = new Once(() => prover.prove());
  return { made: { card, options, prover, proof }, proof };
}

/** Only what hangs on these gauges is asked again, and nothing where a number is another in the same order. */
function provedAgain(card: Card, made: Proving, gauges: ReadonlySet<Gauge>) {
  const { options, prover } = made;
  const areOther = [...gauges].map((gauge) => prover.forget(gauge));
  if (!areOther.includes(true)) return { made: { ...made, card }, proof: made.proof };
  const proof = new Once(() => prover.prove());
  return { made: { card, options, prover, proof }, proof };
}

function carried({ proof }: Proving, carryOver: NonNullable<ReturnType<typeof carrier>>) {
  return new Once(function* (): InParts<Proof> {
    return carryOver(yield* proof.inParts());
  });
}

/** Writes words into tree and card; no gauge hangs on them. Undefined where more than those who read a step does. */
function otherWords(changed: ChangedToken, places: MovingPlaces): ReadonlySet<Gauge> | undefined {
  const words = places.wordsAt(changed.start);
  if (changed.token.type === 'text' && words.length === 0) return undefined;
  writeToken(changed);
  if (changed.token.type === 'text') for (const one of words) (one as { text: string }).text = changed.token.value;
  return new Set();
}

export class Snapshot {
  /** What its findings are, as far as they are known. */
  found = new FoundSoFar();
  private madeBound: Bound | undefined;
  private readonly used = new Map<string, Source | undefined>();
  private readonly proofs = new Map<Card, { readonly made: Proving; readonly proof: Once<Proof> }>();
  /** What was proved of versions before, by the name of the card. */
  private earlier: ReadonlyMap<string, Proving>;
  private places: MovingPlaces | undefined;

  constructor(
    readonly file: string,
    private readonly source: Source,
    private readonly sourceOf: (file: string) => Source | undefined,
    before?: Snapshot,
  ) {
    this.earlier = before?.proved ?? new Map();
  }

  get text(): string {
    return this.source.text;
  }

  get lines(): LineTable {
    return this.source.lines;
  }

  get parsed(): Parsed {
    return this.source.parsed;
  }

  /** Its names, bound across the files that it uses. */
  get bound(): Bound {
    this.madeBound ??= bind(this.file, (file) => this.use(file)?.parsed);
    return this.madeBound;
  }

  /** The files that it uses, directly or by way of others, and that are there. */
  get uses(): readonly string[] {
    return this.bound && [...this.used].flatMap(([file, source]) => (source && file !== this.file ? [file] : []));
  }

  /** The files that it uses and that are not there, or not known yet. */
  get missing(): readonly string[] {
    return this.bound && [...this.used].flatMap(([file, source]) => (source ? [] : [file]));
  }

  /** What the path engine finds for one of its cards. */
  proof(card: Card, options: ProofOptions): Proof {
    return finish(this.proofInParts(card, options));
  }

  /** As `proof`, in parts. Whoever is first to ask begins it, and each that asks drives it on. */
  proofInParts(card: Card, { stateBound, noiseCriterion }: ProofOptions): InParts<Proof> {
    let known = this.proofs.get(card);
    if (!known || !isMadeWith(known.made, { stateBound, noiseCriterion })) {
      known = this.proving(card, { stateBound, noiseCriterion });
      this.proofs.set(card, known);
    }
    return known.proof.inParts();
  }

  /** What is proved of an earlier version that says the same is not proved once more. */
  private proving(card: Card, options: ProofOptions) {
    const made = this.earlier.get(card.name);
    const carryOver = made && isMadeWith(made, options) ? carrier(made.card, card) : undefined;
    return made && carryOver ? { made, proof: carried(made, carryOver) } : provedAnew(card, options);
  }

  /** What was proved of this version, or else of those before. */
  private get proved(): ReadonlyMap<string, Proving> {
    const own = [...this.proofs].map(([{ name }, { made }]) => [name, made] as const);
    return new Map(own.length < (this.madeBound?.cards.length ?? 1) ? [...this.earlier, ...own] : own);
  }

  /** Neither its own text nor that of a file it uses has changed since. */
  isCurrent(): boolean {
    return this.sourceOf(this.file) === this.source && this.usesCurrent();
  }

  private usesCurrent(): boolean {
    return [...this.used].every(([file, source]) => file === this.file || this.sourceOf(file) === source);
  }

  // -------------------------------------------------------------- one other token

  /**
   * This snapshot where other words stand in a step, an admonition or a comment, or another number in a bound: all that does not hang on them goes on with
   * it. Its places move, so that this one is not to be asked any more. Undefined where more has changed, and where somebody is still at work.
   */
  goneOnTo(source: Source): Snapshot | undefined {
    const { file, madeBound } = this;
    if (!madeBound || source.isParsed || this.isUnderWay || !this.usesCurrent()) return undefined;
    const changed = changedToken(this.parsed, source.text);
    if (!changed) return undefined;
    const places = this.movingPlaces(madeBound);
    const gauges =
      changed.token.type === 'number' ? this.withOtherNumber(changed, places) : otherWords(changed, places);
    if (!gauges) return undefined;
    places.move(changed);
    source.takeOver(this.source);
    const now = new Snapshot(file, source, this.sourceOf);
    return now.goingOnFrom(this, madeBound, places, gauges, changed.token.type === 'text' ? [changed.token] : []);
  }

  private get isUnderWay(): boolean {
    return [...this.proofs.values()].some(({ proof }) => proof.isUnderWay || proof.known?.isUnderWay());
  }

  /** All that has places: what was made since the last change is added to what was known then. */
  private movingPlaces(bound: Bound): MovingPlaces {
    const places = this.places?.isWornOut === false ? this.places : new MovingPlaces(this.file);
    const { cards, procedures, equipment, problems, references } = bound;
    places.addTree(this.parsed.file);
    places.addTree(this.parsed.comments);
    places.add([cards, procedures, equipment, problems, references.declared, references.uses, this.found.thatMayStay]);
    for (const { proof } of this.proofs.values()) if (proof.known) places.add(proof.known.facts);
    return places;
  }

  /** Writes a number into tree and bounds, and gives the gauges that they are held against. */
  private withOtherNumber(changed: ChangedToken, places: MovingPlaces): ReadonlySet<Gauge> | undefined {
    const { token } = changed;
    const node = pathAt(this.parsed.file, token.start).findLast((one) => one.type === 'bound');
    const held = node ? places.boundsAround(node) : [];
    if (!node || held.length === 0) return undefined;
    const before = this.text.slice(token.start, token.end);
    writeToken(changed);
    const now = held.map(({ gauge }) => bindBoundAlone(this.file, node, gauge));
    if (now.includes(undefined)) {
      writeToken({ token, written: before });
      return undefined;
    }
    for (const [index, { bound }] of held.entries()) Object.assign(bound, { ...now[index], place: bound.place });
    return new Set(held.map(({ gauge }) => gauge));
  }

  /** A card in which something changed is another card; only where a number did, its body is another too. */
  private goingOnFrom(
    before: Snapshot,
    bound: Bound,
    places: MovingPlaces,
    gauges: ReadonlySet<Gauge>,
    texts: readonly Text[],
  ): this {
    const areWords = gauges.size === 0;
    const now = new Map(
      bound.cards.map((card) => [card, { ...card, body: areWords ? card.body : [...card.body] }] as const),
    );
    this.madeBound = { ...bound, cards: [...now.values()] };
    for (const [file, source] of before.used) this.used.set(file, file === this.file ? this.source : source);
    for (const [card, { made, proof }] of before.proofs) {
      const same = now.get(card) as Card;
      const isOwn = made.card === card;
      if (areWords) this.proofs.set(same, { made: isOwn ? { ...made, card: same } : made, proof });
      else this.proofs.set(same, isOwn ? provedAgain(same, made, gauges) : provedAnew(same, made.options));
    }
    this.earlier = before.earlier;
    this.places = places;
    this.found = before.found.thatStays(areWords ? 'words' : 'bounds', texts);
    return this;
  }

  private use(file: string): Source | undefined {
    const source = file === this.file ? this.source : this.sourceOf(file);
    this.used.set(file, source);
    return source;
  }
}
