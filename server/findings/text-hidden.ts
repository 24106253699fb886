import { hiddenIn } from '../../shared/hidden.ts';
import type { FindingSort } from './finding.ts';
import { replace } from './support/edits.ts';

export const textHidden: FindingSort = {
  code: 'text.hidden',
  level: 'error',
  title: 'A character that nobody sees',
  help: {
    what: 'A text, a comment or a name holds a character that is not shown: a control character, one that turns or embeds the direction of writing, or a blank without a width.',
    why: 'What is read is not what is written. It comes with text that was pasted, or was put there to deceive whoever looks the card over.',
    whatToDo:
      'Delete it; the quick fix does. On the card it is left out, and elsewhere its number is shown in its place.',
  },
  sources: [
    { title: 'Unicode Technical Standard 39, Unicode Security Mechanisms', status: 'from memory' },
    { title: 'Unicode Technical Standard 55, Unicode Source Code Handling', status: 'from memory' },
  ],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at the ho\u200Bse."
  //                  ^ text.hidden
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose."
}`,
    },
  ],
  *inFile({ file, parsed }) {
    const signs = parsed.problems.filter(({ code }) => code === 'syntax.character');
    for (const { start, end, codes } of hiddenIn(parsed.text)) {
      const isMark = start === 0 && parsed.text.charCodeAt(0) === byteOrderMark;
      if (isMark || signs.some(({ span }) => span.start < end && start < span.end)) continue;
      const place = { file, start, end };
      const them = codes.includes(' ') ? 'them' : 'it';
      yield {
        place,
        message: `Here stands what nobody sees: ${codes}. Delete ${them}; the card leaves ${them} out.`,
        fixes: [{ title: `Delete ${codes}`, edits: [replace(place, '')] }],
      };
    }
  },
};

const byteOrderMark = 0xfeff;
