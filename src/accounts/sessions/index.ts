export * from './cookies.ts';
export type { DeviceKind } from './device-kind.ts';
export * from './end-sessions.ts';
export * from './find-session.ts';
export * from './limits.ts';
export * from './list-sessions.ts';
export * from './open-session.ts';
