type Child = Node | string | null;

/** An element with attributes and children. Text goes in as text, so a file can never bring markup. */
export function makeNode<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Readonly<Record<string, string | null>> = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== null) node.setAttribute(name, value);
  }
  node.append(...children.filter((child) => child !== null));
  return node;
}
