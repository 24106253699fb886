import type { FindingSort, WorkspaceFacts } from './finding.ts';
import { type Across, cardsThatReach, placesAmong } from './support/across.ts';
import { lookedAt } from './support/words.ts';

export const nameUnusedItem: FindingSort = {
  code: 'name.unused-item',
  level: 'hint',
  title: 'An item of the equipment that no card uses',
  help: {
    what: 'A file of equipment declares an item. Cards of the same folder use the file, and nothing in them or in the file names the item. Looked for where a whole folder is checked.',
    why: 'It is left over from a machine that has changed, or the card that should work on it is missing.',
    whatToDo: 'Take it out, or use it.',
  },
  sources: [],
  examples: [],
  *inWorkspace({ files, whole }) {
    const equipment = files.filter((one) => isEquipment(one, whole));
    if (equipment.length === 0) return;
    const isNamed = placesAmong(files.flatMap((file) => file.named));
    for (const { file, items } of equipment) {
      const looking = cardsThatReach(file, files);
      if (!looking) continue;
      for (const { label, place } of items) {
        if (isNamed(place)) continue;
        yield {
          place,
          message: `Nothing names ${label}. ${lookedAt(looking)} Take it out, or use it.`,
          unnecessary: true,
        };
      }
    }
  },
};

function isEquipment({ file, cards, incomplete }: Across, whole: WorkspaceFacts['whole']): boolean {
  return cards.length === 0 && !incomplete && whole.has(file);
}
