/** The fields of a posted form as typed. */
export type FormFields = {
  /** empty where the form has no such field */
  readonly one: (name: string) => string;
  readonly all: (name: string) => string[];
};

/** Reads a posted form; one that cannot be read has no fields. */
export async function readFields(request: Request): Promise<FormFields> {
  const form = await request.formData().catch(() => new FormData());
  const all = (name: string) => form.getAll(name).filter((value) => typeof value === 'string');
  return { one: (name) => all(name)[0] ?? '', all };
}
