/** The same scene worked through by touch and by keyboard: a driver for each, so that no scene is written twice. */
import type { Locator } from 'playwright-core';
import { expect } from 'vitest';

export interface Hands {
  readonly name: string;
  /** Presses a button of a place by its name. */
  press(place: Locator, button: string): Promise<void>;
  /** Writes into a field of a place, found by its label; what stood there goes. */
  write(place: Locator, label: string, text: string): Promise<void>;
  /** Chooses from a list of a place, found by its label, of which the first stands. */
  choose(place: Locator, label: string, option: string): Promise<void>;
}

const buttonOf = (place: Locator, name: string) => place.getByRole('button', { name, exact: true }).first();
const listOf = (place: Locator, label: string) => place.getByRole('combobox', { name: label, exact: true });
const fieldOf = (place: Locator, label: string) => place.getByLabel(label, { exact: true }).first();

const touch: Hands = {
  name: 'touch',
  press: (place, button) => buttonOf(place, button).tap(),
  async write(place, label, text) {
    await fieldOf(place, label).tap();
    await fieldOf(place, label).fill(text);
  },
  // The list itself is the browser's.
  choose: async (place, label, option) => void (await listOf(place, label).selectOption({ label: option })),
};

const keyboard: Hands = {
  name: 'keyboard',
  async press(place, button) {
    const target = buttonOf(place, button);
    await reach(target);
    await target.page().keyboard.press('Enter');
  },
  async write(place, label, text) {
    const target = fieldOf(place, label);
    await reach(target);
    const keys = target.page().keyboard;
    await keys.press('ControlOrMeta+a');
    await keys.press('Delete');
    if (text !== '') await keys.type(text);
  },
  async choose(place, label, option) {
    const target = listOf(place, label);
    await reach(target);
    const options = await target.locator('option').allInnerTexts();
    for (let down = options.indexOf(option); down > 0; down--) await target.page().keyboard.press('ArrowDown');
    expect(await target.locator('option:checked').innerText()).toBe(option);
  },
};

export const bothHands: readonly Hands[] = [touch, keyboard];

/** More stops than any page of a test has. */
const mostStops = 400;

/** Goes there with Tab alone, as somebody without a mouse does; what cannot be reached so is a fault of the page. */
async function reach(target: Locator): Promise<void> {
  await target.waitFor();
  for (let stops = 0; stops < mostStops; stops++) {
    if (await target.evaluate((one) => one === document.activeElement)) return;
    await target.page().keyboard.press('Tab');
  }
  throw new Error(`Tab does not come to ${target}.`);
}
