import { type Group, type Material, Mesh, MeshLambertMaterial } from 'three';
import type { Part } from '../../bench/index.ts';

/** Shows some parts as if of clear glass, so that what is behind them can be seen and measured. */
export function createSeeThrough(root: Group) {
  const glass = new MeshLambertMaterial({
    color: '#cfd6d9',
    transparent: true,
    opacity: 0.17,
    depthWrite: false,
  });
  let wanted: readonly Part[] = [];
  const clear = new Map<Mesh, { material: Material; shadow: boolean }>();

  const apply = (): void => {
    for (const [mesh, before] of clear) {
      mesh.material = before.material;
      mesh.castShadow = before.shadow;
    }
    clear.clear();
    if (wanted.length === 0) return;
    root.traverse((object) => {
      if (!(object instanceof Mesh) || object.userData.tool !== undefined) return;
      if (!wanted.includes(object.userData.part as Part)) return;
      clear.set(object, { material: object.material, shadow: object.castShadow });
      object.material = glass;
      object.castShadow = false;
    });
  };

  return {
    show(parts: readonly Part[]): void {
      if (parts.length === 0 && wanted.length === 0) return;
      wanted = parts;
      apply();
    },
    /** after the bench has been made again in part */
    refresh: apply,
    /** whether a part is being looked through, and so not to be picked */
    has: (part: Part): boolean => wanted.includes(part),
    dispose: (): void => glass.dispose(),
  };
}
