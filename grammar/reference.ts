/** The tables of the language reference that are made from the code. */
import { type Unit, units } from '../shared/units.ts';
import {
  actingWords,
  contextualActingWords,
  declaringWords,
  fieldWords,
  joiningWords,
  partWords,
  quantifyingWords,
  statingWords,
} from './words.ts';

const tables: Readonly<Record<string, () => string>> = { units: unitTable, words: wordTable };

/** The reference with its made tables brought up to date. */
export function withTables(reference: string): string {
  return Object.entries(tables).reduce((text, [name, table]) => {
    const place = new RegExp(`(<!-- made from [^>]*: ${name} -->\n)[\\s\\S]*?(<!-- end of ${name} -->)`);
    return text.replace(place, (_, begin: string, end: string) => `${begin}\n${table()}\n${end}`);
  }, reference);
}

function unitTable(): string {
  const byDimension = new Map<string, Unit[]>();
  for (const unit of units) byDimension.set(unit.dimension, [...(byDimension.get(unit.dimension) ?? []), unit]);
  const rows = [...byDimension].map(([dimension, of]) => `| ${dimension} | ${of.map(spelling).join(', ')} |\n`);
  return `| measure | units, with the other spellings that are read |\n|---|---|\n${rows.join('')}`;
}

function spelling({ symbol, spellings }: Unit): string {
  const others = spellings.length === 0 ? '' : ` (${spellings.map((other) => `\`${other}\``).join(' ')})`;
  return `\`${symbol}\`${others}`;
}

function wordTable(): string {
  const rows: [string, readonly string[]][] = [
    ['join others: no names, no states', joiningWords],
    ['begin a declaration: no names', declaringWords],
    ['begin a statement: no names', statingWords],
    ['begin an action: no names', actingWords],
    ['begin an action', contextualActingWords],
    ['ask about a kind: no names', quantifyingWords],
    ['begin a field', fieldWords],
    ['have a meaning in their place', partWords],
  ];
  const lines = rows.map(([what, words]) => `| ${what} | ${words.map((word) => `\`${word}\``).join(' ')} |\n`);
  return `| they | words |\n|---|---|\n${lines.join('')}`;
}
