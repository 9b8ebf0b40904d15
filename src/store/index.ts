export type { Appended } from './append-event.ts';
export * from './content-files.ts';
export * from './content-texts.ts';
export * from './problems.ts';
export * from './readiness.ts';
export * from './site-key.ts';
export * from './store.ts';
export type { BrokenEvent, StoredEvent, WholeEvent } from './stored-event.ts';
export type { Tables } from './tables.ts';
