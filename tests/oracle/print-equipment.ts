/** Prints what a recipe says of the equipment, and its conditions. */
import type { CardRecipe, ConditionRecipe, DutyRecipe, ItemRecipe, SupplyRecipe } from './recipe.ts';
import { BOUNDS, DURATIONS, hasStarter, type KindName, pick, STATES, type Thing, thingsOf } from './scope.ts';

export function printEquipment(recipe: CardRecipe): readonly string[] {
  const things = thingsOf(recipe);
  return [
    ...Object.entries(STATES).map(
      ([kind, states]) => `kind ${kind} ${kind === 'lamp' ? 'seen ' : ''}{ ${states.join(', ')} }`,
    ),
    'variant unit 1 to 3',
    ...recipe.items.map((item, index) => printItem(recipe, item, things[index] as Thing, index)),
    ...(recipe.starter && hasStarter(recipe)
      ? [
          `item crank : starter "the crank" ${recipe.startsIdle ? ' normally idle' : ''}${printNeed(recipe, recipe.items.length)} {`,
          ...recipe.starter.map(printDuty),
          '}',
        ]
      : []),
    ...(recipe.gauge ? printGauge(recipe, things) : []),
    ...(recipe.supply ? printSupplies(recipe, recipe.supply, things) : []),
    ...(recipe.hazard ? printHazard(recipe, recipe.hazard, things) : []),
    ...recipe.rules.flatMap((rule, index) => [
      `rule rule-${index} "Rule ${index}" {`,
      rule.trigger.startsWith('at')
        ? `  ${rule.trigger}`
        : `  ${rule.trigger} ${printCondition(recipe, rule.condition, things, false)}`,
      `  require ${printCondition(recipe, rule.require, things, true)}`,
      '}',
    ]),
  ];
}

function printItem(recipe: CardRecipe, item: ItemRecipe, thing: Thing, index: number): string {
  const state = pick(STATES[thing.kind], item.state);
  const normally = item.start === 'unknown' ? '' : ` normally ${state}${item.start === 'verify' ? ' verify' : ''}`;
  const may = item.may && !recipe.lasting && thing.kind !== 'lamp' ? printMay(recipe, item.may, thing) : '';
  return `item ${thing.name} : ${thing.kind} "the ${thing.name}"${normally}${may}${printNeed(recipe, index)}`;
}

function printMay(recipe: CardRecipe, may: NonNullable<ItemRecipe['may']>, thing: Thing): string {
  const when = may.when ? ` when ${printCondition(recipe, may.when, thingsOf(recipe), false)}` : '';
  return ` may ${pick(STATES[thing.kind], may.state)}${when}`;
}

function printNeed(recipe: CardRecipe, index: number): string {
  if (!recipe.supply) return '';
  const things = thingsOf(recipe);
  const needy = recipe.supply.needed.item % things.length;
  if (needy !== index) return '';
  return ` needs power while ${pick(STATES[(things[needy] as Thing).kind], recipe.supply.needed.state)}`;
}

function printDuty(duty: DutyRecipe): string {
  switch (duty.type) {
    case 'longest':
      return `  duty cranking at most ${pick(DURATIONS, duty.limit)}${duty.rest === undefined ? '' : `, then rest ${pick(DURATIONS, duty.rest)}`}`;
    case 'times':
      return `  duty cranking at most ${duty.times} times, then rest ${pick(DURATIONS, duty.rest)}`;
    case 'window':
      return `  duty cranking at most ${duty.times} times in ${pick(DURATIONS, duty.window)}`;
  }
}

function printGauge(recipe: CardRecipe, things: readonly Thing[]): readonly string[] {
  const moved = recipe.gauge?.movedBy === undefined ? '' : ` moved by ${pick(things, recipe.gauge.movedBy).name}`;
  return [
    'gauge pressure "pressure" in psi {',
    `  reads 0 to 100 by 1${moved}`,
    '  limit wide 10 psi to 90 psi',
    '  limit middle 20 psi to 60 psi',
    '  limit high at least 60 psi',
    '}',
  ];
}

