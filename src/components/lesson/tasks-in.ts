const TASK = /<BenchTask\b[^>]*\bid="([a-z0-9-]+)"/g;

/** Ids of the bench tasks a lesson's text leads to. */
export const tasksIn = (body: string): string[] => [
  ...new Set([...body.matchAll(TASK)].map((match) => match[1] as string)),
];
