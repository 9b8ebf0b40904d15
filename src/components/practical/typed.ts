/** What a form shows again when it was refused: what was typed, and the sentence beside the field to blame. */
export type Typed = {
  readonly problem: { readonly path: string; readonly message: string } | null;
  readonly typed: Readonly<Record<string, string>>;
};

export const UNTYPED: Typed = { problem: null, typed: {} };
