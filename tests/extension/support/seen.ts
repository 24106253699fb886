/** What a picture must show: texts that can be read, none of ours over another, and signs that stand out from their ground. */
import axe from 'axe-core';
import type { Frame, Locator, Page } from 'playwright-core';

/** The texts of a view that nobody can see: not there, hidden, or outside of the window. */
export async function unseen(view: { getByText(text: string): Locator }, page: Page, texts: readonly string[]) {
  const { width, height } = await page.evaluate(() => ({ width: innerWidth, height: innerHeight }));
  const isSeen = async (text: string) => {
    for (const one of await view.getByText(text).filter({ visible: true }).all()) {
      const box = await one.boundingBox();
      if (box && box.x < width && box.y < height && box.x + box.width > 0 && box.y + box.height > 0) return true;
    }
    return false;
  };
  const missing: string[] = [];
  for (const text of texts) if (!(await isSeen(text))) missing.push(text);
  return missing;
}

/** The page of the preview, where there is one. */
export async function ownFrame(page: Page): Promise<Frame | undefined> {
  for (const frame of page.frames()) if ((await frame.locator('body > main.scroller').count()) > 0) return frame;
  return undefined;
}

/** Texts of a page that lie over one another where both can be seen. */
export function overlaps(frame: Frame): Promise<string[]> {
  return frame.evaluate(() => {
    interface Piece {
      readonly text: string;
      readonly left: number;
      readonly right: number;
      readonly top: number;
      readonly bottom: number;
    }
    /** What is left of a box within all that cuts it. */
    const cut = (box: DOMRect, element: Element | null, text: string): Piece => {
      let piece: Piece = { text, left: box.left, right: box.right, top: box.top, bottom: box.bottom };
      for (let around = element; around; around = around.parentElement) {
        if (getComputedStyle(around).overflow === 'visible' && around !== document.documentElement) continue;
        const { left, right, top, bottom } = around.getBoundingClientRect();
        piece = {
          text,
          left: Math.max(piece.left, left),
          right: Math.min(piece.right, right),
          top: Math.max(piece.top, top),
          bottom: Math.min(piece.bottom, bottom),
        };
      }
      return piece;
    };
    const pieces: Piece[] = [];
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = texts.nextNode(); node; node = texts.nextNode()) {
      const parent = node.parentElement;
      if (!node.textContent?.trim() || !parent?.checkVisibility({ visibilityProperty: true })) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects()) pieces.push(cut(box, parent, node.textContent.trim()));
    }
    /** Lines may touch: letters do not fill the height of theirs. */
    const touching = 4;
    const found: string[] = [];
    for (const [index, one] of pieces.entries())
      for (const other of pieces.slice(index + 1)) {
        const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
        const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
        if (across > touching && down > touching) found.push(`“${one.text}” and “${other.text}”`);
      }
    return found;
  });
}

/** Texts of a page that do not stand out enough from their ground. */
export async function tooFaint(frame: Frame): Promise<string[]> {
  await frame.evaluate(axe.source);
  return frame.evaluate(async () => {
    const { axe: inPage } = globalThis as unknown as { axe: typeof axe };
    const { violations } = await inPage.run(document, { runOnly: ['color-contrast'] });
    return violations.flatMap(({ nodes }) => nodes.map(({ html, failureSummary }) => `${html}: ${failureSummary}`));
  });
}
