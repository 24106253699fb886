/** What keeps people from reading or working with a page: none is to be found. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

export async function violations(page: Page): Promise<readonly string[]> {
  // The checks wait for timers of the page.
  await page.clock.resume();
  const { violations: found } = await new AxeBuilder({ page }).withTags(rules).analyze();
  return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`);
}
