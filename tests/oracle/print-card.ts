/** Prints a recipe as the text of one file: equipment and card. */
import { printCondition, printEquipment } from './print-equipment.ts';
import type {
  ActionRecipe,
  AskedRecipe,
  CardRecipe,
  FlowRecipe,
  ProcedureRecipe,
  SpanRecipe,
  StatementRecipe,
  WatchRecipe,
} from './recipe.ts';
import {
  BOUNDS,
  DURATIONS,
  type KindName,
  LEVELS,
  MACHINES,
  pick,
  type Scope,
  STATES,
  settable,
  type Thing,
  thingsOf,
} from './scope.ts';

export function printRecipe(recipe: CardRecipe): string {
  return printed(recipe, new CardPrinter(recipe));
}

/** The same card, in which each place at which a procedure is done has a procedure of its own, with a name that is as long. */
export function printApart(recipe: CardRecipe): string {
  return printed(recipe, new ApartPrinter(recipe));
}

function printed(recipe: CardRecipe, printer: CardPrinter): string {
  return `${[...printEquipment(recipe), ...printer.print()].join('\n')}\n`;
}

class CardPrinter {
  private lists = 0;
  private readonly things: readonly Thing[];
  private readonly outermost: Scope;

  constructor(protected readonly recipe: CardRecipe) {
    this.things = thingsOf(recipe);
    this.outermost = {
      things: this.things,
      labels: [],
      labelled: true,
      starterHere: true,
      callable: recipe.procedures.length,
    };
  }

  print(): readonly string[] {
    const stageLists = this.recipe.stages.map((stage) => ({ stage, labels: this.labelsFor(stage) }));
    const labels = stageLists
      .flatMap((list, index) => [`part-${index}`, ...list.labels])
      .filter((label) => label !== '');
    const scope: Scope = { ...this.outermost, labels };
    return [
      'card trial "A trial" {',
      '  number "T-1" revision "A" crew left "Left", right "Right"',
      ...this.printFields(),
      ...stageLists.flatMap(({ stage, labels: own }, index) =>
        block(`stage part-${index} "Part ${index}"`, this.printStatements(stage, own, scope)),
      ),
      ...(this.recipe.whenStopped ? this.printWhenStopped(this.recipe.whenStopped) : []),
      '}',
      ...this.printProcedures(),
    ];
  }

  private printWhenStopped(body: readonly StatementRecipe[]): readonly string[] {
    return block('stage "Make safe" when stopped', this.printList(body, this.outermost));
  }

  private printFields(): readonly string[] {
    return this.recipe.items.flatMap((item, index) => {
      const thing = this.things[index] as Thing;
      const states = STATES[thing.kind];
      return [
        ...(item.start === 'assumed' ? [`  assume ${thing.name} ${pick(states, item.state + 1)}`] : []),
        ...(item.leaves !== undefined && item.start !== 'unknown'
          ? [`  leaves ${thing.name} ${pick(states, item.leaves)}`]
          : []),
      ];
    });
  }

  protected printProcedures(): readonly string[] {
    return this.recipe.procedures.flatMap((_, index) => this.printProcedure(index, index));
  }

  /** @param callable How many of the procedures it may do. */
  protected printProcedure(number: number, callable: number): readonly string[] {
    const { assumes, body } = this.recipe.procedures[callable] as ProcedureRecipe;
    if (assumes) return this.printCard(nameOf(number), assumes, this.printList(body, { ...this.outermost, callable }));
    // Without a valve in the card it is given none.
    const parameter: readonly Thing[] = this.things.some(({ kind }) => kind === 'valve')
      ? [{ name: 'one', kind: 'valve' }]
      : [];
    const scope: Scope = { ...this.outermost, things: [...parameter, ...this.things], callable };
    return block(
      `procedure ${nameOf(number)}(${parameter.length > 0 ? 'one: valve' : ''}) "Drill"`,
      this.printList(body, scope),
      '',
    );
  }

