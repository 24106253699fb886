import { expect, test } from 'vitest';
import { openWorkspace } from '../../../server/api.ts';

const png = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a]);
const svg = new TextEncoder().encode(
  '<?xml version="1.0"?>\n<!-- drawn by hand --><svg xmlns="http://www.w3.org/2000/svg"/>',
);
const drawing = (shapes: string) => new TextEncoder().encode(`<svg viewBox="0 0 9 9">${shapes}</svg>`);
const files: Readonly<Record<string, Uint8Array>> = {
  'large/shapes.svg': drawing('<path d="M0 0"/>'.repeat(1_000_000)),
  'large/deep.svg': drawing('<g>'.repeat(20_000) + '</g>'.repeat(20_000)),
  'large/open.svg': drawing('<g>'.repeat(20_000)),
  'large/marked.svg': drawing('<g id="/>">'.repeat(20_000)),
  'large/words.svg': drawing(`<desc>${'<p><b id="1"></p>'.repeat(10_000)}</desc>`),
  'large/bytes.svg': drawing(' '.repeat(17 * 1024 * 1024)),
  'usual/shapes.svg': drawing('<g><path d="M0 0"/></g>'.repeat(5_000)),
  'usual/deep.svg': drawing('<g a="x>y">'.repeat(90) + '</g>'.repeat(90)),
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
  expect(found('area.png').join()).toMatch(/^figure\.unusable There is no file “area\.png” here/);
});

test.each(['../area.gif', '../area.jpg'])('%s is not what a card can hold, or not what it says', (path) => {
  expect(found(path)).toEqual([
    `figure.unusable “${path}” is no PNG, JPEG or SVG picture. Save the figure as one of these.`,
  ]);
});

test.each(Object.keys(files).filter((file) => file.startsWith('large/')))('%s is too much for a card', (file) => {
  expect(found(`../${file}`)).toEqual([
    `figure.unusable The drawing “../${file}” has too many shapes. Save it as PNG, or make it simpler.`,
  ]);
});

test.each(Object.keys(files).filter((file) => file.startsWith('usual/')))('%s is not', (file) => {
  expect(found(`../${file}`)).toEqual([]);
});

test('nothing is said where figures cannot be read', () => {
  expect(found('area.png', false)).toEqual([]);
});
