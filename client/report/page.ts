/** The script of a report. */
import { filterRows, makeSortable } from './tables.ts';

const tables = Array.from(document.querySelectorAll('table'));
for (const table of tables) makeSortable(table);
const filter = document.querySelector<HTMLInputElement>('#filter');
filter?.addEventListener('input', () => filterRows(tables, filter.value));
