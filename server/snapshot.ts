/** One version of a file, with all that follows from it. Each stage is made when it is first asked for, and once. */
import { parse } from '../grammar/parse.ts';
import type { Parsed } from '../grammar/syntax.ts';
import type { Card } from '../shared/card.ts';
import { finish, type InParts, Once } from '../shared/parts.ts';
import { LineTable } from '../shared/text.ts';
import { type Bound, bind } from './binding/bind.ts';
import { carrier } from './proof/carry.ts';
import type { Proof, ProofOptions } from './proof/facts.ts';
import { proveInParts } from './proof/prove.ts';

/** One version of a text by itself. */
export class Source {
  private madeParsed: Parsed | undefined;
  private madeLines: LineTable | undefined;

  constructor(readonly text: string) {}

  get parsed(): Parsed {
    this.madeParsed ??= parse(this.text);
    return this.madeParsed;
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
  readonly proof: Once<Proof>;
}

function isMadeWith({ options }: Proving, { stateBound, noiseCriterion }: ProofOptions): boolean {
  return options.stateBound === stateBound && options.noiseCriterion === noiseCriterion;
}

// Each by itself: what is proved anew must not hold on to the version before, which holds on to the one before that.

function provedAnew(card: Card, options: ProofOptions) {
  const proof = new Once(() => proveInParts(card, options));
  return { made: { card, options, proof }, proof };
}

function carried({ options, proof }: Proving, carryOver: NonNullable<ReturnType<typeof carrier>>, card: Card) {
  return new Once(function* (): InParts<Proof> {
    return carryOver(yield* proof.inParts()) ?? (yield* proveInParts(card, options));
  });
}

export class Snapshot {
  private madeBound: Bound | undefined;
  private readonly used = new Map<string, Source | undefined>();
  private readonly proofs = new Map<Card, { readonly made: Proving; readonly proof: Once<Proof> }>();
  /** What was proved of versions before, by the name of the card. */
  private readonly earlier: ReadonlyMap<string, Proving>;

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
    return made && carryOver ? { made, proof: carried(made, carryOver, card) } : provedAnew(card, options);
  }

  /** What was proved of this version, or else of those before. */
  private get proved(): ReadonlyMap<string, Proving> {
    const own = [...this.proofs].map(([{ name }, { made }]) => [name, made] as const);
    return new Map(own.length < (this.madeBound?.cards.length ?? 1) ? [...this.earlier, ...own] : own);
  }
  /** Neither its own text nor that of a file it uses has changed since. */
  isCurrent(): boolean {
    if (this.sourceOf(this.file) !== this.source) return false;
    return [...this.used].every(([file, source]) => this.sourceOf(file) === source);
  }

  private use(file: string): Source | undefined {
    const source = file === this.file ? this.source : this.sourceOf(file);
    this.used.set(file, source);
    return source;
  }
}
