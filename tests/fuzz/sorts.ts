/** What is fuzzed: a sort of input, how many of them are tried, and what must hold whatever they are. */
import fc from 'fast-check';
import type { Element, Nodes } from 'hast';
import { fromHtml } from 'hast-util-from-html';
import { format } from '../../grammar/format.ts';
import { parse } from '../../grammar/parse.ts';
import { parser } from '../../grammar/parser.ts';
import { openWorkspace } from '../../server/api.ts';
import { cardInPage } from './page.ts';
import {
  anySigns,
  hostileTexts,
  piece,
  samples,
  slips,
  withHostileTexts,
  withSlips,
  wordsInAnyOrder,
} from './texts.ts';

/** What `npm run fuzz` tries, and what `npm test` does. */
export interface Runs {
  readonly long: number;
  readonly short: number;
}

export interface Sort<Input = never> {
  readonly name: string;
  readonly runs: Runs;
  readonly inputs: fc.Arbitrary<Input>;
  /** Throws where it does not hold. */
  readonly holds: (input: Input) => void | Promise<void>;
}

function must(is: boolean, what: string): void {
  if (!is) throw new Error(what);
}

const parserInputs: Sort<string> = {
  name: 'parser inputs',
  runs: { long: 1_000_000, short: 3000 },
  inputs: fc.oneof(wordsInAnyOrder, piece, anySigns),
  holds(text) {
    const { problems, file } = parse(text);
    must(parser.errors.length === 0, 'The parser gave up.');
    must(
      file.declarations.every(({ start, end }) => 0 <= start && start <= end && end <= text.length),
      'A tree lies outside.',
    );
    for (const { span } of problems)
      must(0 <= span.start && span.start <= span.end && span.end <= text.length, 'A problem lies outside of the text.');
  },
};

interface Mutated {
  readonly sample: number;
  readonly slips: Parameters<typeof withSlips>[1];
}
const mutated: fc.Arbitrary<Mutated> = fc.record({ sample: oneOf(samples), slips });

/** Mostly a recipe, which is proved in a moment; a card of a whole plant, which takes up to a hundred times as long, now and then. */
function oneOf(some: readonly { readonly file: string }[]): fc.Arbitrary<number> {
  const all = some.map((_, index) => index);
  const recipes = all.filter((index) => some[index]?.file.startsWith('samples/recipes/'));
  return fc.oneof(
    { weight: 7, arbitrary: fc.constantFrom(...recipes) },
    { weight: 1, arbitrary: fc.constantFrom(...all) },
  );
}

const files = new Map(samples.map(({ file, text }) => [file, text]));

/** Samples with one of them changed. */
function openChanged(file: string, text: string) {
  return openWorkspace({ readText: (name) => (name === file ? text : files.get(name)) });
}

function changed({ sample, slips: some }: Mutated): { readonly file: string; readonly text: string } {
  const { file, text } = samples[sample] as (typeof samples)[number];
  return { file, text: withSlips(text, some) };
}

const mutatedCards: Sort<Mutated> = {
  name: 'mutated cards',
  runs: { long: 20_000, short: 15 },
  inputs: mutated,
  holds(input) {
    const { file, text } = changed(input);
    const { workspace, check } = openChanged(file, text);
    for (const { code, place, message } of check([file]).findings) {
      must(code !== 'internal', message);
      must(
        place.start <= place.end && place.end <= workspace.textOf(place.file).length,
        `${code} lies outside of the text.`,
      );
    }
    const once = format(text);
    must(format(once) === once, 'What is formatted is not formatted.');
  },
};

const editSequences: Sort<Mutated> = {
  name: 'edit sequences',
  runs: { long: 10_000, short: 15 },
  inputs: mutated,
  holds({ sample, slips: some }) {
    const { file, text } = samples[sample] as (typeof samples)[number];
    const kept = openChanged(file, text);
    kept.check([file]);
    let now = text;
    for (const slip of some) {
      now = withSlips(now, [slip]);
      kept.workspace.setText(file, now);
      // Every other state is looked at, so that something is left over from the one before.
      if (slip.at % 2 === 0) kept.check([file]);
    }
    const told = (api: typeof kept) => JSON.stringify(api.check([file]).findings);
    must(told(kept) === told(openChanged(file, now)), 'After edits other findings stand than in a text opened anew.');
  },
};

interface Hostile {
  readonly sample: number;
  readonly texts: Parameters<typeof withHostileTexts>[1];
}
const cards = samples.filter(({ text }) => /^card /m.test(text));
const hostile: fc.Arbitrary<Hostile> = fc.record({ sample: oneOf(cards), texts: hostileTexts });
const workCopy = 'void "the script of the work copy";';

function rendered({ sample, texts }: Hostile): string[] {
  const { file, text } = cards[sample] as (typeof cards)[number];
  const api = openChanged(file, withHostileTexts(text, texts));
  return api.render(file, { workCopy }).map(({ html }) => html);
}

const renders: Sort<Hostile> = {
  name: 'renders',
  runs: { long: 5000, short: 15 },
  inputs: hostile,
  holds(input) {
    for (const html of rendered(input)) must(harmIn(html) === undefined, `The card holds ${harmIn(html)}.`);
  },
};

const harmless = /^(?:#|data:)/;
const active = ['base', 'embed', 'form', 'frame', 'iframe', 'link', 'object'];

/** What a card never has: elements that load or run something, handlers, and addresses. */
function harmIn(html: string): string | undefined {
  let harm: string | undefined;
  const visit = (node: Nodes): void => {
    if (node.type === 'element') {
      const names = Object.keys(node.properties);
      const addresses = ['src', 'href', 'xLinkHref', 'action'].flatMap((name) => node.properties[name] ?? []);
      if (active.includes(node.tagName)) harm ??= `<${node.tagName}>`;
      if (node.tagName === 'script' && !isOurs(node)) harm ??= 'a script';
      harm ??= names.find((name) => /^on[A-Z]/.test(name)) ?? addresses.map(String).find((one) => !harmless.test(one));
    }
    if ('children' in node) node.children.forEach(visit);
  };
  visit(fromHtml(html));
  return harm;
}

/** The data of the work copy, which are no script, and its script. */
function isOurs({ properties, children }: Element): boolean {
  const text = children.map((child) => (child.type === 'text' ? child.value : '')).join('');
  return properties.type === 'application/json' || text.includes(workCopy);
}

const pages: Sort<Hostile> = {
  name: 'hostile texts in a browser',
  runs: { long: 500, short: 2 },
  inputs: hostile,
  async holds(input) {
    for (const html of rendered(input)) {
      const did = await cardInPage(html);
      must(did.length === 0, `The page ${did.join(', ')}.`);
    }
  },
};

export const sorts = [parserInputs, mutatedCards, editSequences, renders, pages] as readonly Sort<unknown>[];
