export * from './define-kind.ts';
export * from './envelope.ts';
export * from './event-id.ts';
export * from './log-entry.ts';
export * from './read-event.ts';
export * from './registry.ts';