function printSupplies(recipe: CardRecipe, supply: SupplyRecipe, things: readonly Thing[]): readonly string[] {
  const when = (condition: ConditionRecipe | undefined) =>
    condition ? ` when ${printCondition(recipe, condition, things, false)}` : '';
  const [first, second, third, last] = supply.links;
  const needy = pick(things, supply.needed.item).name;
  return [
    'supply power "power" {',
    `  source feed${when(supply.source)}`,
    ...(supply.backFeed ? [`  source right-bus${when(third)}`] : []),
    `  link feed -> left-bus${when(first)}`,
    `  link left-bus <-> right-bus${when(second)}`,
    ...(supply.loop
      ? [supply.second ? '  link right-bus -> feed when air reaches head' : `  link right-bus -> feed${when(third)}`]
      : []),
    `  link right-bus -> ${needy}${when(last)}`,
    '}',
    ...(supply.second
      ? ['supply air "air" {', `  source tank when power reaches right-bus`, `  link tank -> head${when(third)}`, '}']
      : []),
  ];
}

function printHazard(
  recipe: CardRecipe,
  hazard: NonNullable<CardRecipe['hazard']>,
  things: readonly Thing[],
): readonly string[] {
  return [
    `hazard heat "heat" while ${printCondition(recipe, hazard.condition, things, false)} {`,
    '  warning "Hot parts burn."',
    ...(hazard.protect ? [`  protect ${printCondition(recipe, hazard.protect, things, false)}`] : []),
    '}',
  ];
}

/** `lasting` says whether this condition may ask how long. */
export function printCondition(
  recipe: CardRecipe,
  condition: ConditionRecipe,
  things: readonly Thing[],
  lasting: boolean,
): string {
  const inner = (term: ConditionRecipe) => printCondition(recipe, term, things, lasting);
  switch (condition.type) {
    case 'state':
      return printState(things, condition);
    case 'quantified':
      return printQuantified(recipe, condition);
    case 'bound':
    case 'limit':
      return recipe.gauge
        ? `pressure ${pick(BOUNDS, condition.type === 'bound' ? condition.bound : condition.limit + 6)}`
        : printState(things, { item: 0, state: 0 });
    case 'reaches':
      return recipe.supply
        ? printReaches(recipe.supply, condition)
        : printState(things, { item: condition.supply, state: condition.node });
    case 'lasting':
      return printLasting(recipe, condition, things, lasting);
    case 'not':
      return `not ${inner(condition.term)}`;
    case 'and':
    case 'or':
      return `(${condition.terms.map(inner).join(` ${condition.type} `)})`;
  }
}

function printState(
  things: readonly Thing[],
  { item, state }: { readonly item: number; readonly state: number },
): string {
  const thing = pick(things, item);
  return `${thing.name} ${pick(STATES[thing.kind], state)}`;
}

function printQuantified(recipe: CardRecipe, condition: Extract<ConditionRecipe, { type: 'quantified' }>): string {
  const kinds = [...new Set(thingsOf(recipe).map((thing) => thing.kind))];
  const kind: KindName = pick(kinds, condition.kind);
  return `${condition.every ? 'every' : 'any'} ${kind} ${pick(STATES[kind], condition.state)}`;
}

function printReaches(supply: SupplyRecipe, condition: Extract<ConditionRecipe, { type: 'reaches' }>): string {
  const nodes = ['power reaches left-bus', 'power reaches right-bus', ...(supply.second ? ['air reaches head'] : [])];
  return pick(nodes, condition.supply + condition.node);
}

function printLasting(
  recipe: CardRecipe,
  condition: Extract<ConditionRecipe, { type: 'lasting' }>,
  things: readonly Thing[],
  lasting: boolean,
): string {
  if (!lasting || !recipe.lasting) return printState(things, condition);
  return `${printState(things, condition)} for at ${condition.atLeast ? 'least' : 'most'} ${pick(DURATIONS, condition.time)}`;
}
