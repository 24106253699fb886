/** Findings for a person: each with the lines it is about, the path that shows it, and what would mend it. */
import { coverageWords } from '../../server/api.ts';
import type { Finding, Fix, Level } from '../../shared/finding.ts';
import { hiddenShown } from '../../shared/hidden.ts';
import type { CardCoverage, Region, Report, Summary } from './report.ts';
import type { Surroundings } from './surroundings.ts';

/** The most lines of a card that are shown for one finding. */
const mostLines = 3;
/** The most of a line that is shown; a longer one is cut round its mark. */
const mostColumns = 160;

const colours: Readonly<Record<Level, string>> = {
  error: '\u001B[1;31m',
  warning: '\u001B[1;33m',
  hint: '\u001B[1;36m',
};
const plain = '\u001B[0m';

/** @param listed with the steps that the proof does not follow. */
export function textReport(report: Report, surroundings: Surroundings, listed = false): string {
  const findings = report.findings.map((finding) => `${inFull(finding, report, surroundings)}\n`);
  const steps = listed ? report.summary.coverage.flatMap(({ notFollowed }) => notFollowed.map(notFollowedLine)) : [];
  return `${[...findings, ...steps].join('')}${summaryLine(report.summary)}\n`;
}

function notFollowedLine({ file, line, column, number, words, why }: CardCoverage['notFollowed'][number]): string {
  return `${hiddenShown(file)}:${line}:${column}: not followed: step ${number}, “${hiddenShown(words)}”: ${hiddenShown(why)}.\n`;
}

function inFull(finding: Finding, report: Report, surroundings: Surroundings): string {
  const region = report.regionOf(finding.place);
  return [
    headline(finding, region, surroundings),
    ...frame(region, report),
    ...pathLines(finding, report),
    ...notes(finding, report),
    '',
  ].join('\n');
}

/** `file:line:column: level code: message`, on one line, so that editors can read it. */
function headline(
  { level, code, message }: Finding,
  { file, line, column }: Region,
  surroundings: Surroundings,
): string {
  const shown = surroundings.colours ? `${colours[level]}${level}${plain}` : level;
  return `${hiddenShown(file)}:${line}:${column}: ${shown} ${code}: ${message}`;
}

/** The lines of the finding with a mark under its place. */
function frame(region: Region, { linesOf }: Report): string[] {
  const table = linesOf(region.file);
  const last = Math.min(region.endLine, region.line + mostLines - 1);
  const width = String(last).length;
  const lines: string[] = [];
  for (let line = region.line; line <= last; line++) {
    const whole = table.lineText(line - 1);
    const start = line === region.line ? region.column - 1 : whole.search(/\S|$/);
    const end = line === region.endLine ? region.endColumn - 1 : whole.trimEnd().length;
    const { text, from, to } = cutRound(whole, start, end);
    const [before, marked, after] = [text.slice(0, from), text.slice(from, to), text.slice(to)].map(hiddenShown) as [
      string,
      string,
      string,
    ];
    lines.push(`  ${String(line).padStart(width)} | ${before}${marked}${after}`);
    lines.push(`  ${' '.repeat(width)} | ${blank(before)}${'^'.repeat(Math.max(1, marked.length))}`);
  }
  return lines;
}

/** What is shown of a line that has a mark from one column to another, and where the mark is then. */
function cutRound(line: string, from: number, to: number) {
  if (line.length <= mostColumns) return { text: line, from, to };
  const first = Math.max(0, from - mostColumns / 4);
  const last = Math.min(line.length, first + mostColumns);
  const [before, after] = [first > 0 ? '…' : '', last < line.length ? '…' : ''];
  const moved = before.length - first;
  return { text: before + line.slice(first, last) + after, from: from + moved, to: Math.min(to, last) + moved };
}

/** As much room as the text takes: tabs stay tabs. */
function blank(text: string): string {
  return text.replace(/[^\t]/g, ' ');
}

function pathLines({ path }: Finding, { regionOf }: Report): string[] {
  if (path.length === 0) return [];
  const steps = path.map(({ place, text }, index) => {
    const { file, line, column } = regionOf(place);
    return `    ${index + 1}. ${hiddenShown(file)}:${line}:${column} ${text}`;
  });
  return ['  path:', ...steps];
}

function notes({ source, fixes, place }: Finding, report: Report): string[] {
  return [
    ...(source ? [`  source: ${hiddenShown(source)}`] : []),
    ...fixes.map((fix) => `  fix${whereMended(fix, report.regionOf(place), report)}: ${fix.title}`),
  ];
}

/** Which lines it changes, where they are others than that of the finding. */
function whereMended({ edits }: Fix, found: Region, { regionOf }: Report): string {
  const regions = edits.map(({ place }) => regionOf(place));
  const isHere = ({ file }: Region) => file === found.file;
  if (regions.every((region) => isHere(region) && region.line === found.line)) return '';
  if (!regions.every(isHere)) return ` (${distinct(regions.map(({ file, line }) => `${hiddenShown(file)}:${line}`))})`;
  const lines = new Set(regions.map(({ line }) => line));
  return ` (${lines.size === 1 ? 'line' : 'lines'} ${distinct([...lines])})`;
}

function distinct(places: readonly (string | number)[]): string {
  return [...new Set(places)].join(', ');
}

function summaryLine({ files, cards, errors, warnings, hints, coverage }: Summary): string {
  const found = [counted(errors, 'error'), counted(warnings, 'warning'), counted(hints, 'hint')].join(', ');
  const covered = cards > 0 ? `; ${coverageWords(coverage)}` : '';
  return `${found} in ${counted(files, 'file')} with ${counted(cards, 'card')}${covered}.`;
}

function counted(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`;
}
