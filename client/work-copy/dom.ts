/** Small helpers to build what the work copy shows. Texts become text nodes, never markup. */

type Child = Node | string | undefined;

type Attributes = Readonly<Record<string, string>>;

export function element<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...children.filter((child): child is Node | string => child !== undefined));
  return made;
}

/** What an entry says; a number and what it is a number of stay on one line. */
export function glued(text: string): readonly (string | HTMLElement)[] {
  const parts = text.split(/([-−]?\d(?:[\d.,]*\d)? [^\s\d]\S*)/);
  return parts.map((part, index) => (index % 2 === 0 ? part : element('span', { class: 'glued' }, part)));
}

export function verdictLine(text: string, attributes: Attributes = {}): HTMLElement {
  return element('p', { class: 'verdict', ...attributes }, ...glued(text));
}

/** Of a verdict on what is not as it must be. */
export const outside: Attributes = { class: 'verdict is-outside' };

export function button(text: string, press: () => void, attributes: Attributes = {}): HTMLButtonElement {
  const made = element('button', { type: 'button', ...attributes }, text);
  made.addEventListener('click', press);
  return made;
}

/** A field with its label round it. */
export function field(
  text: string,
  input: HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement,
): HTMLLabelElement {
  return element('label', { class: 'field' }, element('span', {}, text), input);
}

export function textInput(attributes: Attributes = {}): HTMLInputElement {
  return element('input', { type: 'text', autocomplete: 'off', ...attributes });
}

/** A form that is sent with Enter or its button, and goes nowhere. */
export function form(send: () => void, ...children: readonly Child[]): HTMLFormElement {
  const made = element('form', { class: 'entry-form' }, ...children);
  made.addEventListener('submit', (event) => {
    event.preventDefault();
    send();
  });
  return made;
}

export function submit(text: string): HTMLButtonElement {
  return element('button', { class: 'main', type: 'submit' }, text);
}

/** Where a form says what is wrong with what was entered. */
export const faultLine = () => element('p', { class: 'fault', role: 'alert' });

/** One of several texts; its value is the index. */
export function choice(texts: readonly string[], chosen: number): HTMLSelectElement {
  const select = element('select');
  texts.forEach((text, index) => {
    select.append(element('option', { value: String(index), ...(index === chosen && { selected: '' }) }, text));
  });
  return select;
}