  private printCard(
    name: string,
    assumes: NonNullable<ProcedureRecipe['assumes']>,
    body: readonly string[],
  ): readonly string[] {
    const states = new Map(assumes.map(({ item, state }) => [pick(this.things, item), state]));
    const fields = [...states].map(([thing, state]) => `assume ${thing.name} ${pick(STATES[thing.kind], state)}`);
    const head = 'number "T-2" revision "A" crew left "Left", right "Right"';
    return block(`card ${name} "Drill"`, [head, ...fields, ...body], '');
  }

  /** One label a step that all machines have, an empty one for anything else. */
  private labelsFor(list: readonly StatementRecipe[]): readonly string[] {
    const number = String(this.lists++).padStart(3, '0');
    const isForAll = (statement: StatementRecipe) => statement.type === 'step' && statement.only === undefined;
    return list.map((statement, index) => (isForAll(statement) ? `at-${number}-${index}` : ''));
  }

  private printList(list: readonly StatementRecipe[], scope: Scope): readonly string[] {
    const labels = scope.labelled ? this.labelsFor(list) : list.map(() => '');
    return this.printStatements(list, labels, {
      ...scope,
      labels: [...scope.labels, ...labels.filter((label) => label !== '')],
    });
  }

  private printStatements(
    list: readonly StatementRecipe[],
    labels: readonly string[],
    scope: Scope,
  ): readonly string[] {
    return list.flatMap((statement, index) => this.printStatement(statement, labels[index] as string, scope));
  }

  private printStatement(statement: StatementRecipe, label: string, scope: Scope): readonly string[] {
    switch (statement.type) {
      case 'step':
        return this.printStep(statement, label, scope);
      case 'admonition':
        return [this.recipe.hazard ? `${pick(LEVELS, statement.level)} heat` : `note "Take care."`];
      case 'if':
        return this.printIf(statement, scope);
      case 'repeat':
        return this.printRepeat(statement, scope);
      case 'mended':
        return this.printMended(statement, scope);
      case 'together':
        return this.printTogether(statement.parts, scope);
      case 'choose':
        return this.printChoose(statement.parts, scope);
      case 'for-each':
        return this.printForEach(statement, scope);
      case 'do':
        return this.printDo(statement, scope);
      case 'keep':
        return [`keep ${this.asked(statement.condition, scope)}${this.otherwise(statement.otherwise, scope)}`];
      default:
        return [this.flow(statement, scope)];
    }
  }

  private printStep(step: Extract<StatementRecipe, { type: 'step' }>, label: string, scope: Scope): readonly string[] {
    const text = step.text ? ' "Look around."' : '';
    const takes = step.takes ? ` takes ${span(step.takes)}` : '';
    const only = step.only === undefined ? '' : ` only ${pick(MACHINES, step.only)}`;
    const actions = step.actions.map((action) => this.action(action, scope));
    return [
      `step${label === '' ? '' : ` ${label}:`}${text} by left${takes}${only} {`,
      ...actions.map((action) => `  ${action}`),
      '}',
    ];
  }

  private printIf(statement: Extract<StatementRecipe, { type: 'if' }>, scope: Scope): readonly string[] {
    const body = block(`if ${this.asked(statement.asked, scope)}`, this.printList(statement.body, scope), '');
    return statement.otherwise
      ? [...body.slice(0, -1), ...block('} else', this.printList(statement.otherwise, scope), '')]
      : body;
  }

  private printRepeat(statement: Extract<StatementRecipe, { type: 'repeat' }>, scope: Scope): readonly string[] {
    const until = statement.until && this.asked(statement.until, scope);
    const head =
      until === undefined
        ? `repeat ${statement.times} times`
        : `repeat at most ${statement.times} times until ${until}`;
    const body = block(head, this.printList(statement.body, scope), '');
    return until === undefined ? body : [...body.slice(0, -1), `}${this.otherwise(statement.otherwise, scope)}`];
  }

