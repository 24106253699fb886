/**
 * The card as a program for the work copy: each statement becomes moves that say what comes next. Compiled from the end to the
 * beginning, so that what follows a statement is known when it is its turn; jumps are filled in at the end.
 */
import type {
  Condition,
  Flow,
  If,
  Label,
  Repeat,
  Role,
  Sign,
  Statement,
  Step,
  Together,
} from '../../../shared/card.ts';
import type { Exit, Job, JobLine, Keep, Move, MoveIndex, Unit } from '../../../shared/job.ts';
import { beforeYouStart, type Checked, leftAtEnd, putBackAtEnd } from '../checklists.ts';
import type { Context } from '../context.ts';
import { toolsNeeded } from '../needs.ts';
import { isFor, onlyOf, type Part } from '../numbering.ts';
import { jobHead, recordForm } from '../record-form.ts';
import { conditionText } from '../sentences/conditions.ts';
import { flowSentence } from '../sentences/flows.ts';
import { capitalised } from '../sentences/labels.ts';
import { signLine } from '../sentences/lines.ts';
import { runningTitle } from '../style/page.ts';
import { type DutyTable, dutyTable } from './duties.ts';
import { type GaugeTable, gaugeTable } from './gauges.ts';
import { jobId } from './id.ts';
import { type ItemTable, itemTable } from './items.ts';
import { conditionOf, jobLines, signJobLine } from './lines.ts';
import { type MachineTable, machineTable } from './machines.ts';

export interface Program {
  readonly job: Job;
  /** The move that is shown at a part of the card. */
  readonly anchors: ReadonlyMap<object, MoveIndex>;
  /** What a part is only for, as in `Job.onlys`. */
  readonly onlys: ReadonlyMap<object, number>;
}

type Ask = Extract<Move, { type: 'ask' }>;

/** What the way through a part depends on, besides what follows it. */
interface Around {
  readonly keeps: readonly number[];
  /** Where `finish` leads. */
  readonly finish: MoveIndex;
  /** Where every stop leads. */
  readonly stop: MoveIndex;
  /** Whose lane it is. */
  readonly lane?: Role | undefined;
}

export function compileJob(context: Context): Program {
  const compiler = new Compiler(context);
  const { start, stop } = compiler.compileCard();
  const { card } = context.input;
  const content = {
    number: card.number?.text ?? '',
    revision: card.revision?.text ?? '',
    title: card.title,
    language: context.words.tag,
    roles: card.crew.map((role) => role.label),
    running: runningTitle(context),
    head: jobHead(context),
    record: recordForm(context),
    variants: compiler.machines.variants,
    onlys: compiler.machines.onlys,
    moves: compiler.moves,
    start,
    stop,
    keeps: compiler.keeps,
    duties: compiler.duties.items,
    items: compiler.items.items,
    gauges: compiler.gauges.items,
    ends: compiler.gauges.ends,
    words: context.words.workCopy,
  };
  return { job: { id: jobId(content), ...content }, anchors: compiler.anchors, onlys: compiler.machines.ofPart };
}

class Compiler {
  readonly moves: Move[] = [];
  readonly keeps: Keep[] = [];
  readonly anchors = new Map<object, MoveIndex>();
  readonly duties: DutyTable;
  readonly gauges: GaugeTable;
  readonly machines: MachineTable;
  readonly items: ItemTable;
  private readonly entries = new Map<Label, MoveIndex>();
  private readonly jumps: { readonly from: MoveIndex; readonly flow: Extract<Flow, { type: 'go' }> }[] = [];

  constructor(private readonly context: Context) {
    this.duties = dutyTable();
    this.gauges = gaugeTable(context);
    this.machines = machineTable(context);
    this.items = itemTable(context);
  }

  compileCard(): { readonly start: MoveIndex; readonly stop: MoveIndex } {
    const finished = this.add({ type: 'end', stopped: false });
    const stopped = this.add({ type: 'end', stopped: true });
    const ofStop: Around = { keeps: [], finish: stopped, stop: stopped };
    const stop = this.compileParts(this.context.stopStages, stopped, ofStop);
    const { input, words } = this.context;
    const left = this.compileChecklist(
      words.heading.atTheEnd,
      input.atEnd,
      [...putBackAtEnd(this.context), ...leftAtEnd(this.context)],
      finished,
    );
    const ofRun: Around = { keeps: [], finish: left, stop };
    const run = input.card.body.filter((part) => part.type !== 'stage' || !part.whenStopped);
    const start = this.compileParts(run, left, ofRun);
    for (const { from, flow } of this.jumps) this.moves[from] = this.jump(flow, stopped);
    const begin = this.compileChecklist(
      words.heading.beforeYouStart,
      input.beforeYouStart,
      beforeYouStart(this.context),
      start,
    );
    return { start: this.compileTools(begin), stop };
  }

