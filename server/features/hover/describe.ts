/** What a thing is, in Markdown: what a writer looks up in the equipment file. */
import type { Bound, Condition, Duty, Gauge, Hazard, Item, Kind, Limit, Rule, Supply } from '../../../shared/card.ts';
import { boundWords, durationWords, secondBoundWords, senseOf } from '../../../shared/quantity.ts';
import type { Settings } from '../../../shared/settings.ts';
import { spoken } from '../../render/sentences/labels.ts';
import { bold, list, paragraphs, plain } from '../markdown.ts';
import type { Thing } from '../things.ts';
import { scaleMarkdown } from './scale.ts';

export function describe(thing: Thing, settings: Settings): string {
  switch (thing.sort) {
    case 'item':
      return describeItem(thing.item);
    case 'kind':
      return describeKind(thing.kind);
    case 'state':
      return describeState(thing.kind, thing.state);
    case 'gauge':
      return describeGauge(thing.gauge, settings);
    case 'limit':
      return describeLimit(thing.limit, settings);
    case 'supply':
      return describeSupply(thing.supply);
    case 'hazard':
      return describeHazard(thing.hazard);
    case 'rule':
      return describeRule(thing.rule);
    case 'variant':
      return paragraphs(`${bold(thing.variant.name)} tells machines apart`, plain(thing.variant.values.join(', ')));
    case 'role':
      return paragraphs(bold(thing.role.label), thing.role.qualified && `Qualified: ${plain(thing.role.qualified)}`);
    case 'card':
      return paragraphs(
        bold(thing.card.title),
        thing.card.number && `Number ${plain(thing.card.number.text)}`,
        thing.card.purpose && plain(thing.card.purpose),
      );
  }
}

function describeItem(item: Item): string {
  const normal = item.normally === undefined ? undefined : item.kind.states[item.normally]?.name;
  const facts = [
    `${plain(item.kind.name)}${item.kind.seen ? ', only seen' : ''}: ${item.kind.states.map(({ name }) => plain(name)).join(', ')}`,
    normal && `normally ${plain(normal)}${item.verify ? ', to be looked at first' : ''}`,
    ...item.may.map(({ state }) => `may go to ${plain(item.kind.states[state]?.name ?? '')} by itself`),
    ...item.needs.map(
      ({ supply, state }) => `needs ${plain(supply.label)} while ${plain(item.kind.states[state]?.name ?? '')}`,
    ),
    item.reduces && `reduces noise by ${item.reduces.toString()} dB`,
    ...item.duties.map((duty) => dutyWords(duty, item.kind)),
  ];
  return paragraphs(
    bold(item.label),
    item.at && plain(item.at),
    list(facts.filter((fact) => typeof fact === 'string')),
  );
}

function dutyWords(duty: Duty, kind: Kind): string {
  const state = plain(kind.states[duty.state]?.name ?? '');
  switch (duty.type) {
    case 'longest':
      return `${state} at most ${durationWords(duty.limit)}${duty.rest ? `, then rest ${durationWords(duty.rest)}` : ''}`;
    case 'times-then-rest':
      return `${state} at most ${duty.times} times, then rest ${durationWords(duty.rest)}`;
    case 'times-in-window':
      return `${state} at most ${duty.times} times in ${durationWords(duty.window)}`;
  }
}

function describeKind(kind: Kind): string {
  const states = kind.states.map(
    ({ name, wording }) => `\`${name}\`${wording ? `: ${plain(wording.replace('{}', '…'))}` : ''}`,
  );
  return paragraphs(`${bold(kind.name)}${kind.seen ? ' is only seen, never set' : ''}`, list(states));
}

function describeState(kind: Kind, index: number): string {
  const state = kind.states[index];
  return paragraphs(
    bold(state?.name ?? ''),
    state?.wording ? `Prints as “${plain(state.wording.replace('{}', '…'))}.”` : `a state of ${plain(kind.name)}`,
  );
}

