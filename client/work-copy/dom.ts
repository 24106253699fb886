/** Small helpers to build what the work copy shows. Texts become text nodes, never markup. */

type Child = Node | string | undefined;

interface Options {
  readonly class?: string;
  readonly attributes?: Readonly<Record<string, string>>;
}

export function element<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  options: Options = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  if (options.class) made.className = options.class;
  for (const [name, value] of Object.entries(options.attributes ?? {})) made.setAttribute(name, value);
  made.append(...children.filter((child): child is Node | string => child !== undefined));
  return made;
}

export function button(text: string, press: () => void, options: Options = {}): HTMLButtonElement {
  const made = element('button', { ...options, attributes: { type: 'button', ...options.attributes } }, text);
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

export function textInput(attributes: Readonly<Record<string, string>> = {}): HTMLInputElement {
  return element('input', { attributes: { type: 'text', autocomplete: 'off', ...attributes } });
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
  return element('button', { class: 'main', attributes: { type: 'submit' } }, text);
}

/** One of several texts; its value is the index. */
export function choice(texts: readonly string[], chosen: number): HTMLSelectElement {
  const select = element('select');
  texts.forEach((text, index) => {
    select.append(
      element('option', { attributes: { value: String(index), ...(index === chosen && { selected: '' }) } }, text),
    );
  });
  return select;
}
