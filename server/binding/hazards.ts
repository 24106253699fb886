/** Hazards and rules: conditions that are watched on every path. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Hazard, Rule } from '../../shared/card.ts';
import { bindCondition } from './conditions.ts';
import type { Found } from './declare.ts';
import { findKind, inWords, type Thing, type Work } from './names.ts';
import { someItem } from './parameters.ts';
import { bindQuantity } from './quantities.ts';
import { filledIn } from './texts.ts';

/** A hazard without a level or text was not understood; its name is then known all the same. */
export function bindHazards(work: Work, found: readonly Found<syntax.Hazard>[]): readonly Hazard[] {
  const hazards: Hazard[] = [];
  for (const each of found) {
    const hazard = bindHazard(each, hazards.length);
    work.names.hazards.set(each.declared.name, { declared: each.declared, hazard });
    if (hazard) hazards.push(hazard);
  }
  return hazards;
}

function bindHazard({ scope, node, declared }: Found<syntax.Hazard>, id: number): Hazard | undefined {
  const { place, name } = declared;
  const condition = bindCondition(scope, node.condition, place);
  const noise = bindQuantity(scope, node.noise, { dimension: 'sound level' })?.value;
  const protect = node.protect && bindCondition(scope, node.protect, place);
  const text = node.text && filledIn(scope, node.text);
  if (node.level === undefined || text === undefined) return undefined;
  const label = node.label ? filledIn(scope, node.label) : inWords(name);
  return {
    id,
    name,
    label,
    condition,
    level: node.level,
    text,
    noise,
    ...(node.harm?.outcome && { harm: { likelihood: node.harm.likelihood, outcome: node.harm.outcome } }),
    protect,
    ...(node.source && { source: node.source.value }),
    place,
  };
}

/** A rule that does not say when it asks was not understood. */
export function bindRules(work: Work, found: readonly Found<syntax.Rule>[]): readonly Rule[] {
  const rules: Rule[] = [];
  for (const each of found) {
    work.names.rules.set(each.declared.name, each.declared);
    for (const round of roundsOf(each)) {
      const rule = bindRule(round, rules.length);
      if (rule && round.isAsked) rules.push(rule);
    }
  }
  return rules;
}

/** A rule `for each` item of a kind is as many rules; where there is no such item, its names are looked up all the same. */
function roundsOf(found: Found<syntax.Rule>): readonly (Found<syntax.Rule> & { readonly isAsked: boolean })[] {
  const { scope, node } = found;
  if (node.each === undefined) return [{ ...found, isAsked: true }];
  const { name, kind: kindName } = node.each;
  const kind = kindName && findKind(scope, kindName)?.kind;
  if (name === undefined || kind === undefined) return [];
  scope.work.takenWhole.add(kind);
  const declared = scope.work.references.declare('parameter', name, scope.file);
  const items = scope.work.names.itemsOf.get(kind) ?? [];
  const roundWith = (thing: Thing) => ({ ...scope, locals: new Map(scope.locals).set(name.text, thing) });
  return items.length === 0
    ? [{ ...found, scope: roundWith({ sort: 'item', declared, item: someItem(declared, kind) }), isAsked: false }]
    : items.map((item) => ({ ...found, scope: roundWith({ sort: 'item', declared, item }), isAsked: true }));
}

function bindRule({ scope, node, declared }: Found<syntax.Rule>, id: number): Rule | undefined {
  const { place, name } = declared;
  const hasCondition = node.trigger === 'before' || node.trigger === 'while';
  const condition = hasCondition ? bindCondition(scope, node.condition, place) : undefined;
  const require = bindCondition(scope, node.require, place);
  const because = node.because.map((text) => filledIn(scope, text));
  const sources = node.sources.map((text) => text.value);
  if (node.trigger === undefined) return undefined;
  const title = node.title ? filledIn(scope, node.title) : inWords(name);
  return { id, name, title, trigger: node.trigger, condition, require, because, sources, place };
}
