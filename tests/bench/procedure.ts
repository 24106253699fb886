/** One procedure of any number of steps, in the texts of each server that is measured: what each would be given by somebody who writes it there. */
import { numbers } from '../support/numbers.ts';

interface Limit {
  readonly quantity: string;
  readonly min: number;
  readonly max: number;
  readonly unit: string;
}

interface Branch {
  readonly quantity: string;
  readonly above: boolean;
  readonly value: number;
  readonly goto: string;
}

interface StepOf {
  readonly id: string;
  readonly text: string;
  readonly limit?: Limit;
  readonly branch?: Branch;
}

const unitOf = { pressure: 'kPa', voltage: 'V', current: 'A', temperature: 'degC', torque: 'Nm' } as const;
const quantities = Object.keys(unitOf) as (keyof typeof unitOf)[];
const valves = 40;

/** Readings at every other step, branches forward and back at every fifth, and every hundredth limit upside down. */
function procedure(count: number): StepOf[] {
  return numbers(count).map((n): StepOf => {
    const quantity = quantities[n % quantities.length] ?? 'pressure';
    const [low, high] = [10 + (n % 40), 15.5 + (n % 40)];
    const isWrong = n % 100 === 50;
    const [min, max] = isWrong ? [high, low] : [low, high];
    return {
      id: `s${n}`,
      text: `Turn selector ${n % 7} to position ${n % 5} and wait until reading ${n} settles`,
      ...((n % 2 === 0 || isWrong) && { limit: { quantity, min, max, unit: unitOf[quantity] } }),
      ...(n % 5 === 4 && {
        branch: { quantity, above: n % 2 === 0, value: low, goto: `s${n % 10 === 9 ? Math.min(n + 4, count) : n - 3}` },
      }),
    };
  });
}

/** What a schema can say of it; where a limit is upside down it cannot, so that such a limit has a unit that is not one. */
export const schema = {
  type: 'object',
  required: ['title', 'steps'],
  additionalProperties: false,
  properties: {
    $schema: { type: 'string' },
    title: { type: 'string' },
    steps: {
      type: 'array',
      minItems: 1,
      items: {
        type: 'object',
        required: ['id', 'text'],
        additionalProperties: false,
        properties: {
          id: { type: 'string', pattern: '^s[0-9]+$' },
          text: { type: 'string', minLength: 3 },
          limit: {
            type: 'object',
            required: ['quantity', 'min', 'max', 'unit'],
            additionalProperties: false,
            properties: {
              quantity: { enum: quantities },
              min: { type: 'number' },
              max: { type: 'number' },
              unit: { enum: Object.values(unitOf) },
            },
          },
          branch: {
            type: 'object',
            required: ['quantity', 'above', 'value', 'goto'],
            additionalProperties: false,
            properties: {
              quantity: { enum: quantities },
              above: { type: 'boolean' },
              value: { type: 'number' },
              goto: { type: 'string', pattern: '^s[0-9]+$' },
            },
          },
        },
      },
    },
  },
};

function forSchema(count: number): StepOf[] {
  return procedure(count).map(({ limit, ...step }) => ({
    ...step,
    ...(limit && { limit: limit.min > limit.max ? { ...limit, unit: 'furlong' } : limit }),
  }));
}

export function asJson(count: number): string {
  const document = { $schema: './schema.json', title: 'A procedure', steps: forSchema(count) };
  return `${JSON.stringify(document, null, 2)}\n`;
}

export function asYaml(count: number): string {
  const fields = (of: object, indent: string): string =>
    Object.entries(of)
      .map(([key, value]) =>
        typeof value === 'object'
          ? `${indent}${key}:\n${fields(value, `${indent}  `)}`
          : `${indent}${key}: ${String(value)}\n`,
      )
      .join('');
  const steps = forSchema(count).map((step) => fields(step, '    ').replace('   ', '  -'));
  return `# yaml-language-server: $schema=./schema.json\ntitle: A procedure\nsteps:\n${steps.join('')}`;
}

export const shapes = ['plain', 'deep'] as const;

/** `plain` says no more than the others do; `deep` turns valves, and has a starter with a duty, rules and a hazard. */
export function asCard(count: number, shape: (typeof shapes)[number]): string {
  const isDeep = shape === 'deep';
  const steps = procedure(count);
  const targets = new Set(steps.flatMap(({ branch }) => branch?.goto ?? []));
  const gauges = quantities.map((quantity) => `gauge ${quantity} in ${unitOf[quantity]} { reads 0 to 100 by 0.5 }`);
  const body = steps.map(({ id, text, limit, branch }, at) => {
    const { quantity, min, max, unit } = limit ?? {};
    const lines = [
      `  step ${targets.has(id) ? `${id}: ` : ''}takes 10 s "${text}" {`,
      ...(isDeep ? [turning(at)] : []),
      ...(limit ? [`    read ${quantity} ${min} ${unit} to ${max} ${unit}`] : []),
      '    record "Done"',
      '  }',
    ];
    if (branch) {
      const bound = `${branch.above ? 'above' : 'below'} ${branch.value} ${unitOf[branch.quantity as keyof typeof unitOf]}`;
      lines.push(`  if ${branch.quantity} ${bound} { go to ${branch.goto} }`);
    }
    return lines.join('\n');
  });
  return `${[
    ...(isDeep ? [equipment] : []),
    ...gauges,
    'card generated "A procedure" {\n  number "G-1" revision "A" crew one "One"',
    ...(isDeep ? ['  warning turning\n  step set ignition closed'] : []),
    ...body,
    ...(isDeep ? numbers(valves).map((n) => `  step takes 1 s set valve-${n} closed`) : []),
    ...(isDeep ? ['  step set ignition open'] : []),
  ].join('\n')}\n}\n`;
}

function turning(at: number): string {
  const turned = `    set valve-${1 + ((at * 7) % valves)} ${at % 3 === 0 ? 'closed' : 'open'}`;
  return at % 40 === 20 ? `${turned}\n    set valve-1 closed run starter-1 cranking for 20 s wait 60 s` : turned;
}

const equipment = `kind valve { closed "Close {}", open "Open {}" }
kind starter { off "Release {}", cranking "Hold {}" }
${numbers(valves)
  .map((n) => `item valve-${n} : valve "valve ${n}" normally closed`)
  .join('\n')}
item ignition : valve "the ignition cock" normally open
item starter-1 : starter "the starter" normally off { duty cranking at most 30 s, then rest 60 s }
hazard turning "turning parts" while starter-1 cranking { warning "Turning parts can hurt. Keep away." }
rule no-spark "No ignition while it turns" { while starter-1 cranking require ignition closed }
rule drained "Drain shut before it turns" { before starter-1 cranking require valve-1 closed }`;
