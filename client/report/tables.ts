/** Sorting and filtering of the tables of a report, in a bare browser. */

/** Each head becomes a button that sorts the rows by its column, up and then down. */
export function makeSortable(table: HTMLTableElement): void {
  for (const head of table.querySelectorAll<HTMLTableCellElement>('thead th')) {
    const button = document.createElement('button');
    button.type = 'button';
    button.append(...head.childNodes);
    head.append(button);
    button.addEventListener('click', () => sortBy(table, head));
  }
}

const collator = new Intl.Collator(undefined, { numeric: true });

function sortBy(table: HTMLTableElement, head: HTMLTableCellElement): void {
  const direction = head.getAttribute('aria-sort') === 'ascending' ? 'descending' : 'ascending';
  for (const other of table.querySelectorAll('thead th')) other.removeAttribute('aria-sort');
  head.setAttribute('aria-sort', direction);
  const body = table.tBodies[0];
  const rows = Array.from(body?.rows ?? []);
  const textIn = (row: HTMLTableRowElement) => row.cells[head.cellIndex]?.textContent ?? '';
  const sign = direction === 'ascending' ? 1 : -1;
  rows.sort((a, b) => sign * collator.compare(textIn(a), textIn(b)));
  body?.append(...rows);
}

/** Shows the rows that have each of the words, in any table. */
export function filterRows(tables: readonly HTMLTableElement[], text: string): void {
  const words = text.toLocaleLowerCase().split(/\s+/).filter(Boolean);
  for (const row of tables.flatMap((table) => Array.from(table.tBodies[0]?.rows ?? []))) {
    const content = (row.textContent ?? '').toLocaleLowerCase();
    row.hidden = !words.every((word) => content.includes(word));
  }
}
