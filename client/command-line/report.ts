/** Findings in lines and columns, as every kind of report needs them. */
import type { Checked, CheckedCard } from '../../server/api.ts';
import type { Finding, Level } from '../../shared/finding.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { NotFollowed } from '../../shared/not-followed.ts';
import { LineTable, type Place } from '../../shared/text.ts';

/** Lines and columns from 1, columns in UTF-16 units; the end is the column after the last character. */
export interface Region {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

export interface Summary {
  readonly files: number;
  readonly cards: number;
  readonly errors: number;
  readonly warnings: number;
  readonly hints: number;
  /** What the proof follows of each card, in the order of the cards. */
  readonly coverage: readonly CardCoverage[];
}

export interface CardCoverage extends Omit<CheckedCard, 'name' | 'notFollowed'> {
  readonly card: string;
  readonly notFollowed: readonly (NotFollowed & Region)[];
}

export interface Report {
  readonly findings: readonly Finding[];
  readonly summary: Summary;
  readonly regionOf: (place: Place) => Region;
  readonly linesOf: (file: string) => LineTable;
}

export function reportOf({ findings, files, cards }: Checked, textOf: (file: string) => string): Report {
  const tables = new Map<string, LineTable>();
  const linesOf = (file: string) => getOrInsert(tables, file, () => new LineTable(textOf(file)));
  const count = (level: Level) => findings.filter((finding) => finding.level === level).length;
  return {
    findings,
    summary: {
      files: files.length,
      cards: cards.length,
      errors: count('error'),
      warnings: count('warning'),
      hints: count('hint'),
      coverage: cards.map(({ name, notFollowed, ...coverage }) => ({
        card: name,
        ...coverage,
        notFollowed: notFollowed.map(({ place, ...one }) => ({ ...regionOf(place, linesOf(place.file)), ...one })),
      })),
    },
    regionOf: (place) => regionOf(place, linesOf(place.file)),
    linesOf,
  };
}

function regionOf({ file, start, end }: Place, lines: LineTable): Region {
  const from = lines.positionAt(start);
  const to = lines.positionAt(end);
  return { file, line: from.line + 1, column: from.column + 1, endLine: to.line + 1, endColumn: to.column + 1 };
}
