/** The clean sample cards, for tests that change them. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from '../../grammar/parse.ts';
import { ask } from './engine.ts';
import { type Judged, judgeMutants, mostWorlds, type Sample } from './judge.ts';
import { seenOnAllMachines } from './machines.ts';

/** Every file of a folder of samples that holds cards, with the files beside it. */
export function samplesIn(folder: string): readonly Sample[] {
  const files = new Map(
    readdirSync(folder)
      .filter((name) => name.endsWith('.card'))
      .map((name) => [name, readFileSync(join(folder, name), 'utf8')]),
  );
  return [...files]
    .filter(([, text]) => parse(text).file.declarations.some(({ type }) => type === 'card'))
    .map(([name, text]) => ({ name, text, others: files }));
}

/** Judges the mutants of all samples in these folders that the oracle can go through. */
export function judgeSamples(
  folders: readonly string[],
  wanted: (name: string) => boolean = () => true,
): { readonly judged: readonly Judged[]; readonly tooBig: readonly string[] } {
  const samples = folders.flatMap(samplesIn).filter(({ name }) => wanted(name));
  const fitting = samples.filter(
    ({ text, others }) => seenOnAllMachines(ask(text, others).card, mostWorlds) !== undefined,
  );
  const tooBig = samples.filter((sample) => !fitting.includes(sample)).map(({ name }) => name);
  return { judged: fitting.flatMap(judgeMutants), tooBig };
}
