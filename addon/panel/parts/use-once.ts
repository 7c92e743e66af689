/** Does something once, when a view comes in front. */
import { useEffect, useRef } from 'preact/hooks';

export function useOnce(act: () => void): void {
  const first = useRef(act);
  useEffect(() => first.current(), []);
}
