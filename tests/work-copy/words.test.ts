/** What the work copy puts together itself is set as the language of the card asks. */
import { expect, test } from 'vitest';
import { recordRows } from '../../client/work-copy/record.ts';
import { speech } from '../../client/work-copy/words.ts';
import { openText } from '../support/check.ts';
import { entriesOf, jobIn } from '../support/job.ts';

function rowsIn(language: string): readonly string[] {
  const text = `card tried "Tried" { number "T-1" revision "A" language "${language}" crew hand "Hand" step "Done." }`;
  const [page] = openText(text).render('main.card', { workCopy: 'void 0;' });
  const job = jobIn(page?.html ?? '');
  const entries = entriesOf({ type: 'stop' }, { type: 'why-stopped', reason: 'x' });
  return recordRows(job, entries, speech(job)).map(({ what }) => what);
}

test.each([
  ['en', ['The work was stopped.', 'Reason: x.']],
  ['de', ['Die Arbeit wurde abgebrochen.', 'Grund: x.']],
  ['fr', ['Les travaux ont été arrêtés.', 'Raison\u202f: x.']],
])('the record of a stop in %s', (language, rows) => {
  expect(rowsIn(language)).toEqual(rows);
});
