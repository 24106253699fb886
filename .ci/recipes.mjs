// The page of recipes, made from the cards beside it: each begins with a comment that says what it is for.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** In the order in which a beginner needs them. */
const order = [
  ...['warning', 'repeat', 'way-round', 'limit-by-reading', 'isolation'],
  ...['rest', 'two-people', 'torque', 'hand-over', 'variant'],
];

export function recipesPage(folder) {
  const names = readdirSync(folder).filter((name) => name.endsWith('.card'));
  const place = (name) => order.indexOf(name.slice(0, -'.card'.length));
  const parts = names
    .sort((a, b) => place(a) - place(b))
    .map((name) => recipe(name, readFileSync(join(folder, name), 'utf8')));
  return `# Recipes

Each is a whole card that checks clean: copy it and put your own machine in. Machines and figures are invented; on a real
machine the approved data come first.

${parts.join('\n')}`;
}

function recipe(name, text) {
  const [comment = '', ...rest] = text.split('\n');
  const [, title, why] = /^\/\/ (?:An? )?([^:,.]+)[:,.]? ?(.*)$/.exec(comment) ?? [];
  const heading = title.charAt(0).toUpperCase() + title.slice(1);
  const reason = why.charAt(0).toUpperCase() + why.slice(1);
  return `## ${heading}\n\n${reason}\n\nThe file: [${name}](${name})\n\n\`\`\`cardwright\n${rest.join('\n').trim()}\n\`\`\`\n`;
}