  /** What is not so is put right on the spot. */
  private compileChecklist(name: string, part: object, checked: readonly Checked[], next: MoveIndex): MoveIndex {
    if (checked.length === 0) return next;
    const lines = checked.map(({ text, firm, state, ifSet }): JobLine => {
      const exit = { text: this.context.words.step.putRight, ...(firm && { firm: true as const }) };
      const brings = state && { brings: [this.items.stateOf(state.item, state.state)] };
      return {
        type: 'check',
        text,
        exit,
        ...brings,
        ...(ifSet && { ifSet: this.items.indexOf(ifSet) }),
      };
    });
    return this.anchored(part, this.add({ type: 'unit', name, who: '', by: [], lines, next, keeps: [] }));
  }

  /** The number and due date of each calibrated tool, before anything is done. */
  private compileTools(next: MoveIndex): MoveIndex {
    const { input, words } = this.context;
    const lines = toolsNeeded(this.context).flatMap(({ text, calibrated }): JobLine[] => {
      if (!calibrated) return [];
      const fields = [
        { label: `${text} · ${words.step.toolNumber}`, kind: 'tool' as const },
        { label: `${text} · ${words.step.dueDate}`, kind: 'date' as const },
      ];
      // Each field says which tool it is of.
      return [{ type: 'fields', text: '', fields }];
    });
    if (lines.length === 0) return next;
    const unit = { type: 'unit', name: words.front.tools, who: '', by: [], lines, next, keeps: [] } as const;
    return this.anchored(input.card.tools, this.add(unit));
  }

  private add(move: Move): MoveIndex {
    return this.moves.push(move) - 1;
  }

  /** The entry of these parts, when `next` is what follows them. */
  private compileParts(parts: readonly Part[], next: MoveIndex, around: Around): MoveIndex {
    const own = parts.filter((part) => isFor(onlyOf(part), this.context.input.configuration));
    const kept = this.keptAt(own, around);
    return own.reduceRight(
      (after, part, index) => this.compileFor(part, after, { ...around, keeps: kept[index] ?? [] }),
      next,
    );
  }

  /** A `keep` counts for all that follows it in its block. */
  private keptAt(parts: readonly Part[], around: Around): readonly (readonly number[])[] {
    let keeps = around.keeps;
    return parts.map((part) => {
      if (part.type !== 'keep') return keeps;
      const text = this.context.words.block.keep(conditionText(part.condition, this.context, 'name and place'));
      const exit = this.exit(part.otherwise, around, part.condition);
      keeps = [...keeps, this.keeps.push({ text, exit, ...conditionOf(part.condition, this.gauges) }) - 1];
      return keeps;
    });
  }

  /** A part that is only for some machines is passed by on the others. */
  private compileFor(part: Part, next: MoveIndex, around: Around): MoveIndex {
    const yes = this.compilePart(part, next, around);
    const only = this.machines.onlyFor(part);
    if (only === undefined || yes === next) return yes;
    const way = this.add({ type: 'only', only, yes, no: next });
    if ((part.type === 'step' || part.type === 'stage') && part.label) this.entries.set(part.label, way);
    return way;
  }

  private compilePart(part: Part, next: MoveIndex, around: Around): MoveIndex {
    switch (part.type) {
      case 'stage': {
        const entry = this.compileParts(part.body, next, around);
        if (part.label) this.entries.set(part.label, entry);
        return entry;
      }
      case 'do':
        return this.compileParts(part.body, next, { ...around, finish: next });
      case 'step':
        return this.compileStep(part, next, around);
      case 'sign':
        return this.compileSign(part, next, around);
      case 'if':
        return this.compileIf(part, next, around);
      case 'repeat':
        return this.compileRepeat(part, next, around);
      case 'together':
        return this.compileTogether(part, next, around);
      case 'for-each':
        return part.rounds.reduceRight((after, round) => this.compileParts(round, after, around), next);
      case 'choose':
        return this.compileChoose(part, next, around);
      case 'mend':
        this.entries.set(part.label, this.compileParts(part.body, next, around));
        return next;
      case 'go':
      case 'stop':
      case 'finish':
        return this.anchored(part, this.compileFlow(part, around));
      case 'admonition':
      case 'keep':
      case 'accept':
      case 'figure':
        return next;
    }
  }

  private compileStep(step: Step, next: MoveIndex, around: Around): MoveIndex {
    const { words, numbering } = this.context;
    const number = numbering.numberOf(step);
    const name = capitalised(words.step.step(number), words.tag);
    const lines = jobLines(step, this.context, this, (flow, asked, first) => this.exit(flow, around, asked, first));
    const entry = this.addUnit(
      step,
      {
        name,
        step: number,
        ...this.people(step.roles, around),
        lines,
        ...(takesTime(step) && this.gauges.endedBy({ type: 'moment', cause: 'step' })),
      },
      next,
      around,
    );
    if (step.label) this.entries.set(step.label, entry);
    return entry;
  }

