import type { FindingSort } from './finding.ts';
import { cardsThatReach, placesAmong, stateKey } from './support/across.ts';
import { lookedAt, pathPlace } from './support/words.ts';

export const stateNotLeft: FindingSort = {
  code: 'state.not-left',
  level: 'hint',
  title: 'A state that a card assumes and no card leaves',
  help: {
    what: 'A card assumes an item to be in another state than its normal one, and no card of the folder says that it leaves it so. Looked for where a whole folder is checked and two of its cards or more know the item. What is only seen or moves by itself is left alone, and so is a card that is done from another: there it is proved.',
    why: 'The card is proved for what it assumes. If the card before it puts the item back after all, the crew begins where nobody has looked.',
    whatToDo:
      'Say with “leaves” in the card before that it stays so, or correct what is assumed. Where somebody else than a card brings it about, accept this and say who.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve" normally closed`,
      bad: `card empty "Empty the tank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain open
  step set drain closed
}
card clean "Clean the tank" {
  number "2" revision "A" crew mechanic "Mechanic"
  assume drain open because "The tank was emptied."
  //     ^^^^^^^^^^ state.not-left
  step "Clean the tank."
  step set drain closed
}`,
      good: `card empty "Empty the tank" {
  number "1" revision "A" crew mechanic "Mechanic"
  leaves drain open because "The tank is cleaned next."
  step set drain open
}
card clean "Clean the tank" {
  number "2" revision "A" crew mechanic "Mechanic"
  assume drain open because "The tank was emptied."
  step "Clean the tank."
  step set drain closed
}`,
    },
  ],
  *inWorkspace({ files, whole }) {
    const assuming = files.flatMap(({ cards }) => cards).filter(({ assumes }) => assumes.length > 0);
    if (assuming.length === 0) return;
    const isDone = placesAmong(files.flatMap((file) => file.named));
    const left = new Set(files.flatMap(({ cards }) => cards.flatMap(({ leaves }) => leaves.map(stateKey))));
    for (const card of assuming) {
      if (isDone(card.place)) continue;
      for (const { place, name, ...assumed } of card.assumes) {
        const { item, state } = assumed;
        if (left.has(stateKey(assumed)) || !whole.has(item.place.file)) continue;
        const looking = cardsThatReach(item.place.file, files);
        if (!looking || looking.length < 2) continue;
        yield {
          place,
          message: `No card leaves ${item.label} ${state}, as is assumed here. ${lookedAt(looking)} Say “leaves ${name} ${state}” in the card that does, or correct this.`,
          path: [pathPlace(item.place, `${item.label} stands here`)],
        };
      }
    }
  },
};