  private printMended(step: Extract<StatementRecipe, { type: 'mended' }>, scope: Scope): readonly string[] {
    const takes = step.takes ? ` takes ${span(step.takes)}` : '';
    const mend = block(`check ${this.asked(step.asked, scope)} else`, this.printList(step.body, scope), '');
    const asked = [...mend.slice(0, -1), `}${this.otherwise(step.otherwise, scope)}`];
    return block(`step by left${takes}`, [...asked, this.action(step.afterwards, scope)], '');
  }

  private printTogether(lanes: readonly (readonly StatementRecipe[])[], scope: Scope): readonly string[] {
    const inLane = (index: number): Scope => ({ ...scope, labels: [], starterHere: scope.starterHere && index === 0 });
    return block(
      'together',
      lanes.flatMap((lane, index) =>
        block(`by ${index === 0 ? 'left' : 'right'}`, this.printList(lane, inLane(index)), ''),
      ),
      '',
    );
  }

  private printChoose(ways: readonly (readonly StatementRecipe[])[], scope: Scope): readonly string[] {
    return block(
      'choose',
      ways.flatMap((way, index) => block(`${index === 0 ? '' : 'or '}"Way ${index}"`, this.printList(way, scope), '')),
      '',
    );
  }

  private printForEach(statement: Extract<StatementRecipe, { type: 'for-each' }>, scope: Scope): readonly string[] {
    const kinds = [...new Set(this.things.map((thing) => thing.kind))].filter(
      (kind) => kind !== 'starter' || scope.starterHere,
    );
    const kind = pick<KindName>(kinds, statement.kind);
    const name = scope.things.some((thing) => thing.name === 'each-one') ? 'each-other' : 'each-one';
    const inside: Scope = { ...scope, things: [{ name, kind }, ...scope.things], labelled: false };
    return block(`for each ${name} in ${kind}`, this.printList(statement.body, inside), '');
  }

  private printDo(statement: Extract<StatementRecipe, { type: 'do' }>, scope: Scope): readonly string[] {
    if (scope.callable === 0 || !scope.starterHere) return ['note "Nothing to do."'];
    const valves = scope.things.filter(({ kind }) => kind === 'valve');
    const index = statement.procedure % scope.callable;
    const isCard = this.recipe.procedures[index]?.assumes !== undefined;
    const argument = valves.length > 0 && !isCard ? `(${pick(valves, statement.argument).name})` : '';
    return [`do ${nameOf(this.procedureFor(index))}${argument}`];
  }

  protected procedureFor(index: number): number {
    return index;
  }

  private action(action: ActionRecipe, scope: Scope): string {
    switch (action.type) {
      case 'set':
      case 'ensure':
        return this.set(action, scope);
      case 'check':
        return `check ${this.asked(action.asked, scope)}${this.otherwise(action.otherwise, scope)}`;
      case 'read':
        return this.recipe.gauge ? this.read(action, scope) : this.look(action.otherwise, scope);
      case 'bring':
        return this.recipe.gauge ? this.bring(action, scope) : this.look(action.otherwise, scope);
      case 'run':
        return this.run(action, scope);
      case 'run-until':
        return this.runUntil(action, scope);
      case 'wait':
        return `wait ${span(action.span)}`;
      case 'wait-until': {
        const within = action.within === undefined ? '' : ` within ${pick(DURATIONS, action.within)}`;
        return `wait until ${this.asked(action.until, scope)}${within}${this.otherwise(action.otherwise, scope)}`;
      }
    }
  }

  private set(action: Extract<ActionRecipe, { type: 'set' | 'ensure' }>, scope: Scope): string {
    const changes = new Map<string, string>();
    for (const change of action.changes) {
      const drivable = settable(scope);
      if (drivable.length === 0) continue;
      const thing = pick(drivable, change.item);
      changes.set(thing.name, pick(STATES[thing.kind], change.state));
    }
    return changes.size === 0
      ? this.look(undefined, scope)
      : `${action.type} ${[...changes].map(([name, state]) => `${name} ${state}`).join(', ')}`;
  }

