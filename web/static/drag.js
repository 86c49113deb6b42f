// Dragging with a pointer.

/**
 * Lets a pointer drag over a picture.
 * @param {Element} node
 * @param {(e: PointerEvent) => number | null} where what the pointer is at, null for nothing
 * @param {(at: number) => void} to called with it
 */
export function drag(node, where, to) {
  const follow = (/** @type {Event} */ e) => {
    const at = where(/** @type {PointerEvent} */ (e));
    if (at !== null) to(at);
  };
  node.addEventListener('pointerdown', (e) => {
    const p = /** @type {PointerEvent} */ (e);
    if (p.button !== 0) return;
    node.setPointerCapture(p.pointerId);
    follow(p);
  });
  node.addEventListener('pointermove', (e) => {
    if (node.hasPointerCapture(/** @type {PointerEvent} */ (e).pointerId)) follow(e);
  });
}