function describeGauge(gauge: Gauge, settings: Settings): string {
  const scale =
    gauge.reads &&
    `reads ${gauge.reads.from.toString()} to ${gauge.reads.to.toString()} ${plain(gauge.unit.printed)}${gauge.reads.by ? ` by ${gauge.reads.by.toString()}` : ''}`;
  const limits = gauge.limits.map((limit) => `\`${limit.name}\`: ${limitWords(limit, settings)}`);
  return paragraphs(bold(gauge.label), gauge.at && plain(gauge.at), scale, list(limits));
}

function describeLimit(limit: Limit, settings: Settings): string {
  const words = `${bold(limit.name)} of ${plain(limit.gauge.label)}`;
  return paragraphs(words, limitWords(limit, settings), scaleMarkdown(limit, settings));
}

function limitWords({ bound, by, gauge }: Limit, settings: Settings): string {
  if (bound) return boundInBothUnits(bound, gauge, settings);
  const rows = by?.rows.map(
    ({ when, bound: row }) => `${plain(boundWords(when))} → ${boundInBothUnits(row, gauge, settings)}`,
  );
  return `by ${plain(by?.gauge.label ?? '')}: ${rows?.join('; ')}`;
}

function boundInBothUnits(bound: Bound, gauge: Gauge, { secondUnits }: Settings): string {
  const second = secondUnits === 'none' ? undefined : secondBoundWords(bound, secondUnits, senseOf(gauge));
  return plain(second ? `${boundWords(bound)} (${second})` : boundWords(bound));
}

function describeSupply(supply: Supply): string {
  const sources = supply.sources.map(({ node }) => plain(nodeLabel(supply, node)));
  const links = supply.links.map(
    ({ from, to, both }) => `${plain(nodeLabel(supply, from))} ${both ? '↔' : '→'} ${plain(nodeLabel(supply, to))}`,
  );
  return paragraphs(bold(supply.label), `from ${sources.join(', ')}`, list(links));
}

function nodeLabel(supply: Supply, node: number): string {
  return supply.nodes[node]?.item?.label ?? spoken(supply.nodes[node]?.name ?? '');
}

function describeHazard(hazard: Hazard): string {
  return paragraphs(
    `${bold(hazard.level.toUpperCase())} ${plain(hazard.text)}`,
    hazard.noise && `${hazard.noise.toString()} dBA`,
    hazard.protect && `protected by: ${plain(conditionWords(hazard.protect))}`,
  );
}

function describeRule(rule: Rule): string {
  return paragraphs(
    bold(rule.title),
    `requires ${plain(conditionWords(rule.require))} ${rule.condition ? `${rule.trigger} ${plain(conditionWords(rule.condition))}` : rule.trigger}`,
    ...rule.because.map(plain),
    ...rule.sources.map((source) => `Source: ${plain(source)}`),
  );
}

/** A condition as it could be read out. */
export function conditionWords(condition: Condition): string {
  switch (condition.type) {
    case 'or':
    case 'and':
      return condition.terms.map(conditionWords).join(` ${condition.type} `);
    case 'not':
      return `not ${conditionWords(condition.term)}`;
    case 'state': {
      const lasting = condition.lasting
        ? ` for ${condition.lasting.form} ${durationWords(condition.lasting.duration)}`
        : '';
      return `${condition.item.label} ${condition.item.kind.states[condition.state]?.name ?? ''}${lasting}`;
    }
    case 'quantified':
      return `${condition.quantifier} ${condition.kind.name} ${condition.kind.states[condition.state]?.name ?? ''}`;
    case 'bound':
      return `${condition.gauge.label} ${boundWords(condition.bound)}`;
    case 'limit':
      return `${condition.gauge.label} in ${condition.limit.name}`;
    case 'reaches':
      return `${condition.supply.label} reaches ${nodeLabel(condition.supply, condition.node)}`;
    case 'open':
      return '…';
  }
}
