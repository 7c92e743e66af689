/** Brings what a press made into sight, where it stands below what is seen. */
import type { RefObject } from 'preact';
import { useRef } from 'preact/hooks';

/** Where the answer stands, and the way to bring it once it is there. */
export function useIntoSight<E extends Element>(): readonly [RefObject<E | null>, () => void] {
  const ref = useRef<E>(null);
  // A frame later it is drawn.
  return [ref, () => requestAnimationFrame(() => ref.current?.scrollIntoView({ block: 'start' }))];
}
