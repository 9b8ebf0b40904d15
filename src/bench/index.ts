export { ActionSchema } from './action-schema.ts';
export * from './actions.ts';
export * from './instruments.ts';
export { knifeEdge, knifeEdgeExists } from './knife-edge.ts';
export * from './measures/index.ts';
export * from './measuring-points.ts';
export * from './schema/index.ts';
export * from './shape/index.ts';
export { type Effect, replay, type Step, transition } from './transition.ts';
