/** Building elements of the page. Text is only ever set as text. */

type Child = Node | string | undefined;

export interface Properties {
  readonly class?: string;
  readonly title?: string;
  readonly onclick?: () => void;
  readonly attributes?: Readonly<Record<string, string>>;
}

export function element<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  properties: Properties = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  if (properties.class) made.className = properties.class;
  if (properties.title) made.title = properties.title;
  if (properties.onclick) made.addEventListener('click', properties.onclick);
  for (const [name, value] of Object.entries(properties.attributes ?? {})) made.setAttribute(name, value);
  made.append(...children.filter((child) => child !== undefined));
  return made;
}

export function button(label: string, onclick: () => void, properties: Properties = {}): HTMLButtonElement {
  return element('button', { ...properties, onclick, attributes: { type: 'button', ...properties.attributes } }, label);
}

/** A labelled list to choose one thing from. */
export function chooser(
  label: string,
  options: readonly { readonly value: string; readonly text: string }[],
  chosen: string,
  onchange: (value: string) => void,
): HTMLLabelElement {
  const select = element('select');
  select.append(...options.map(({ value, text }) => new Option(text, value, false, value === chosen)));
  select.addEventListener('change', () => onchange(select.value));
  return element('label', { class: 'chooser' }, label, select);
}
