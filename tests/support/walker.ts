/**
 * Works through a card in the browser, as somebody who tries everything once: each step is left out and taken back, each check fails
 * once, each number is wrong until it is right. After each press the page is measured.
 */
export interface Walked {
  /** What does not fit, and in which state it was first seen. */
  readonly faults: readonly string[];
  readonly states: number;
  /** Where the record was not come to: the last state. */
  readonly stuckAt?: string;
}

/** Runs in the page; so everything that it needs stands in it. */
export function walkThrough(): Walked {
  // The last one is on each scale: whoever has tried them all stands before what is not as it must be.
  const numbers = '0 0.3 1.2 2 2.5 5 8 10 16 20 25 28 45 60 75 90 300 700 0'.split(' ');
  const mostPresses = 400;
  const smallest = 44;

  const realNow = Date.now;
  let ahead = 0;
  Date.now = () => realNow() + ahead;

  const all = <Kind extends Element = HTMLElement>(selector: string, inside: ParentNode = document) =>
    [...inside.querySelectorAll<Kind>(selector)].filter((one) => one.getClientRects().length > 0);
  const named = (words: RegExp, inside: ParentNode) => all('button', inside).find((one) => words.test(one.innerText));
  const nameOf = (one: Element) => `${one.tagName} ${one.className} “${one.textContent?.slice(0, 40)}”`;

  // ---------------------------------------------------------------- measuring

  const faults = new Map<string, string>();
  let states = 0;
  let last = '';
  const look = (state: string) => {
    states++;
    last = state;
    const found = [...outside(), ...barFaults(), ...small()];
    for (const fault of found) if (!faults.has(fault)) faults.set(fault, state);
  };
  // A page that is too wide makes a telephone's window wider.
  const width = Math.min(innerWidth, screen.width);
  const outside = () => {
    const scrolls = document.documentElement.scrollWidth > width ? ['the page scrolls sideways'] : [];
    const wide = all('body *').filter((one) => {
      if (one.closest('svg') !== null && one.tagName !== 'svg') return false;
      const { left, right } = one.getBoundingClientRect();
      const box = one.parentElement?.getBoundingClientRect();
      const isOut = box !== undefined && getComputedStyle(one).position === 'static' && right > box.right + 1.5;
      return left < -0.5 || right > width + 0.5 || isOut;
    });
    return [...scrolls, ...wide.map((one) => `runs out of its box: ${nameOf(one)}`)];
  };
  const barFaults = () => {
    const [bar] = all('.work-bar');
    if (bar === undefined) return [];
    const cut = all('button', bar).filter((one) => {
      const { bottom } = one.getBoundingClientRect();
      const isLong = one.scrollHeight > one.clientHeight + 1 || one.scrollWidth > one.clientWidth + 1;
      return bottom > innerHeight + 0.5 || /^(.*: )?$/.test(one.innerText) || (isLong && !one.matches('.now'));
    });
    const isHigh = bar.offsetHeight > innerHeight / 8 + 0.5;
    return [...(isHigh ? [`the bar is ${bar.offsetHeight} px high`] : []), ...cut.map((one) => `cut: ${nameOf(one)}`)];
  };
  const small = () =>
    all('button, input, select')
      .filter(({ offsetHeight }) => offsetHeight < smallest)
      .map((one) => `too small: ${nameOf(one)}`);

  // ---------------------------------------------------------------- pressing

  const type = (input: HTMLInputElement, text: string) => {
    input.value = text;
    input.dispatchEvent(new Event('input', { bubbles: true }));
  };
  const fill = (form: HTMLFormElement, texts: readonly string[]) =>
    all<HTMLInputElement>('input', form).forEach((input, index) => {
      if (input.type === 'date') type(input, '2099-01-01');
      else if (input.inputMode === 'decimal') type(input, index === 0 ? (texts[0] ?? '') : '0');
      else type(input, texts[index] ?? 'Ada Muster');
    });
  const send = (form: HTMLFormElement, texts: readonly string[], state: string) => {
    for (const select of all<HTMLSelectElement>('select', form)) {
      if (select.options[0]?.text !== '–' || select.selectedIndex > 0) continue;
      select.selectedIndex = 1;
      select.dispatchEvent(new Event('change', { bubbles: true }));
    }
    fill(form, texts);
    look(`${state}, typed`);
    form.requestSubmit();
    look(`${state}, sent`);
  };
  const press = (one: HTMLElement, state: string) => {
    one.click();
    look(`${state}, ${one.innerText}`);
  };
  const done = new Set<string>();
  const isFirst = (what: string) => !done.has(what) && done.add(what) !== undefined;
  const tries = new Map<string, number>();
  const nextNumber = (step: string) => {
    const count = tries.get(step) ?? 0;
    tries.set(step, count + 1);
    return numbers[count];
  };
  const reason = ['The gauge was found wrong by the foreman', 'Lena Brandt'];

  /** One thing with what is to be done now; false where there is nothing to do. */
  const goOn = (now: HTMLElement): boolean => {
    const state = `${now.id || now.className}: ${now.querySelector('.sentence, .asked')?.textContent?.slice(0, 40) ?? ''}`;
    const leaveOut = named(/^Leave out/, now);
    if (leaveOut && isFirst(`leave out ${state}`)) {
      press(leaveOut, state);
      const back = named(/^Back/, now);
      if (back) press(back, state);
      return true;
    }
    const begin = named(/^Begin$/, now);
    if (begin) {
      press(begin, state);
      return true;
    }
    const [number] = all<HTMLInputElement>('form input[inputmode]', now);
    const isWrong = all('.exit', now).length > 0 || all('form .fault', now).some((one) => one.innerText !== '');
    const isAnswered =
      all('.verdict:not(.is-outside)', number?.closest('.line') ?? now).length + all('.went-on', now).length > 0;
    const isAsking = number?.matches('.wanted') === true && !isAnswered;
    if (number?.form && (isAsking || isWrong)) {
      const text = isFirst(`1,020 ${state}`) ? '1,020' : nextNumber(state);
      if (text !== undefined) {
        send(number.form, [text], state);
        return true;
      }
    }
    return answer(now, state) || pressWanted(now, state);
  };
  const answer = (now: HTMLElement, state: string): boolean => {
    const pairs = all('.buttons', now).map((one) => all(':scope > [aria-pressed]', one));
    for (const [index, [good, bad]] of pairs.entries()) {
      if (good === undefined || bad === undefined || good.ariaPressed === 'true') continue;
      const isOpen = bad.ariaPressed === 'false';
      const isBad = isOpen && isFirst(`bad ${state} ${index}`);
      if (!isOpen && !isFirst(`good ${state} ${index}`)) continue;
      press(isBad ? bad : good, state);
      return true;
    }
    const [exit] = all('.exit', now);
    if (exit === undefined) return false;
    const [form] = all<HTMLFormElement>('form', exit);
    const way = named(/^Go on here/, exit) ?? named(/^Go there/, exit);
    if (form) send(form, reason, state);
    else if (way) press(way, state);
    return form !== undefined || way !== undefined;
  };
  const pressWanted = (now: HTMLElement, state: string): boolean => {
    const asking = all<HTMLFormElement>('form', now).find((one) => named(/^Keep the reason/, one));
    const text = all<HTMLInputElement>('input.wanted', now).find((one) => one.inputMode !== 'decimal');
    const form = asking ?? text?.form;
    if (form) {
      send(form, asking ? reason : [], state);
      return true;
    }
    const button =
      named(/^(End it now|End)$/, now) ?? all('button.wanted', now)[0] ?? named(/^(Do this one|Yes|Done)/, now);
    if (button?.matches('.done')) tries.delete(state);
    if (button) press(button, state);
    return button !== undefined;
  };

  look('as printed');
  named(/^Work with this card/, document)?.click();
  const [head] = all<HTMLFormElement>('.work-head form');
  if (head) send(head, [], 'the head');
  // One name for all roles is asked back once.
  if (head?.isConnected) send(head, [], 'the head, again');
  for (let count = 0; count < mostPresses; count++) {
    ahead += 15_000;
    const [now] = all('.is-now');
    if (now === undefined || !goOn(now)) break;
  }
  // Why it was stopped, then what the record needs.
  for (let count = 0; count < 2; count++) {
    const [form] = all<HTMLFormElement>('.work-record form');
    if (form) send(form, reason, 'the record');
  }
  return {
    faults: [...faults].map(([fault, state]) => `${fault} (${state})`),
    states,
    ...(!document.body.classList.contains('has-record') && { stuckAt: last }),
  };
}
