import { expect, test } from 'vitest';
import { openWorkspace } from '../../../server/api.ts';

const png = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a]);
const svg = new TextEncoder().encode(
  '<?xml version="1.0"?>\n<!-- drawn by hand --><svg xmlns="http://www.w3.org/2000/svg"/>',
);
const files: Readonly<Record<string, Uint8Array>> = {
  'pictures/area.png': png,
  'pictures/area.svg': svg,
  'area.jpg': png,
  'area.gif': png,
};

function found(path: string, readable = true): string[] {
  const text = `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  figure "${path}" "The marked area"
  step "Look at the hose."
}`;
  const readBytes = (file: string) => files[file];
  const api = openWorkspace({ readText: () => text, ...(readable && { readBytes }) });
  return api.check(['cards/a.card']).findings.map(({ code, message }) => `${code} ${message}`);
}

test.each(['../pictures/area.png', '../pictures/area.svg'])('%s is a picture', (path) => {
  expect(found(path)).toEqual([]);
});

test('a file that is not there is reported at its path', () => {
  expect(found('area.png')).toEqual([
    'figure.unusable There is no file “area.png” here. Write its path from the folder of this file.',
  ]);
});

test.each(['../area.gif', '../area.jpg'])('%s is not what a card can hold, or not what it says', (path) => {
  expect(found(path)).toEqual([
    `figure.unusable “${path}” is no PNG, JPEG or SVG picture. Save the figure as one of these.`,
  ]);
});

test('nothing is said where figures cannot be read', () => {
  expect(found('area.png', false)).toEqual([]);
});
