import type { FindingSort } from './finding.ts';

export const settingsUnusable: FindingSort = {
  code: 'settings.unusable',
  level: 'error',
  notUnderstood: true,
  title: 'A settings file that cannot be used',
  help: {
    what: 'A `cardwright.json` is no JSON, or has a setting that is none or has another value than it may have; its levels name a finding that there is not; or the word list that it names is not there, or has a line that cannot be used.',
    why: 'The default is used instead, so the cards are not checked as the writer of the settings meant.',
    whatToDo: 'Correct the file. The editor proposes the settings and their values while you type.',
  },
  sources: [],
  examples: [],
};
