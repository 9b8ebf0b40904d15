import { makePacks } from './make-packs.ts';
import { type RunningSite, runSiteOn } from './site.ts';
import { makeWorld, type World } from './world.ts';

/** The invented world with the built site before it. */
export type OpenWorld = {
  readonly world: World;
  readonly site: RunningSite;
  /** Stops the site and takes the world away. */
  readonly close: () => Promise<void>;
};

/** Makes the world, starts the built site on it in a process of its own, and has it make the packs. */
export async function openWorld(): Promise<OpenWorld> {
  const made = await makeWorld();
  const site = await runSiteOn(made.place);
  const world = { ...made, packs: await makePacks(site, made) };
  return {
    world,
    site,
    close: async () => {
      await site.stop();
      await world.place.remove();
    },
  };
}
