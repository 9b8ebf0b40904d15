export * from './check-pack.ts';
export * from './consistency-file.ts';
export * from './manifest.ts';
export * from './zip.ts';
