import { EdgesGeometry, Group, LineBasicMaterial, LineSegments, Mesh } from 'three';
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

/** Points out one part as a drawing would: its edges in ink, seen through whatever stands before it. */
export function createHighlight(root: Group, ink: string): Highlight {
  const through = new LineBasicMaterial({
    color: ink,
    transparent: true,
    opacity: 0.28,
    depthTest: false,
  });
  const plain = new LineBasicMaterial({ color: ink, transparent: true, opacity: 0.9 });
  let lines: Group | null = null;
  let shown: Part | null = null;

  const clear = (): void => {
    lines?.traverse((object) => {
      if (object instanceof LineSegments) object.geometry.dispose();
    });
    lines?.removeFromParent();
    lines = null;
  };

  const draw = (): void => {
    clear();
    if (shown === null || shown === 'place' || shown === 'people') return;
    const made = new Group();
    root.traverse((object) => {
      if (!(object instanceof Mesh) || object.userData.part !== shown) return;
      if (
        object.material.name === 'mark' ||
        object.material.name === 'stain' ||
        object.material.map?.isCanvasTexture
      )
        return;
      const edges = new EdgesGeometry(object.geometry, CREASE);
      object.updateWorldMatrix(true, false);
      for (const material of [through, plain]) {
        const drawn = new LineSegments(edges, material);
        drawn.matrixAutoUpdate = false;
        drawn.matrix.copy(object.matrixWorld);
        drawn.renderOrder = 10;
        drawn.raycast = () => {};
        made.add(drawn);
      }
    });
    lines = made;
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
      through.dispose();
      plain.dispose();
    },
  };
}
