/** Writes the cards of many files, or says of each why not. */
import { resolve } from 'node:path';
import type { Api } from '../../server/api.ts';
import { hiddenShown } from '../../shared/hidden.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { fileName, type findCards } from './files.ts';
import type { Surroundings } from './surroundings.ts';
import { fileNames, writeCard } from './write-card.ts';

interface Writing<Card> {
  readonly api: Api;
  readonly cardsOf: (file: string) => readonly Card[];
  /** Undefined where it is to be written. */
  readonly refusalOf: (card: Card) => string | undefined;
  readonly stemOf: (card: Card) => string;
  readonly contentOf: (card: Card) => string | Uint8Array;
  readonly to: string;
}

/** Each file is done with before the next: a folder of any size takes little more memory than one file. */
export function writeCards<Card>(
  { files, problems }: ReturnType<typeof findCards>,
  { api, cardsOf, refusalOf, stemOf, contentOf, to }: Writing<Card>,
  { folder, complain, write, tell }: Surroundings,
): ExitCode {
  for (const problem of problems) complain(`${problem}\n`);
  const nameFor = fileNames();
  let [count, refused] = [0, 0];
  for (const [index, { name }] of files.entries()) {
    tell('Proving and rendering file', index + 1, files.length);
    for (const card of cardsOf(name)) {
      count++;
      const refusal = refusalOf(card);
      if (refusal === undefined) {
        const path = writeCard(resolve(folder, to, nameFor(stemOf(card))), contentOf(card));
        write(`${hiddenShown(fileName(path, folder))}\n`);
      } else {
        refused++;
        complain(refusal);
      }
    }
    api.workspace.letGo(name);
  }
  if (count === 0 && files.length > 0) complain(`There is no card in ${files.map(({ name }) => name).join(', ')}.\n`);
  if (count === 0 || problems.length > 0) return exitCodes.couldNotRun;
  return refused > 0 ? exitCodes.findings : exitCodes.clean;
}
