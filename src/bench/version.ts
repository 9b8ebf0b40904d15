/** Goes up when a measure or a transition changes its result: every stored attempt names it. */
export const ENGINE_VERSION = '1';