  private look(otherwise: FlowRecipe | undefined, scope: Scope): string {
    return `check "Is all well?"${this.otherwise(otherwise, scope)}`;
  }

  private read(action: Extract<ActionRecipe, { type: 'read' }>, scope: Scope): string {
    return action.bound === undefined
      ? 'read pressure'
      : `read pressure ${pick(BOUNDS, action.bound)}${this.otherwise(action.otherwise, scope)}`;
  }

  private bring(action: Extract<ActionRecipe, { type: 'bring' }>, scope: Scope): string {
    const within = action.within === undefined ? '' : ` within ${pick(DURATIONS, action.within)}`;
    return `bring pressure ${pick(BOUNDS, action.bound)}${within}${this.otherwise(action.otherwise, scope)}`;
  }

  private run(action: Extract<ActionRecipe, { type: 'run' }>, scope: Scope): string {
    const drivable = settable(scope);
    if (drivable.length === 0) return `wait ${span(action.span)}`;
    const thing = pick(drivable, action.item);
    const watches = this.recipe.gauge ? action.watches.map((watch) => this.watch(watch, scope)) : [];
    const watch = watches.length > 0 ? ` { ${watches.join(' ')} }` : '';
    return `run ${thing.name} ${pick(STATES[thing.kind], action.state)} for ${span(action.span)}${watch}`;
  }

  private runUntil(action: Extract<ActionRecipe, { type: 'run-until' }>, scope: Scope): string {
    const drivable = settable(scope);
    if (drivable.length === 0) return this.look(action.otherwise, scope);
    const thing = pick(drivable, action.item);
    const until = `until ${this.asked(action.until, scope)} within ${pick(DURATIONS, action.within)}`;
    return `run ${thing.name} ${pick(STATES[thing.kind], action.state)} ${until}${this.otherwise(action.otherwise, scope)}`;
  }

  private watch(watch: WatchRecipe, scope: Scope): string {
    const bound = pick(BOUNDS.slice(0, 6), watch.bound);
    const form =
      watch.within === undefined ? `stays ${bound}` : `reaches ${bound} within ${pick(DURATIONS, watch.within)}`;
    return `watch pressure ${form}${this.otherwise(watch.otherwise, scope)}`;
  }

  private asked(asked: AskedRecipe, scope: Scope): string {
    return asked.type === 'question' ? '"Is it so?"' : printCondition(this.recipe, asked, scope.things, true);
  }

  private otherwise(flow: FlowRecipe | undefined, scope: Scope): string {
    return flow ? ` else ${this.flow(flow, scope)}` : '';
  }

  private flow(flow: FlowRecipe, scope: Scope): string {
    if (flow.type === 'finish') return 'finish';
    if (flow.type === 'stop' || scope.labels.length === 0) return 'stop "Report it."';
    return `go to ${pick(scope.labels, flow.target)}`;
  }
}

/** Makes a procedure for each place at which one is done. */
class ApartPrinter extends CardPrinter {
  private readonly made: (readonly string[])[] = [];

  override print(): readonly string[] {
    const card = super.print();
    return [...card, ...this.made.flat()];
  }

  protected override printProcedures(): readonly string[] {
    return [];
  }

  protected override procedureFor(index: number): number {
    const number = this.made.push([]) - 1;
    this.made[number] = this.printProcedure(number, index);
    return number;
  }
}

function nameOf(procedure: number): string {
  return `drill-${String(procedure).padStart(2, '0')}`;
}

function span(recipe: SpanRecipe): string {
  const duration = pick(DURATIONS, recipe.time);
  if (recipe.form === 'range') return `${duration} to 2 min`;
  return recipe.form === 'exact' ? duration : `at least ${duration}`;
}

function block(head: string, body: readonly string[], indent = '  '): readonly string[] {
  return [`${indent}${head} {`, ...body.map((line) => `${indent}  ${line}`), `${indent}}`];
}
