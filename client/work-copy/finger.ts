/** A hand that presses twice, or a key that is held down, does one thing: what comes next is for somebody who has read it. */

/** In pixels: how far a hand that presses twice strays, how far to go at a time, and how often, up and down in turn. */
const strays = 16;
const pace = 20;
const mostPaces = 16;

export class Finger {
  #x = 0;
  #y = 0;

  constructor() {
    document.addEventListener('pointerdown', ({ clientX, clientY }) => {
      this.#x = clientX;
      this.#y = clientY;
    });
    document.addEventListener('keydown', (event) => {
      if (event.repeat && event.key === 'Enter') event.preventDefault();
    });
  }

  /** Scrolls on where a button of the card has come to lie under it. */
  leave(): void {
    for (let paces = 1; paces <= mostPaces && this.#isOnButton(); paces++)
      window.scrollBy(0, (paces % 2 === 0 ? -1 : 1) * paces * pace);
  }

  #isOnButton(): boolean {
    return [-strays, 0, strays].some(
      (by) => document.elementFromPoint(this.#x, this.#y + by)?.closest('main button') != null,
    );
  }
}
