/** Findings as SARIF 2.1.0, the format in which code hosts and editors take the results of static analysis. */
import { isAbsolute } from 'node:path';
import { pathToFileURL } from 'node:url';
import manifest from '../../package.json' with { type: 'json' };
import { type FindingSort, findingSorts } from '../../server/api.ts';
import type { Finding, Fix, Level, PathPlace } from '../../shared/finding.ts';
import { hiddenEscaped } from '../../shared/hidden.ts';
import type { Place } from '../../shared/text.ts';
import type { Report } from './report.ts';
import type { Surroundings } from './surroundings.ts';

const schema = 'https://json.schemastore.org/sarif-2.1.0.json';
/** All files are named from the folder that the command ran in. */
const root = 'FOLDER';

const levels: Readonly<Record<Level, string>> = { error: 'error', warning: 'warning', hint: 'note' };

export function sarifReport(report: Report, { folder }: Surroundings): string {
  const run = {
    tool: {
      driver: { name: 'Cardwright', version: manifest.version, rules: findingSorts.map(ruleOf) },
    },
    columnKind: 'utf16CodeUnits',
    originalUriBaseIds: { [root]: { uri: `${pathToFileURL(folder)}/` } },
    results: report.findings.map((finding) => resultOf(finding, report)),
  };
  return `${hiddenEscaped(JSON.stringify({ $schema: schema, version: '2.1.0', runs: [run] }, null, 2))}\n`;
}

function ruleOf({ code, level, title, help }: FindingSort) {
  return {
    id: code,
    shortDescription: { text: title },
    fullDescription: { text: `${help.what} ${help.why}` },
    help: { text: help.whatToDo },
    defaultConfiguration: { level: levels[level] },
  };
}

function resultOf({ code, level, message, place, path, fixes, rule, source }: Finding, report: Report) {
  return {
    ruleId: code,
    ruleIndex: findingSorts.findIndex((sort) => sort.code === code),
    level: levels[level],
    message: { text: message },
    locations: [locationOf(place, report)],
    ...(path.length > 0 && { codeFlows: [codeFlow(path, report)] }),
    ...(fixes.length > 0 && { fixes: fixes.map((fix) => fixOf(fix, report)) }),
    ...((rule !== undefined || source !== undefined) && { properties: { rule, source } }),
  };
}

function codeFlow(path: readonly PathPlace[], report: Report) {
  const locations = path.map(({ place, text }) => ({ location: { ...locationOf(place, report), message: { text } } }));
  return { threadFlows: [{ locations }] };
}

function locationOf(place: Place, report: Report) {
  return { physicalLocation: { artifactLocation: artifactOf(place.file), region: regionIn(place, report) } };
}

/** Each part of a path is escaped by itself: what stands in a name is no query, no fragment and no scheme. */
function artifactOf(file: string) {
  if (file.startsWith('std:')) return { uri: `std:${encodeURIComponent(file.slice('std:'.length))}` };
  if (isAbsolute(file)) return { uri: pathToFileURL(file).href };
  return { uri: file.split('/').map(encodeURIComponent).join('/'), uriBaseId: root };
}

function regionIn(place: Place, { regionOf }: Report) {
  const { line, column, endLine, endColumn } = regionOf(place);
  return { startLine: line, startColumn: column, endLine, endColumn };
}

function fixOf({ title, edits }: Fix, report: Report) {
  const files = [...new Set(edits.map(({ place }) => place.file))];
  return {
    description: { text: title },
    artifactChanges: files.map((file) => ({
      artifactLocation: artifactOf(file),
      replacements: edits
        .filter(({ place }) => place.file === file)
        .map(({ place, newText }) => ({ deletedRegion: regionIn(place, report), insertedContent: { text: newText } })),
    })),
  };
}
