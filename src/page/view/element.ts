type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

/** An element with attributes and children; an attribute that is false or undefined is left out, true stands alone. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false || value === undefined) continue;
    made.setAttribute(name, value === true ? '' : String(value));
  }
  made.append(...children);
  return made;
}

/** A button that does one thing. */
export function button(label: string, act: () => void, attributes: Attributes = {}): HTMLButtonElement {
  const made = element('button', { type: 'button', ...attributes }, label);
  made.addEventListener('click', act);
  return made;
}
