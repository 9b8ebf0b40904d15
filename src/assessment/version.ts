/** Goes up when the same seed would make another bench: an attempt names the one it was made with. */
export const GENERATOR_VERSION = '1';
