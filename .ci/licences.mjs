// The packages in the bundles, with what their licences ask to be passed on.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import satisfies from 'spdx-satisfies';

/** Licences that ask for no more than that their text is passed on. */
const allowed = ['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', 'Apache-2.0', '0BSD', 'BlueOak-1.0.0'];

const packageOf = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//;

/** The folders of the packages of which something is in a bundle, from what esbuild says of each. */
export function foldersIn(metafiles) {
  const files = metafiles.flatMap(({ outputs }) =>
    Object.values(outputs).flatMap(({ inputs }) =>
      Object.entries(inputs).flatMap(([file, { bytesInOutput }]) => (bytesInOutput > 0 ? [file] : [])),
    ),
  );
  return [...new Set(files.flatMap((file) => packageOf.exec(file)?.[1] ?? []))].sort();
}

/** One text with the licence of each package; throws where one may not be passed on so. */
export function noticesOf(folders) {
  const notices = new Set(folders.map(noticeOf));
  return `Cardwright contains these packages.\n\n${[...notices].join('\n')}`;
}

function noticeOf(folder) {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  if (!isAllowed(license))
    throw new Error(`${name} ${version} has the licence ${license ?? 'of nobody knows what'}: it cannot be bundled.`);
  const texts = readdirSync(folder)
    .filter((file) => /^(?:licen[cs]e|copying|notice)(?:[.-]|$)/i.test(file))
    .sort()
    .map((file) => readFileSync(join(folder, file), 'utf8').trim());
  if (texts.length === 0) throw new Error(`${name} ${version} has no text of its licence: it cannot be bundled.`);
  return `${'─'.repeat(80)}\n${name} ${version} (${license})\n\n${texts.join('\n\n')}\n`;
}

function isAllowed(license) {
  try {
    return satisfies(license, allowed);
  } catch {
    return false;
  }
}
