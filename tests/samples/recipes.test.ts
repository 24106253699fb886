import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { recipesPage } from '../../.ci/recipes.mjs';
import { cardsIn, folder, openSamples, told } from './support.ts';

const files = cardsIn('recipes').map((file) => `${folder}/recipes/${file}`);

test.each(files)('%s is clean and says first what it is for', (file) => {
  expect(told(openSamples().check([file]).findings)).toEqual([]);
  expect(readFileSync(file, 'utf8')).toMatch(/^\/\/ [A-Z].*[.]\n/);
});

test('the page of recipes is made from the cards: run `npm run generate`', () => {
  expect(readFileSync(`${folder}/recipes/README.md`, 'utf8')).toBe(recipesPage(`${folder}/recipes`));
});
