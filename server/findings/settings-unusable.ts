import type { FindingSort } from './finding.ts';

export const settingsUnusable: FindingSort = {
  code: 'settings.unusable',
  level: 'error',
  title: 'A settings file that cannot be used',
  help: {
    what: 'A `cardwright.json` is no JSON, or has a setting that is none or has another value than it may have.',
    why: 'The default is used instead, so the cards are not checked as the writer of the settings meant.',
    whatToDo: 'Correct the file. The editor proposes the settings and their values while you type.',
  },
  sources: [],
  examples: [],
};
