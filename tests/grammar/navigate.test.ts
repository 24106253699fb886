import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { all, children, innermost, nodeAt, parents, pathAt, walk } from '../../grammar/navigate.ts';
import { parse } from '../../grammar/parse.ts';
import { readCursor } from '../support/marks.ts';

function pathOf(marked: string): string[] {
  const { text, offset } = readCursor(marked);
  return pathAt(parse(text).file, offset).map(({ type }) => type);
}

test('the path to an offset goes from the file to the innermost node', () => {
  expect(pathOf('card c "C" { step set pu$0mp open }')).toEqual(['file', 'card', 'step', 'set', 'item-state', 'name']);
});

test('an offset between two nodes is in the one that begins there, or else in the one that ends there', () => {
  const { text, offset } = readCursor('gauge g in V { limit a 5 V$0 to 6 V }');
  const node = nodeAt(parse(text).file, offset);
  expect(node.type).toBe('unit');
  expect(pathOf('kind k { a "x"$0, b }').at(-1)).toBe('text');
});

test('an offset outside everything is in the file', () =>
  expect(pathOf('kind k { a }\n\n$0\nkind m { a }')).toEqual(['file']));

test('the innermost node of some sorts', () => {
  const { text, offset } = readCursor('card c "C" { if a b { step set pump op$0en } }');
  const path = pathAt(parse(text).file, offset);
  expect(innermost(path, 'step')?.actions).toHaveLength(1);
  expect(innermost(path, 'if', 'card')?.type).toBe('if');
  expect(innermost(path, 'gauge')).toBeUndefined();
});

test('walking visits the nodes in the order of the text, and leaves out what it is told to', () => {
  const { file } = parse('rule r "R" { before a b require c d because "x" }  card c "C" { step set e f }');
  const names: string[] = [];
  walk(file, (node) => {
    if (node.type === 'name') names.push(node.text);
    return node.type !== 'card';
  });
  expect(names).toEqual(['r', 'a', 'b', 'c', 'd']);
  expect(all(file, 'name').map(({ text }) => text)).toEqual(['r', 'a', 'b', 'c', 'd', 'c', 'e', 'f']);
});

test('nodes lie inside the ones above them and do not overlap', () => {
  const { file } = parse(readFileSync('samples/merganser/merganser.card', 'utf8'));
  const above = parents(file);
  walk(file, (node) => {
    const inside = children(node);
    for (const [index, child] of inside.entries()) {
      expect(above.get(child)).toBe(node);
      expect(node.start <= child.start && child.end <= node.end).toBe(true);
      expect(child.start).toBeGreaterThanOrEqual(inside[index - 1]?.end ?? 0);
    }
  });
});
