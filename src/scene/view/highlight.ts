import {
  EdgesGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
} from 'three';
import type { Part } from '../../bench/index.ts';

/** Edges turning by more than this are drawn, degrees. */
const CREASE = 34;

export type Highlight = {
  /** draws the part's edges in ink over everything; null draws nothing */
  show(part: Part | null): void;
  /** draws them again after the bench has changed */
  refresh(): void;
  dispose(): void;
};

/**
 * Points out one part as a drawing would: its edges in ink and a thin wash over it, seen through
 * whatever stands before it.
 */
export function createHighlight(root: Group, ink: string): Highlight {
  const over = { color: ink, transparent: true, depthTest: false, depthWrite: false } as const;
  const line = new LineBasicMaterial({ ...over, opacity: 0.62 });
  const wash = new MeshBasicMaterial({ ...over, opacity: 0.13 });
  let drawn: Group | null = null;
  let shown: Part | null = null;

  const clear = (): void => {
    drawn?.traverse((object) => {
      // a wash borrows the part's own shape
      if (object instanceof LineSegments) object.geometry.dispose();
    });
    drawn?.removeFromParent();
    drawn = null;
  };

  const draw = (): void => {
    clear();
    if (shown === null || shown === 'place' || shown === 'people') return;
    const made = new Group();
    root.traverse((object) => {
      if (!(object instanceof Mesh) || object.userData.part !== shown) return;
      // marks and lettering have no edges of their own
      if (!object.castShadow && object.material.polygonOffset) return;
      for (const copy of [
        new LineSegments(new EdgesGeometry(object.geometry, CREASE), line),
        new Mesh(object.geometry, wash),
      ]) {
        copy.matrixAutoUpdate = false;
        copy.matrix.copy(object.matrixWorld);
        copy.renderOrder = 10;
        made.add(copy);
      }
    });
    drawn = made;
    root.parent?.add(made);
  };

  return {
    show(part) {
      if (part === shown) return;
      shown = part;
      draw();
    },
    refresh: draw,
    dispose() {
      clear();
      line.dispose();
      wash.dispose();
    },
  };
}
