/**
 * What a writer waits for, beside two servers that hold the same procedure against a schema: `npm run bench` prints the tables. In one run and one
 * after the other, so that the ratios mean something on any machine. The waits that the others have built in are taken out.
 *
 * `BENCH_SIZES=50,500` measures less.
 */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { arch, cpus, tmpdir, totalmem } from 'node:os';
import { join, resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { Ajv } from 'ajv';
import { bench, describe } from 'vitest';
import { parse } from '../../grammar/parse.ts';
import { lex } from '../../grammar/tokens.ts';
import { openWorkspace } from '../../server/api.ts';
import { bind } from '../../server/binding/bind.ts';
import { prove } from '../../server/proof/prove.ts';
import { keptHeap } from '../../shared/kept.ts';
import { methods } from '../../shared/protocol.ts';
import { defaultSettings } from '../../shared/settings.ts';
import { Client, type Peer, rangeOf } from '../server/lsp/support/client.ts';
import { type Shipped, shippedServer, startsWith } from '../server/lsp/support/shipped.ts';
import { median } from '../server/lsp/support/waits.ts';
import { numbers } from '../support/numbers.ts';
import { asCard, asJson, asYaml, schema, shapes } from './procedure.ts';

const sizes = (process.env.BENCH_SIZES ?? '50,500,5000').split(',').map(Number);
const starts = 3;
const warmUp = 4;
const edits = 40;
/** Milliseconds after which no more changes of a sort are made. */
const longest = 10_000;
const cardsInFolder = 1_000;

const modules = resolve(import.meta.dirname, '../../node_modules');
const bins = {
  json: join(modules, 'vscode-langservers-extracted/bin/vscode-json-language-server'),
  yaml: join(modules, 'yaml-language-server/bin/yaml-language-server'),
};

/** Turns the one timer of that many milliseconds, for which a server waits after each change, into none. */
function withoutWait(ms: number): string[] {
  const script = `const plain = setTimeout; globalThis.setTimeout = Object.assign((f, ms, ...a) => plain(f, ms === ${ms} ? 0 : ms, ...a), plain);`;
  return ['--import', `data:text/javascript,${encodeURIComponent(script)}`];
}

const json: Peer = {
  args: [...withoutWait(500), bins.json],
  options: { handledSchemaProtocols: ['file'] },
  settings: {},
};
const yaml: Peer = {
  args: [...withoutWait(200), bins.yaml],
  options: {},
  settings: { yaml: { validate: true, schemaStore: { enable: false }, kubernetesCRDStore: { enable: false } } },
};

interface Edit {
  readonly at: number;
  readonly typed: string;
}

interface Measured {
  readonly name: string;
  readonly language: string;
  readonly file: string;
  readonly peer?: Peer;
  readonly text: (steps: number) => string;
  /** The line of a step in its own words, before which another may be written. */
  readonly step: string;
  readonly beginning: RegExp;
  /** A limit up to its last digit. */
  readonly limit: RegExp;
}

const measured: readonly Measured[] = [
  {
    name: 'JSON server',
    language: 'json',
    file: 'a.json',
    peer: json,
    text: asJson,
    step: '    {\n      "id": "s0",\n      "text": "Look."\n    },\n',
    beginning: /^ {4}\{/gm,
    limit: /"max": [\d.]+/g,
  },
  {
    name: 'YAML server',
    language: 'yaml',
    file: 'a.yaml',
    peer: yaml,
    text: asYaml,
    step: '  - id: s0\n    text: Look\n',
    beginning: /^ {2}- /gm,
    limit: /max: [\d.]+/g,
  },
  ...shapes.map((shape) => ({
    name: `ours, ${shape}`,
    language: 'cardwright',
    file: 'a.card',
    text: (steps: number) => asCard(steps, shape),
    step: '  step "Look."\n',
    beginning: /^ {2}step (?:s\d+: )?takes 10 s/gm,
    limit: /read \w+ [\d.]+ \w+ to [\d.]+/g,
  })),
];

const sorts = ['letter in a text', 'digit in a limit', 'step added'] as const;

/** Our server tells what reading a long card shows, in which are the faults that a check against a schema finds, before the rest. */
interface Wait {
  /** Milliseconds until that is told. */
  readonly first: number;
  /** Until all is. */
  readonly all: number;
}

interface Row {
  readonly start: Wait;
  readonly edits: Readonly<Record<(typeof sorts)[number], readonly Wait[]>>;
  readonly memory: number;
}

/** The first places or the ends of what matches, spread over the text. */
function places(text: string, pattern: RegExp, end: 'start' | 'end'): number[] {
  return [...text.matchAll(pattern)].map(({ index, 0: matched }) => index + (end === 'end' ? matched.length : 0));
}

function editsIn(text: string, { beginning, limit, step }: Measured): Record<(typeof sorts)[number], Edit[]> {
  const spread = (all: readonly number[], typed: string) =>
    numbers((warmUp + edits) / 2).map((n) => ({
      at: all[Math.floor(n * 0.618034 * all.length) % all.length] ?? 0,
      typed,
    }));
  return {
    'letter in a text': spread(places(text, /wait until/g, 'start'), 'x'),
    'digit in a limit': spread(places(text, limit, 'end'), '5'),
    'step added': spread(places(text, beginning, 'start'), step),
  };
}

let ours: Shipped | undefined;

/** Our server, which has run before: what it starts from is kept, as it is beside the extension. */
async function ourServer(): Promise<Shipped> {
  if (ours) return ours;
  const folder = mkdtempSync(join(tmpdir(), 'cardwright-bench-'));
  process.once('exit', () => rmSync(folder, { recursive: true }));
  ours = await shippedServer(folder);
  const client = await Client.start({ args: startsWith(ours), options: { findings: 'push' } });
  await client.open('a.card', asCard(50, 'deep'));
  while (!existsSync(keptHeap(ours.name))) await sleep(100);
  await client.stop();
  return ours;
}

async function open(one: Measured, text: string): Promise<Wait & { readonly client: Client }> {
  const how = one.peer
    ? { peer: one.peer }
    : { args: startsWith(await ourServer()), options: { findings: 'push' as const } };
  const began = performance.now();
  const client = await Client.start({
    files: { 'schema.json': JSON.stringify(schema) },
    ...how,
  });
  await client.open(one.file, text, one.language);
  const wanted = text.match(/furlong/g)?.length ?? 0;
  await client.told(() => client.published.some(({ diagnostics }) => diagnostics.length >= wanted) || undefined);
  const first = performance.now() - began;
  await untilAllIsTold(client, one);
  return { client, first, all: performance.now() - began };
}

/** What follows from the findings is asked for: that is answered when they are all known. */
async function untilAllIsTold(client: Client, { file, peer }: Measured): Promise<void> {
  if (!peer) await client.connection.sendRequest(methods.counts, { uri: client.uri(file) });
}

/** Types something and takes it out again. */
async function times(client: Client, one: Measured, text: string, places: readonly Edit[]): Promise<Wait[]> {
  const { file } = one;
  const took: Wait[] = [];
  const end = performance.now() + longest;
  for (const { at, typed } of places) {
    if (performance.now() > end && took.length >= 2 * warmUp) break;
    const without = rangeOf(text, at, at);
    const typedIn = rangeOf(text.slice(0, at) + typed + text.slice(at), at, at + typed.length);
    for (const change of [
      { range: without, text: typed },
      { range: typedIn, text: '' },
    ]) {
      const before = client.published.length;
      const began = performance.now();
      const textDocument = { uri: client.uri(file), version: ++version };
      void client.connection.sendNotification('textDocument/didChange', { textDocument, contentChanges: [change] });
      await client.told(() => client.published.length > before || undefined);
      const first = performance.now() - began;
      await untilAllIsTold(client, one);
      took.push({ first, all: performance.now() - began });
    }
  }
  return took.slice(warmUp);
}

let version = 1;

async function rowOf(one: Measured, steps: number): Promise<Row> {
  const text = one.text(steps);
  const begun: Wait[] = [];
  for (let start = 1; start < starts; start++) {
    const { client, ...wait } = await open(one, text);
    begun.push(wait);
    await client.stop();
  }
  const { client, ...last } = await open(one, text);
  begun.push(last);
  const took: Partial<Record<(typeof sorts)[number], readonly Wait[]>> = {};
  const inText = editsIn(text, one);
  for (const sort of sorts) took[sort] = await times(client, one, text, inText[sort]);
  const { memory } = client;
  await client.stop();
  return { start: medians(begun), edits: took as Row['edits'], memory };
}

const firstOf = (waits: readonly Wait[]) => waits.map(({ first }) => first);

function medians(waits: readonly Wait[]): Wait {
  return { first: median(firstOf(waits)), all: median(waits.map(({ all }) => all)) };
}

const p95 = (values: readonly number[]) => [...values].sort((a, b) => a - b)[Math.ceil(0.95 * values.length) - 1] ?? 0;
const short = (value: number) => value.toFixed(value < 10 ? 1 : 0);

type Figures = Readonly<Record<string, number>>;

function figuresOf({ start, edits: took, memory }: Row): Figures {
  const ofEdits = sorts.flatMap((sort): [string, number][] => {
    const { first, all } = medians(took[sort]);
    return [
      [sort, first],
      [`${sort}, p95`, p95(firstOf(took[sort]))],
      ...(sort === 'step added' ? [[`${sort}, all`, all] as [string, number]] : []),
    ];
  });
  return { 'first findings': start.first, 'all findings': start.all, ...Object.fromEntries(ofEdits), memory };
}

/** Milliseconds (MiB for the memory), and in brackets how often that of the JSON server it is. */
function toldBeside(figures: Figures, base: Figures): Record<string, string> {
  return Object.fromEntries(
    Object.entries(figures).map(([name, value]) => [
      name,
      `${short(value)} (${(value / (base[name] ?? 1)).toFixed(2)})`,
    ]),
  );
}

/** The slope on logarithmic axes between two sizes: 1 is in proportion to the steps. */
function slopes(small: Figures, large: Figures, times: number): Record<string, string> {
  return Object.fromEntries(
    Object.entries(large).map(([name, value]) => [
      name,
      (Math.log(value / (small[name] ?? 1)) / Math.log(times)).toFixed(2),
    ]),
  );
}

const once = { iterations: 1, time: 0, warmupIterations: 0, warmupTime: 0 };

describe('beside a JSON and a YAML server', () => {
  bench(
    'first findings, findings after a change, memory',
    async () => {
      console.log(
        `${cpus()[0]?.model} (${cpus().length}), ${arch()}, ${Math.round(totalmem() / 2 ** 30)} GiB, node ${process.version}`,
      );
      const rows: Record<string, Record<string, string>> = {};
      const bySize = new Map<string, Figures>();
      for (const steps of sizes) {
        for (const one of measured) {
          const figures = figuresOf(await rowOf(one, steps));
          bySize.set(`${steps} ${one.name}`, figures);
          const base = bySize.get(`${steps} ${measured[0]?.name}`) ?? figures;
          const row = toldBeside(figures, base);
          rows[`${steps} steps, ${one.name}`] = row;
          // A run takes long: what is known is told at once.
          console.log(`${steps} steps, ${one.name}`, row);
        }
      }
      console.table(rows);
      const [small, large] = sizes.slice(-2);
      if (small === undefined || large === undefined) return;
      const growth = measured.map(({ name }) => {
        const [few, many] = [bySize.get(`${small} ${name}`), bySize.get(`${large} ${name}`)];
        return [name, few && many ? slopes(few, many, large / small) : {}] as const;
      });
      console.log(`Growth from ${small} to ${large} steps, as the slope on logarithmic axes`);
      console.table(Object.fromEntries(growth));
    },
    once,
  );
});

describe('in one process', () => {
  bench(
    'floors: what is done to a text, one stage after the other',
    () => {
      const validate = new Ajv().compile(schema);
      const rows: Record<string, Record<string, string>> = {};
      for (const steps of sizes) {
        const document = asJson(steps);
        for (const shape of shapes) {
          const text = asCard(steps, shape);
          const parsed = parse(text);
          const card = bind('a.card', (file) => (file === 'a.card' ? parsed : undefined)).cards[0];
          if (!card) throw new Error('The card is not there.');
          rows[`${steps} steps, ${shape}`] = stages({
            'JSON read and held against a schema': () => validate(JSON.parse(document)),
            lexer: () => lex(text),
            'text to tree': () => parse(text),
            names: () => bind('a.card', (file) => (file === 'a.card' ? parsed : undefined)),
            proof: () => prove(card, defaultSettings),
            'the whole check': () =>
              openWorkspace({ readText: (file) => (file === 'a.card' ? text : undefined) }).check(['a.card']),
          });
          (rows[`${steps} steps, ${shape}`] as Record<string, string>).states = String(
            prove(card, defaultSettings).explored,
          );
        }
      }
      console.table(rows);
    },
    once,
  );

  bench(
    `a folder of ${cardsInFolder} cards of 50 steps`,
    () => {
      const texts = new Map(
        numbers(cardsInFolder).map((n) => [`${n}.card`, asCard(50, 'deep').replace('"G-1"', `"G-${n}"`)]),
      );
      const documents = numbers(cardsInFolder).map(() => asJson(50));
      const validate = new Ajv().compile(schema);
      const read = timeOf(() => documents.map((text) => validate(JSON.parse(text))));
      const check = timeOf(() => openWorkspace({ readText: (file) => texts.get(file) }).check([...texts.keys()]));
      console.log(
        `check: ${short(check)} ms, ${(check / cardsInFolder).toFixed(2)} ms a card; JSON read and held against a schema: ${short(read)} ms`,
      );
    },
    once,
  );
});

function timeOf(work: () => unknown): number {
  const began = performance.now();
  work();
  return performance.now() - began;
}

function stages(work: Readonly<Record<string, () => unknown>>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(work).map(([name, run]) => {
      const warm = timeOf(run);
      const rounds = Math.max(3, Math.min(30, Math.floor(1_000 / warm)));
      return [name, short(median(numbers(rounds).map(() => timeOf(run))))];
    }),
  );
}
