import { BufferAttribute, type BufferGeometry } from 'three';

/**
 * Corners that are the same in every respect become one, and the triangles point to it: a third to a
 * half of the corners are left, and each of them is worked out once a frame and not six times.
 * @param geometry loose triangles, every attribute of float32; changed in place
 */
export function weld(geometry: BufferGeometry): void {
  const attributes = Object.entries(geometry.attributes) as [string, BufferAttribute][];
  const count = geometry.getAttribute('position').count;
  const bits = attributes.map(([, { array, itemSize }]) => ({
    words: new Uint32Array(array.buffer, array.byteOffset, array.length),
    itemSize,
  }));
  // open addressing, at most half full
  const slots = new Int32Array(2 ** Math.ceil(Math.log2(count * 2 + 1))).fill(-1);
  const mask = slots.length - 1;
  const index = new Uint32Array(count);
  const kept: number[] = [];
  const isSame = (a: number, b: number): boolean =>
    bits.every(({ words, itemSize }) => {
      for (let i = 0; i < itemSize; i++) {
        if (words[a * itemSize + i] !== words[b * itemSize + i]) return false;
      }
      return true;
    });
  for (let corner = 0; corner < count; corner++) {
    let hash = 0;
    for (const { words, itemSize } of bits) {
      for (let i = corner * itemSize; i < (corner + 1) * itemSize; i++) {
        hash = Math.imul(hash ^ (words[i] as number), 0x01000193);
        hash ^= hash >>> 15;
      }
    }
    let slot = hash & mask;
    for (;;) {
      const found = slots[slot] as number;
      if (found < 0) {
        slots[slot] = kept.length;
        index[corner] = kept.length;
        kept.push(corner);
        break;
      }
      if (isSame(kept[found] as number, corner)) {
        index[corner] = found;
        break;
      }
      slot = (slot + 1) & mask;
    }
  }
  for (const [name, { array, itemSize }] of attributes) {
    const packed = new Float32Array(kept.length * itemSize);
    for (const [to, from] of kept.entries()) {
      for (let i = 0; i < itemSize; i++) {
        packed[to * itemSize + i] = array[from * itemSize + i] as number;
      }
    }
    geometry.setAttribute(name, new BufferAttribute(packed, itemSize));
  }
  const words = kept.length > 65_535 ? index : new Uint16Array(index);
  geometry.setIndex(new BufferAttribute(words, 1));
}