  private people(named: readonly Role[], { lane }: Around): Pick<Unit, 'who' | 'by'> {
    const { input, words } = this.context;
    const roles = named.length === 0 && lane ? [lane] : named;
    const by = roles.map((role) => input.card.crew.indexOf(role)).filter((index) => index >= 0);
    return { who: words.grammar.and(roles.map((role) => role.label)), by };
  }

  private compileSign(sign: Sign, next: MoveIndex, around: Around): MoveIndex {
    return this.addUnit(
      sign,
      {
        name: signLine(sign, this.context).sentence,
        ...this.people(sign.role ? [sign.role] : [], around),
        lines: [signJobLine(sign)],
      },
      next,
      around,
    );
  }

  private addUnit(
    part: Step | Sign,
    unit: Omit<Unit, 'type' | 'next' | 'keeps'>,
    next: MoveIndex,
    { keeps }: Around,
  ): MoveIndex {
    return this.anchored(part, this.add({ type: 'unit', ...unit, next, keeps }));
  }

  private compileIf(part: If, next: MoveIndex, around: Around): MoveIndex {
    const no = part.otherwise ? this.compileParts(part.otherwise, next, around) : next;
    const yes = this.compileParts(part.body, next, around);
    return this.anchored(part, this.add({ type: 'ask', ...this.asked(part), who: around.lane?.label ?? '', yes, no }));
  }

  private compileRepeat(part: Repeat, next: MoveIndex, around: Around): MoveIndex {
    const after = part.until ? this.flowEntry(part.otherwise, around) : next;
    const head = this.add({ type: 'pass', next });
    const again = part.until
      ? this.anchored(
          part,
          this.add({ type: 'ask', ...this.asked(part.until), who: around.lane?.label ?? '', yes: next, no: head }),
        )
      : head;
    const body = this.compileParts(part.body, again, around);
    const ends = this.gauges.endedBy({ type: 'forget' });
    this.moves[head] = { type: 'loop', times: part.times, body, end: this.moves.length, after, ...ends };
    return head;
  }

  private compileTogether(part: Together, next: MoveIndex, around: Around): MoveIndex {
    const join = this.add({ type: 'pass', next });
    const lanes = part.lanes.map(({ role, body }) => this.compileParts(body, join, { ...around, lane: role }));
    const fork = this.add({ type: 'fork', lanes });
    this.moves[join] = { type: 'join', fork, next };
    return fork;
  }

  private compileChoose(part: Extract<Statement, { type: 'choose' }>, next: MoveIndex, around: Around): MoveIndex {
    const ways = part.ways.map((way) => ({ text: way.text.text, to: this.compileParts(way.body, next, around) }));
    const text = [this.context.words.block.choose, ways.map((way) => way.text).join(' / ')].join(' ');
    return this.anchored(part, this.add({ type: 'choose', text, who: around.lane?.label ?? '', ways }));
  }

  private compileFlow(flow: Flow, around: Around): MoveIndex {
    if (flow.type === 'finish') return this.add({ type: 'pass', next: around.finish });
    if (flow.type === 'stop')
      return this.add({ type: 'stop', text: flowSentence(flow, this.context), next: around.stop });
    const from = this.add({ type: 'pass', next: around.stop });
    this.jumps.push({ from, flow });
    return from;
  }

  /** After a jump back nothing counts that was read before. */
  private jump({ target, place }: Extract<Flow, { type: 'go' }>, unknown: MoveIndex): Move {
    const next = (target && this.entries.get(target)) ?? unknown;
    const isBack = target !== undefined && target.place.file === place.file && target.place.start <= place.start;
    return { type: 'pass', next, ...(isBack && this.gauges.endedBy({ type: 'forget' })) };
  }

  /** Without a flow of its own, what fails stops. */
  private flowEntry(flow: Flow | undefined, around: Around): MoveIndex {
    return flow
      ? this.compileFlow(flow, around)
      : this.add({ type: 'stop', text: flowSentence(undefined, this.context), next: around.stop });
  }

  private exit(flow: Flow | undefined, around: Around, asked?: Condition, first?: string): Exit {
    const isFirm = asked !== undefined && this.context.input.reliedOn?.has(asked);
    const text = flowSentence(flow, this.context, first);
    return { to: this.flowEntry(flow, around), text, ...(isFirm && { firm: true }) };
  }

  private asked({ question, condition }: Pick<If, 'condition' | 'question'>): Pick<Ask, 'text' | 'condition'> {
    if (question) return { text: question.text };
    const { grammar, tag } = this.context.words;
    if (condition === undefined) return { text: capitalised(grammar.open, tag) };
    const text = capitalised(conditionText(condition, this.context, 'name and place'), tag);
    const told = this.gauges.condition(condition);
    return told.type === 'open' ? { text } : { text, condition: told };
  }

  private anchored(part: object, index: MoveIndex): MoveIndex {
    this.anchors.set(part, index);
    return index;
  }
}

/** As on the paths of the proof: the time of hands, and whatever a text asks for, end what was read before. */
function takesTime({ takes, texts }: Step): boolean {
  return takes !== undefined || texts.length > 0;
}
