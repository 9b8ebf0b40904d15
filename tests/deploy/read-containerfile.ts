/** One instruction of a container file, its words joined over continued lines. */
export type Instruction = { readonly name: string; readonly words: readonly string[] };

export function readContainerfile(text: string): Instruction[] {
  return text
    .split('\n')
    .filter((line) => !line.startsWith('#'))
    .join('\n')
    .replace(/\\\n/g, ' ')
    .split('\n')
    .flatMap((line) => {
      const [name, ...words] = line.trim().split(/\s+/);
      return name ? [{ name: name.toUpperCase(), words }] : [];
    });
}
